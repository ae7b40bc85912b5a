/** A prediction being worked: foretold, run, seen. */
import { create } from 'zustand';
import type { OutputId } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import type { Given } from '../../../exercise/predict/given.ts';
import type { Attempt, CauseId, Edge, EdgesByOutput, Exercise, PredictExercise } from '../../../exercise/types.ts';
import { run } from '../acts.ts';
import { readSave } from '../saves.ts';
import { loadStory } from '../session.ts';
import { type AppState, getApp, setApp, useApp } from '../store.ts';
import { clampS, countedPulseS, delayFor, inTurn, otherPulseS } from './edges.ts';
import { isOpen, type JobKind, keep, setStage, stageIs, tell } from './job.ts';
import { ask } from './worker.ts';

export interface PredictionData {
  exercise: PredictExercise | null;
  seed: number;
  given: Given | null;
  edges: EdgesByOutput;
  /** The output whose edges are worked on, and which of them. */
  output: OutputId;
  chosen: number | null;
  seen: Partial<Record<OutputId, number>>;
  why: { output: OutputId; index: number; cause: CauseId }[];
}

const EMPTY = {
  given: null,
  edges: {} as EdgesByOutput,
  chosen: null,
  seen: {},
  why: [],
};

export const usePrediction = create<PredictionData>()(() => ({
  exercise: null,
  seed: 1,
  output: 'innerRow',
  ...EMPTY,
}));
const setPrediction = usePrediction.setState;
const getPrediction = usePrediction.getState;

async function openPrediction(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'predict') return;
  const scenario = benchScenario(exercise, seed);
  const locked = kept?.headTick ? kept : null;
  const saved = locked ? readSave(scenario) : null;
  const usable = saved && saved !== 'damaged' ? saved : null;
  const fromTick = secondsToTicks(exercise.predict.fromS);
  loadStory(scenario, usable ? { saved: usable } : { atTick: fromTick, fresh: true });
  const { edges = {}, seen = {}, why = [] } = kept?.answers.predict ?? {};
  setPrediction({ ...EMPTY, exercise, seed, output: exercise.predict.outputs[0]!, edges, seen, why });
  setApp({
    screen: 'main',
    speed: 60,
    job: {
      id: exercise.id,
      kind: 'predict',
      seed,
      aid: exercise.aid,
      stage: 'preparing',
      untilTick: secondsToTicks(exercise.predict.toS),
      allows: [],
    },
    foretold: locked ? edges : null,
  });
  try {
    const answer = await ask({ type: 'given', exercise, seed });
    if (!isOpen(exercise, seed) || answer.type !== 'given') return;
    setPrediction({ given: answer.given });
    setStage(locked ? 'running' : 'predicting');
    if (locked) watchEnd();
  } catch (error) {
    tell(error);
  }
}

/** Nothing is done to the room: its script is the exercise's. */
export const predictKind: JobKind = {
  open: openPrediction,
  begun: () => getApp().foretold !== null,
  answers: () => {
    const { edges, seen, why } = getPrediction();
    return { predict: { edges, seen, why } };
  },
  inputs: () => [],
  unmarked: 'seen',
};

// --- foretelling --------------------------------------------------------------------------------------------------

export function startsOn(output: OutputId): boolean {
  return getPrediction().given?.onAtStart.includes(output) ?? false;
}

function putEdges(output: OutputId, edges: readonly Edge[], chosenS: number | null): void {
  const list = inTurn(edges, startsOn(output));
  const chosen = chosenS === null ? null : list.findIndex(({ atS }) => atS === chosenS);
  setPrediction((s) => ({ edges: { ...s.edges, [output]: list }, output, chosen: chosen === -1 ? null : chosen }));
  keep();
}

export function chooseEdge(output: OutputId, index: number | null): void {
  setPrediction({ output, chosen: index });
}

