/** What somebody did in an attempt, act by act, beside what the stored expert does on the same bench, and where they part. */
import { canonicalJson } from '../../engine/digest.ts';
import type { ControllerSettings, Input, OutputId, RowId, TimedInput } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { CommissionExercise, DesignChoice } from '../commission/types.ts';
import { candidateOf } from '../diagnose/cards.ts';
import { isBefore } from '../diagnose/evidence.ts';
import { repairsAmong } from '../diagnose/repair.ts';
import { isFreeOnce, minutesOf, SWAP_MIN, testKey } from '../diagnose/tests.ts';
import type { Act, DiagnoseExercise, Test, Value } from '../diagnose/types.ts';
import { RATIO_WITHIN } from '../observe/ratios.ts';
import { TAG_WITHIN_S } from '../observe/tags.ts';
import type { Attempt, CauseId, Exercise } from '../types.ts';

export type PathAct =
  | { kind: 'test'; test: Test; values: Record<string, Value> }
  /** The cause named, by its title. */
  | { kind: 'claim'; card: string }
  | { kind: 'swap' }
  | { kind: 'input'; input: Input }
  | { kind: 'prove' }
  /** An instant shown for a criterion, by its title. */
  | { kind: 'clip'; criterion: string }
  | { kind: 'design'; choice: DesignChoice }
  | { kind: 'walkTest'; points: number }
  | { kind: 'edge'; output: OutputId; on: boolean; withinS: number }
  | { kind: 'tag'; output: OutputId; cause: CauseId }
  | { kind: 'readings'; desks: number }
  | { kind: 'ratio'; row: RowId; ratio: number };

export interface PathStep {
  /** Instant of the run, or that was spoken of, s; null: none. */
  atS: number | null;
  /** Minutes that the act costs on the bench; null: it has no price. */
  minutes: number | null;
  /** Left out of the sums of strategy: where it stands makes no other path. */
  free: boolean;
  act: PathAct;
}

export interface Paths {
  learner: PathStep[];
  expert: PathStep[];
  /** Places in both lists from which on they differ; null: they never do. */
  partAt: { learner: number; expert: number } | null;
}

/** Acts in order, each at its tick. */
type Ordered = Act & Omit<PathStep, 'atS'>;

function inOrder(acts: readonly Ordered[]): PathStep[] {
  return [...acts]
    .sort((a, b) => (isBefore(a, b) ? -1 : isBefore(b, a) ? 1 : 0))
    .map(({ tick, minutes, free, act }) => ({ atS: tick / TICKS_PER_S, minutes, free, act }));
}

const plain = (tick: number, serial: number, act: PathAct, minutes: number | null = null): Ordered => ({
  tick,
  serial,
  minutes,
  free: false,
  act,
});

/** Settings turned one after the other, with nothing else between, are one act: what they came to, when it was done. */
function actsOfInputs(inputs: readonly TimedInput[]): Ordered[] {
  const acts: Ordered[] = [];
  for (const { tick, serial, input } of inputs) {
    const last = acts.at(-1);
    if (input.kind === 'setSettings' && last?.act.kind === 'input' && last.act.input.kind === 'setSettings') {
      const change = { ...last.act.input.change, ...input.change };
      acts[acts.length - 1] = plain(tick, serial, { kind: 'input', input: { ...input, change } });
    } else acts.push(plain(tick, serial, { kind: 'input', input }));
  }
  return acts;
}

function diagnosePath(exercise: DiagnoseExercise, { inputs, answers }: Attempt): PathStep[] {
  const { clips = [], claims = [], swaps = [] } = answers.diagnose ?? {};
  const titleOf = (id: string): string =>
    exercise.diagnose.candidates.some(({ card }) => card.id === id) ? candidateOf(exercise, id).card.title : id;
  const [verdict] = claims;
  return inOrder([
    ...clips.map(({ tick, serial, test, values }) => ({
      ...plain(tick, serial, { kind: 'test', test, values }, minutesOf(test)),
      free: isFreeOnce(test) && (!verdict || isBefore({ tick, serial }, verdict)),
    })),
    ...claims.map(({ tick, serial, card }) => plain(tick, serial, { kind: 'claim', card: titleOf(card) })),
    ...swaps.map(({ tick, serial }) => plain(tick, serial, { kind: 'swap' }, SWAP_MIN)),
    ...actsOfInputs(repairsAmong(inputs)),
  ]);
}

/** Where people go is no act of commissioning; a walk-test is told by its points. */
const PEOPLE: readonly Input['kind'][] = ['setPlan', 'placePerson', 'addPerson', 'removePerson'];

