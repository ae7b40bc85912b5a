/** An observation being made: tags put on the instants of a record, or desks read and ratios said. */
import { create } from 'zustand';
import type { OutputId, RowId, Tick } from '../../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S } from '../../../engine/units.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import type { DeskReading, ObserveExercise, Tag } from '../../../exercise/observe/types.ts';
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
}

export const useObservation = create<ObservationData>()(() => ({
  exercise: null,
  tags: [],
  readings: [],
  ratios: {},
  output: 'innerRow',
  cause: null,
}));
const setObservation = useObservation.setState;
const getObservation = useObservation.getState;

async function openObservation(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'observe') return;
  const untilTick = secondsToTicks(exercise.observe.toS);
  const { observe } = exercise;
  const fromTick = observe.task === 'tags' ? 0 : secondsToTicks(observe.fromS);
  // A record is run to its end before it is shown: every instant of it can be looked at.
  const headTick = observe.task === 'tags' ? untilTick : fromTick;
  loadStory(benchScenario(exercise, seed), { atTick: headTick, fresh: true });
  const { tags = [], readings = [], ratios = {} } = kept?.answers.observe ?? {};
  setObservation({ exercise, tags, readings, ratios, output: 'innerRow', cause: null });
  setApp({
    screen: 'main',
    speed: 10,
    job: { id: exercise.id, kind: 'observe', seed, aid: exercise.aid, stage: 'preparing', untilTick, allows: [] },
    foretold: null,
  });
  beginWhenReady(exercise, seed, fromTick);
}

/** The work begins when the room shows the instant that it begins at. */
function beginWhenReady(exercise: ObserveExercise, seed: number, fromTick: Tick): void {
  let asked = false;
  const begin = (): void => {
    if (!isOpen(exercise, seed) || !stageIs('preparing')) {
      stop();
      return;
    }
    if (getApp().readiness !== 'ready') return;
    if (!asked) {
      asked = true;
      // A room told to stand hands over its recording, with the digests that the attempt is checked by.
      send({ type: 'pause' });
      send({ type: 'seek', tick: fromTick });
    }
    if (live.frame?.tick !== fromTick) return;
    stop();
    setStage('working');
  };
  const stop = useApp.subscribe(begin);
}

/** Nothing is done to the room: what happens in it is the exercise's. */
export const observeKind: JobKind = {
  open: openObservation,
  begun: () => !stageIs('preparing'),
  answers: () => {
    const { exercise, tags, readings, ratios } = getObservation();
    return { observe: exercise?.observe.task === 'tags' ? { tags } : { readings, ratios } };
  },
  inputs: () => [],
  unmarked: 'working',
};

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
