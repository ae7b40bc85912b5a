/** An observation being made: tags put on the instants of a record, or desks read and ratios said. */
import { create } from 'zustand';
import type { OutputId, RowId, Tick } from '../../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S } from '../../../engine/units.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import type {
  DeskReading,
  ObserveAnswers,
  ObserveExercise,
  Tag,
  WalkedLine,
  WalkReason,
} from '../../../exercise/observe/types.ts';
import { isWalks, WALK_FROM_S, walkPaces, walkScenario } from '../../../exercise/observe/walks.ts';
import type { Attempt, CauseId, Exercise } from '../../../exercise/types.ts';
import { observeWords } from '../../../report/text/observe.ts';
import { live } from '../live.ts';
import { loadStory } from '../session.ts';
import { getApp, setApp, useApp } from '../store.ts';
import { send } from '../wire.ts';
import { isOpen, type JobKind, keep, setStage, stageIs } from './job.ts';

export interface ObservationData {
  exercise: ObserveExercise | null;
  tags: Tag[];
  readings: DeskReading[];
  ratios: Partial<Record<RowId, number>>;
  /** What the next tag will say. */
  output: OutputId;
  cause: CauseId | null;
  /** The two walks as they are chosen, what is concluded, and whose record is shown. */
  walks: WalkedLine[];
  earlier: 0 | 1 | null;
  why: WalkReason | null;
  shownWalk: 0 | 1 | null;
  /** The record of a walk is being made. */
  making: boolean;
}

const NOTHING_WALKED = { walks: [], earlier: null, why: null, shownWalk: null, making: false };

export const useObservation = create<ObservationData>()(() => ({
  exercise: null,
  tags: [],
  readings: [],
  ratios: {},
  output: 'innerRow',
  cause: null,
  ...NOTHING_WALKED,
}));
export const setObservation = useObservation.setState;
export const getObservation = useObservation.getState;

async function openObservation(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'observe') return;
  const untilTick = secondsToTicks(exercise.observe.toS);
  const { observe } = exercise;
  const fromS = { tags: 0, ratios: observe.task === 'ratios' ? observe.fromS : 0, walks: WALK_FROM_S }[observe.task];
  const fromTick = secondsToTicks(fromS);
  // A record is run to its end before it is shown: every instant of it can be looked at.
  const headTick = observe.task === 'ratios' ? fromTick : untilTick;
  const scenario = isWalks(exercise) ? walkScenario(exercise, seed, null) : benchScenario(exercise, seed);
  loadStory(scenario, { atTick: headTick, fresh: true });
  const { tags = [], readings = [], ratios = {}, ...walked } = kept?.answers.observe ?? {};
  setObservation({
    exercise,
    tags,
    readings,
    ratios,
    output: 'innerRow',
    cause: null,
    ...keptWalks(exercise, seed, walked),
  });
  setApp({
    screen: 'main',
    speed: isWalks(exercise) ? 1 : 10,
    job: { id: exercise.id, kind: 'observe', seed, aid: exercise.aid, stage: 'preparing', untilTick, allows: [] },
    foretold: null,
  });
  whenShown(exercise, seed, fromTick, () => setStage('working'));
}

function keptWalks(
  exercise: ObserveExercise,
  seed: number,
  { walks = [], earlier, why }: ObserveAnswers,
): Partial<ObservationData> {
  if (!isWalks(exercise)) return NOTHING_WALKED;
  const first = { line: 1, paceMps: walkPaces(exercise, seed)[0] };
  return {
    ...NOTHING_WALKED,
    walks: [walks[0] ?? first, walks[1] ?? first],
    earlier: earlier ?? null,
    why: why ?? null,
  };
}

