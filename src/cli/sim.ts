/** npm run sim -- VERB …: the command line. Verbs are loaded when they are asked for. */
import { existsSync } from 'node:fs';

interface Verb {
  /** What comes after the verb. */
  usage: string;
  does: string;
  load: () => Promise<(args: string[]) => number | Promise<number>>;
}

type VerbModule = Record<string, unknown>;

/** A module of this folder, by its file and the name of its function. */
async function verbFrom(file: string, name: string): Promise<(args: string[]) => number | Promise<number>> {
  const url = new URL(file, import.meta.url);
  if (!existsSync(url)) throw new Error(`the verb is unknown to this version (src/cli/${file.slice(2)} is not there).`);
  const module = (await import(url.href)) as VerbModule;
  const verb = module[name];
  if (typeof verb !== 'function') throw new Error(`${file} has no function ${name}`);
  return verb as (args: string[]) => number;
}

const VERBS: Record<string, Verb> = {
  run: {
    usage: 'SCENARIO [--inputs FILE] [--settings JSON] [--for 2h] [--seed N] [--out FILE.ndjson] [--samples]',
    does: 'runs a story headless; one JSON object a line, the last with the digest',
    load: () => verbFrom('./run.ts', 'run'),
  },
  compare: {
    usage: 'SCENARIO --settings JSON [--for 24h]',
    does: 'one day under several settings: people are sensed once, their pulses used again for each',
    load: () => verbFrom('./compare.ts', 'compare'),
  },
  timelines: {
    usage: 'FILE [--out FILE]',
    does: 'runs controller timelines and prints each mismatch',
    load: () => verbFrom('./timelines.ts', 'timelines'),
  },
  physics: {
    usage: 'FILE',
    does: "evaluates rows of reference quantities with the engine's own functions",
    load: () => verbFrom('./physics.ts', 'physics'),
  },
  rooms: {
    usage: 'FILE',
    does: 'builds whole rooms and prints lux at points against the expected ones',
    load: () => verbFrom('./rooms.ts', 'rooms'),
  },
  ranges: {
    usage: '[DETECTOR] [--heights 2.5,3] [--temperatures 20,30] [--speeds 0.3,1] [--quick]',
    does: 'detection ranges as a table: across, toward, seated by mounting, warmth and speed',
    load: () => verbFrom('./ranges.ts', 'ranges'),
  },
  words: {
    usage: 'SCENARIO [--at 14:20]',
    does: 'the room in words',
    load: () => verbFrom('./words.ts', 'words'),
  },
  year: {
    usage: 'SCENARIO [--watts 30]',
    does: 'a year of the room in 36 days under typical skies, as a table; a minute or more',
    load: () => verbFrom('./year.ts', 'year'),
  },
  draw: {
    usage: 'SCENARIO [--at 14:20] [--from 13:00] [--blank] [--sight] [--out FILE.svg]',
    does: 'plan and strip chart as SVG',
    load: () => verbFrom('./draw.ts', 'draw'),
  },
  prove: {
    usage: '[EXERCISE-OR-FILE…] [--random 1000]',
    does: "plays each exercise's proofs",
    load: () => verbFrom('./prove.ts', 'prove'),
  },
  grade: {
    usage: 'FILE-OR-FOLDER… [--csv FILE]',
    does: 'replays attempts and marks them again',
    load: () => verbFrom('./grade.ts', 'grade'),
  },
  scorm: {
    usage: 'EXERCISE-OR-FILE [--bench N] [--level guided|practice|test] [--out FILE.zip]',
    does: 'packs a job for a learning platform (SCORM 1.2); needs a built page',
    load: () => verbFrom('./scorm.ts', 'scorm'),
  },
};

function usage(): string {
  const lines = Object.entries(VERBS).map(([name, verb]) => `  ${name} ${verb.usage}\n      ${verb.does}`);
  return `Usage: npm run sim -- VERB …\n${lines.join('\n')}\n`;
}

async function main(argv: string[]): Promise<number> {
  const [name, ...args] = argv;
  if (name === undefined || name === '--help' || name === 'help') {
    process.stdout.write(usage());
    return name === undefined ? 1 : 0;
  }
  const verb = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  const known = Object.keys(VERBS).join(', ');
  if (!verb) {
    process.stderr.write(`"${name}" is not a verb; expected one of ${known}.\n`);
    return 1;
  }
  try {
    const work = await verb.load();
    return await work(args);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    process.stderr.write(`${name}: ${message}\n`);
    return 1;
  }
}

process.exitCode = await main(process.argv.slice(2));
