/** A record being read: tags put on its instants, handed in, marked. */
import { create } from 'zustand';
import type { OutputId } from '../../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S } from '../../../engine/units.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import type { ObserveExercise, Tag } from '../../../exercise/observe/types.ts';
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
  /** What the next tag will say. */
  output: OutputId;
  cause: CauseId | null;
}

export const useObservation = create<ObservationData>()(() => ({
  exercise: null,
  tags: [],
  output: 'innerRow',
  cause: null,
}));
const setObservation = useObservation.setState;
const getObservation = useObservation.getState;

async function openObservation(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'observe') return;
  const untilTick = secondsToTicks(exercise.observe.toS);
  // The room is run to the end of the record before it is shown: every instant can be looked at.
  loadStory(benchScenario(exercise, seed), { atTick: untilTick, fresh: true });
  setObservation({ exercise, tags: kept?.answers.observe?.tags ?? [], output: 'innerRow', cause: null });
  setApp({
    screen: 'main',
    speed: 10,
    job: { id: exercise.id, kind: 'observe', seed, stage: 'preparing', untilTick, allows: [] },
    foretold: null,
  });
  beginWhenRecorded(exercise, seed);
}

/** The record is whole: it is shown from its beginning. */
function beginWhenRecorded(exercise: ObserveExercise, seed: number): void {
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
      send({ type: 'seek', tick: 0 });
    }
    if (live.frame?.tick !== 0) return;
    stop();
    setStage('working');
  };
  const stop = useApp.subscribe(begin);
}

/** Nothing is done to the room: its record is the exercise's. */
export const observeKind: JobKind = {
  open: openObservation,
  begun: () => !stageIs('preparing'),
  answers: () => ({ observe: { tags: getObservation().tags } }),
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