/** Stands the room at an instant; `done` is called when it is shown, and the job is still at the same stage. */
export function whenShown(exercise: ObserveExercise, seed: number, tick: Tick, done: () => void): void {
  const stage = getApp().job?.stage;
  let asked = false;
  const begin = (): void => {
    if (!isOpen(exercise, seed) || getApp().job?.stage !== stage) {
      stop();
      return;
    }
    if (getApp().readiness !== 'ready') return;
    if (!asked) {
      asked = true;
      // A room told to stand hands over its recording, with the digests that the attempt is checked by.
      send({ type: 'pause' });
      send({ type: 'seek', tick });
    }
    if (live.frame?.tick !== tick) return;
    stop();
    done();
  };
  const stop = useApp.subscribe(begin);
}

/** Nothing is done to the room: what happens in it is the exercise's. */
export const observeKind: JobKind = {
  open: openObservation,
  // Walks are records beside each other: what is handed in is what was noted of them.
  begun: () => !stageIs('preparing') && getObservation().exercise?.observe.task !== 'walks',
  answers: () => {
    const { exercise, tags, readings, ratios, walks, earlier, why } = getObservation();
    const task = exercise?.observe.task;
    if (task !== 'walks') return { observe: task === 'tags' ? { tags } : { readings, ratios } };
    return {
      observe: {
        walks,
        ...(earlier === null ? {} : { earlier }),
        ...(why === null ? {} : { why }),
      },
    };
  },
  inputs: () => [],
  unmarked: 'working',
  busy: () => getObservation().making,
};

/** Whether all that is asked has been noted, right or wrong: then handing in comes next. */
export function isObserved({
  exercise,
  tags,
  readings,
  ratios,
  earlier,
  why,
}: Pick<ObservationData, 'exercise' | 'tags' | 'readings' | 'ratios' | 'earlier' | 'why'>): boolean {
  const observe = exercise?.observe;
  if (!observe) return false;
  if (observe.task === 'tags') return tags.length >= observe.moments;
  if (observe.task === 'walks') return earlier !== null && why !== null;
  return readings.length > 0 && ratios.inner !== undefined && ratios.window !== undefined;
}

export function chooseOutput(output: OutputId): void {
  setObservation({ output });
}

export function chooseReason(cause: CauseId | null): void {
  setObservation({ cause });
}

/** Tags the instant shown. A tag of this output at the same instant is replaced. */
export function tagNow(): void {
  const { exercise, tags, output, cause } = getObservation();
  if (!exercise || cause === null || !stageIs('working')) return;
  const atS = getApp().shownTick / TICKS_PER_S;
  if (atS > exercise.observe.toS) {
    setApp({ notice: observeWords.beyond });
    return;
  }
  const others = tags.filter((tag) => tag.output !== output || tag.atS !== atS);
  const all = [...others, { atS, output, cause }].sort((a, b) => a.atS - b.atS);
  setObservation({ tags: all, cause: null });
  keep();
}

export function removeTag(tag: Tag): void {
  if (!stageIs('working')) return;
  setObservation((s) => ({ tags: s.tags.filter((other) => other !== tag) }));
  keep();
}

/** Lays the meter on a desk at the instant shown. A desk read again is read anew. */
export function readDesk(place: number, { id: desk, row }: { id: string; row: RowId }): void {
  const { exercise, readings } = getObservation();
  const { frame } = live;
  if (!exercise || !frame || !stageIs('working')) return;
  const { tick } = frame;
  if (tick > secondsToTicks(exercise.observe.toS)) {
    setApp({ notice: observeWords.beyond });
    return;
  }
  const reading = { tick, desk, deskLx: frame.deskLx[place] ?? 0, ceilingLx: frame.light[row].ceilingReadingLx };
  setObservation({ readings: [...readings.filter((old) => old.desk !== desk), reading] });
  keep();
}

/** Undefined: nothing said about this row. */
export function sayRatio(row: RowId, ratio: number | undefined): void {
  if (!stageIs('working')) return;
  const { [row]: _old, ...others } = getObservation().ratios;
  setObservation({ ratios: ratio === undefined ? others : { ...others, [row]: ratio } });
  keep();
}
