/** year: a story's room through the seasons, 36 days of it, as a table. */
import { createSetup } from '../engine/setup.ts';
import { yearJob } from '../exercise/year/job.ts';
import { yearText } from '../report/year.ts';
import { readArgs } from './args.ts';
import { complain, storyFrom } from './stories.ts';

/** Ticks between two looks at the progress. Assumed: a line every second or so. */
const SLICE_TICKS = 200_000;
/** Most watts of one lamp that are taken for true. Assumed: a floodlight; more is a slip of the keys. */
const MOST_W = 2000;

function wattsOf(text: string | undefined): number | null | string {
  if (text === undefined) return null;
  const watts = Number(text);
  const fine = Number.isFinite(watts) && watts > 0 && watts <= MOST_W;
  return fine ? watts : `--watts expects the watts of one lamp, 0 to ${MOST_W}, but is "${text}".`;
}

export function year(words: string[]): number {
  const read = readArgs(words, ['watts'], []);
  if (!read.ok) {
    complain([read.sentence]);
    return 1;
  }
  const { plain, values } = read.args;
  const lampW = wattsOf(values.get('watts'));
  if (typeof lampW === 'string') {
    complain([lampW]);
    return 1;
  }
  const scenario = storyFrom(plain[0]);
  if (!scenario) return 1;
  if (plain.length > 1) {
    complain([`Expected one SCENARIO, but there is "${plain[1]}" too.`]);
    return 1;
  }
  const job = yearJob({ scenario, setup: createSetup(scenario), settings: scenario.settings });
  const tell = process.stderr.isTTY;
  while (!job.work(SLICE_TICKS)) {
    if (tell) process.stderr.write(`\r${Math.floor(job.share() * 100)} % `);
  }
  if (tell) process.stderr.write('\r      \r');
  process.stdout.write(`${yearText(job.result(), lampW).join('\n')}\n`);
  return 0;
}