function commissionPath({ commission }: CommissionExercise, { inputs, answers, headTick }: Attempt): PathStep[] {
  const { proved = [], clips = [], walkTest, design } = answers.commission ?? {};
  const titleOf = (id: string): string => commission.criteria.find((one) => one.id === id)?.title ?? id;
  const last = inputs.length;
  return inOrder([
    ...actsOfInputs(inputs.filter(({ input }) => !PEOPLE.includes(input.kind))),
    ...clips.map(({ criterion, tick }) => plain(tick, last, { kind: 'clip', criterion: titleOf(criterion) })),
    ...(walkTest ? [plain(headTick, last, { kind: 'walkTest', points: walkTest.points.length })] : []),
    ...(design ? [plain(0, -1, { kind: 'design', choice: design })] : []),
    ...proved.map(({ tick, serial }) => plain(tick, serial, { kind: 'prove' })),
  ]);
}

/** Answers about instants of the record, in their order of time. */
function answerPath(exercise: Exercise, { answers }: Attempt): PathStep[] {
  const step = (atS: number | null, act: PathAct): PathStep => ({ atS, minutes: null, free: false, act });
  const withinS = exercise.kind === 'predict' ? exercise.predict.toleranceS : 0;
  const edges = Object.entries(answers.predict?.edges ?? {}) as [OutputId, { atS: number; on: boolean }[]][];
  const { tags = [], readings, ratios = {} } = answers.observe ?? {};
  const said = [
    ...edges.flatMap(([output, list]) => list.map(({ atS, on }) => step(atS, { kind: 'edge', output, on, withinS }))),
    ...tags.map(({ atS, output, cause }) => step(atS, { kind: 'tag', output, cause })),
  ].sort((a, b) => (a.atS ?? 0) - (b.atS ?? 0));
  const desks = new Set(readings?.map(({ desk }) => desk)).size;
  return [
    ...said,
    ...(readings ? [step(null, { kind: 'readings', desks })] : []),
    ...(Object.entries(ratios) as [RowId, number][]).map(([row, ratio]) => step(null, { kind: 'ratio', row, ratio })),
  ];
}

export function pathOf(exercise: Exercise, attempt: Attempt): PathStep[] {
  if (exercise.kind === 'diagnose') return diagnosePath(exercise, attempt);
  if (exercise.kind === 'commission' || exercise.kind === 'design') return commissionPath(exercise, attempt);
  return answerPath(exercise, attempt);
}

function near(a: PathStep, b: PathStep, withinS: number): boolean {
  return Math.abs((a.atS ?? 0) - (b.atS ?? 0)) <= withinS;
}

/** The same act, as far as marking sees a difference; when it was done matters only where the instant is the answer. */
function isSameStep(a: PathStep, b: PathStep): boolean {
  const [x, y] = [a.act, b.act];
  if (x.kind === 'test' && y.kind === 'test') return testKey(x.test) === testKey(y.test);
  if (x.kind === 'ratio' && y.kind === 'ratio')
    return x.row === y.row && Math.abs(x.ratio - y.ratio) <= RATIO_WITHIN * y.ratio;
  if (canonicalJson(x) !== canonicalJson(y)) return false;
  if (x.kind === 'edge') return near(a, b, x.withinS);
  return x.kind !== 'tag' || near(a, b, TAG_WITHIN_S);
}

/** Both paths, and the first acts that differ, looking past acts that are free. */
export function besideEachOther(learner: PathStep[], expert: PathStep[]): Paths {
  const counted = (steps: readonly PathStep[]): number[] => steps.flatMap(({ free }, i) => (free ? [] : [i]));
  const [mine, theirs] = [counted(learner), counted(expert)];
  for (let i = 0; i < Math.max(mine.length, theirs.length); i++) {
    const a = learner[mine[i] ?? -1];
    const b = expert[theirs[i] ?? -1];
    if (a && b && isSameStep(a, b)) continue;
    return { learner, expert, partAt: { learner: mine[i] ?? learner.length, expert: theirs[i] ?? expert.length } };
  }
  return { learner, expert, partAt: null };
}

/** Where the paths part at settings on both sides: the ones that differ, in the order of their names. */
export function settingsApart({ learner, expert, partAt }: Paths): (keyof ControllerSettings)[] {
  if (!partAt) return [];
  const [a, b] = [learner[partAt.learner]?.act, expert[partAt.expert]?.act];
  const changeOf = (act: PathAct | undefined): Partial<ControllerSettings> | null =>
    act?.kind === 'input' && act.input.kind === 'setSettings' ? act.input.change : null;
  const [mine, theirs] = [changeOf(a), changeOf(b)];
  if (!mine || !theirs) return [];
  const keys = [...new Set([...Object.keys(mine), ...Object.keys(theirs)])].sort() as (keyof ControllerSettings)[];
  return keys.filter((key) => canonicalJson(mine[key] ?? null) !== canonicalJson(theirs[key] ?? null));
}
