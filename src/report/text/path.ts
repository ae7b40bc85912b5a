/** Words of two paths side by side: what was done, by whom, and where they part. */
import type { PathAct } from '../../exercise/assessment/path.ts';
import type { DesignChoice } from '../../exercise/commission/types.ts';
import type { Place } from '../../exercise/diagnose/types.ts';
import { commissionWords } from './commission.ts';
import { inputSentence } from './events.ts';
import { instrumentName, readingText, testLine } from './evidence.ts';
import { joined } from './format.ts';
import { causeName } from './jobs.ts';
import { outputName, rowName } from './names.ts';
import { walkedText, walkReason, walksWords } from './walks.ts';

export const pathWords = {
  head: 'Beside the expert in this room',
  note: 'The expert shows one short way that passes, not the only right one.',
  work: 'Work out both paths',
  working: 'The expert is at work in this room…',
  failed: 'The room gave no path.',
  learner: 'Learner',
  expert: 'Expert',
  columns: { clock: 'Clock', minutes: 'Min', act: 'What was done' },
  minutes: (n: number): string => `${n} min together`,
  parts: (settings: readonly string[]): string =>
    settings.length > 0 ? `Here the paths part: ${settings.join('; ')}` : 'Here the paths part',
  ends: 'Ends here',
  never: 'Both paths are the same, act by act.',
  nothing: 'Nothing was done.',
} as const;

/** What the things of an exercise are called. */
export interface PathNames {
  /** Of a diagnosis, by which tests are named. */
  places: readonly Place[];
  /** Of a design: the points to hang it at, and the number of a lamp as the plan has it. */
  point: (id: string) => string;
  lamp: (id: string) => number;
}

function designText({ point, turnDeg, rows }: DesignChoice, names: PathNames): string {
  const inner = Object.keys(rows)
    .filter((id) => rows[id] === 'inner')
    .map(names.lamp)
    .sort((a, b) => a - b);
  const lamps =
    inner.length === 0 ? 'no lamp' : `${inner.length === 1 ? 'lamp' : 'lamps'} ${joined(inner.map(String))}`;
  return `Place: ${names.point(point)}, window arrow ${commissionWords.turned(turnDeg)}, ${lamps} in the inner row.`;
}

/** One act as a sentence. */
export function actText(act: PathAct, names: PathNames): string {
  switch (act.kind) {
    case 'test':
      // The sheet's reading names the setting itself.
      if (act.test.instrument === 'settings')
        return `${instrumentName.settings}: ${readingText(act.test, act.values)}.`;
      return `${testLine(act.test, names.places)}. ${readingText(act.test, act.values)}`;
    case 'claim':
      return `Cause named: ${act.card}.`;
    case 'swap':
      return 'Detector replaced.';
    case 'input':
      return inputSentence(act.input);
    case 'prove':
      return 'Proving run of the room as it stands.';
    case 'clip':
      return `Instant shown for: ${act.criterion}.`;
    case 'design':
      return designText(act.choice, names);
    case 'walkTest':
      return `Walk-test: ${commissionWords.noted(act.points)}.`;
    case 'edge':
      return `${outputName[act.output]} ${act.on ? 'on' : 'off'}.`;
    case 'tag':
      return `${outputName[act.output]} tagged: ${causeName[act.cause]}.`;
    case 'readings':
      return `Desks read: ${act.desks}.`;
    case 'ratio':
      return `Ratio of the ${rowName[act.row].toLowerCase()}: ${act.ratio.toFixed(2)}.`;
    case 'walk':
      return walkedText(act.nth - 1, act.walked);
    case 'earlier':
      return `${walksWords.earlier}: ${walksWords.walks[act.nth - 1]}.`;
    case 'why':
      return `${walksWords.why}: ${walkReason[act.why]}.`;
  }
}