export function addEdge(output: OutputId, atS: number): void {
  const { exercise, edges } = getPrediction();
  if (!exercise || !stageIs('predicting')) return;
  const at = clampS(Math.round(atS / 5) * 5, exercise.predict);
  putEdges(output, [...(edges[output] ?? []), { atS: at, on: false }], at);
}

/** A further edge of the output being worked on, a little after its last one. */
export function addNextEdge(): void {
  const { exercise, edges, output } = getPrediction();
  if (!exercise) return;
  const { fromS, toS } = exercise.predict;
  const last = edges[output]?.at(-1)?.atS ?? fromS;
  addEdge(output, Math.min(toS, last + Math.max(5, (toS - fromS) / 12)));
}

export function moveEdge(byS: number): void {
  const chosen = chosenEdge();
  if (chosen) setChosenTo(chosen.atS + byS);
}

function chosenEdge(): Edge | null {
  const { edges, output, chosen } = getPrediction();
  return chosen === null ? null : (edges[output]?.[chosen] ?? null);
}

function setChosenTo(toS: number): void {
  const { exercise, edges, output, chosen } = getPrediction();
  if (!exercise || chosen === null || !stageIs('predicting')) return;
  const at = clampS(toS, exercise.predict);
  const others = (edges[output] ?? []).filter((_, i) => i !== chosen);
  putEdges(output, [...others, { atS: at, on: false }], at);
}

export function removeEdge(): void {
  const { edges, output, chosen } = getPrediction();
  if (chosen === null || !stageIs('predicting')) return;
  putEdges(
    output,
    (edges[output] ?? []).filter((_, i) => i !== chosen),
    null,
  );
}

/** The delay that counts for the chosen edge, and the pulse it stands on if there is one. */
export function pulseOfChosen(): { pulseS: number | null; delayS: number } | null {
  const { given, output } = getPrediction();
  const { scenario } = getApp();
  const edge = chosenEdge();
  if (!given || !scenario || !edge) return null;
  const delayS = delayFor(output, edge.on, scenario.settings);
  return { pulseS: countedPulseS(given, edge, delayS), delayS };
}

/** Puts the chosen edge a delay after the pulse before or after the one it counts from. */
export function stepPulse(direction: 1 | -1): void {
  const { given } = getPrediction();
  const edge = chosenEdge();
  const now = pulseOfChosen();
  if (!given || !edge || !now) return;
  const nextS = otherPulseS(given, now.pulseS ?? edge.atS - now.delayS, direction);
  if (nextS !== null) setChosenTo(nextS + now.delayS);
}

// --- running, seeing, marking -------------------------------------------------------------------------------------

/** From here on the edges stay; the room runs. */
export function lockAndRun(): void {
  if (!stageIs('predicting')) return;
  setApp({ foretold: getPrediction().edges });
  setStage('running');
  keep();
  watchEnd();
  run(getApp().speed);
}

let unwatch: (() => void) | null = null;

/** Stops the room where the window ends, and asks what was seen. */
function watchEnd(): void {
  unwatch?.();
  const look = (s: AppState): void => {
    const { exercise, seed } = getPrediction();
    if (!exercise || !isOpen(exercise, seed)) {
      unwatch?.();
      return;
    }
    if (s.job?.stage !== 'running' || s.shownTick < s.job.untilTick) return;
    unwatch?.();
    setStage('seen');
  };
  const stop = useApp.subscribe(look);
  unwatch = () => {
    stop();
    unwatch = null;
  };
  // A kept run may stand at its end already, paused: nothing more would come.
  look(getApp());
}

export function setSeen(output: OutputId, count: number): void {
  setPrediction((s) => ({ seen: { ...s.seen, [output]: Math.max(0, count) } }));
  keep();
}

export function chooseCause(output: OutputId, index: number, cause: CauseId): void {
  setPrediction((s) => ({
    why: [...s.why.filter((w) => w.output !== output || w.index !== index), { output, index, cause }],
  }));
  keep();
}
