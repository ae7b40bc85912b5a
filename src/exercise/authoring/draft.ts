/** A job made from what somebody did in a story: the recorded acts become its script, the draft its file. */
import type { OutputId, Tick, TimedInput } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { FORMAT } from '../../scenario/schemas/words.ts';
import type { Aid } from '../types.ts';

/** What the author decides. Times are s of the story. */
export interface Draft {
  title: string;
  question: string;
  brief: string;
  aid: Aid;
  hints: [string, string, string];
  outputs: OutputId[];
  fromS: number;
  toS: number;
  toleranceS: number;
  told: { atS: number; say: string }[];
  /** Off-delays of both rows that the benches draw from, s; with fewer than two all benches keep the story's. */
  offDelaysS: number[];
}

/** What the draft stands on: a bundled story by its id, or the text of a story of somebody's own. */
export type DraftStory = { id: string } | { text: string };

/** Everything done up to an instant, as the script of an exercise. What came later belongs to no window. */
export function recordedScript(inputs: readonly TimedInput[], untilTick: Tick) {
  return [...inputs]
    .filter(({ tick }) => tick <= untilTick)
    .sort((a, b) => a.tick - b.tick || a.serial - b.serial)
    .map(({ tick, input }) => ({ atS: tick / TICKS_PER_S, input }));
}

/** Longest part of an id that is made from a title, characters. Source: ids of files have at most 40. */
const ID_LENGTH = 36;

/** "Who's in, at noon?" -> own-who-s-in-at-noon. The first word keeps jobs of lecturers apart from those that came along. */
export function idOfTitle(title: string): string {
  const words = title
    .normalize('NFD')
    .toLowerCase()
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[^a-z0-9]+/g, '-');
  return `own-${words}`.slice(0, ID_LENGTH).replace(/-+$/, '');
}

/** Text of the exercise file. Whether it is a good one is found out by reading it and by its proofs. */
export function draftText(draft: Draft, story: DraftStory, inputs: readonly TimedInput[]): string {
  const { title, question, brief, aid, hints, told, offDelaysS, ...predict } = draft;
  const script = recordedScript(inputs, Math.round(draft.toS * TICKS_PER_S));
  const delays = offDelaysS.map((s) => ({ settings: { innerOffDelayS: s, windowOffDelayS: s } }));
  const file = {
    format: FORMAT,
    id: idOfTitle(title),
    kind: 'predict',
    job: 0,
    title,
    question,
    brief,
    aid,
    hints,
    story: 'id' in story ? story.id : (JSON.parse(story.text) as unknown),
    change: { script },
    ...(delays.length > 1 ? { draws: [delays] } : {}),
    told: [...told].sort((a, b) => a.atS - b.atS),
    predict,
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}
