/** The exercise being worked: opened, foretold, run, marked, kept. Loaded only when somebody opens one. */
import { create } from 'zustand';
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import type { OutputId } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { benchScenario } from '../../exercise/edits.ts';
import type { Given } from '../../exercise/predict/given.ts';
import type { Attempt, CauseId, Edge, EdgesByOutput, Exercise, Mark } from '../../exercise/types.ts';
import { jobWords } from '../../report/text/jobs.ts';
import { run } from './acts.ts';
import { forgetAttempt, keepAttempt, keptAttempt } from './attempts.ts';
import { clampS, countedPulseS, delayFor, inTurn, otherPulseS } from './jobEdges.ts';
import { ask } from './jobWorker.ts';
import { live } from './live.ts';
import { readSave } from './saves.ts';
import { loadStory } from './session.ts';
import { getApp, type JobStage, setApp, useApp } from './store.ts';

export interface JobData {
  exercise: Exercise | null;
  seed: number;
  given: Given | null;
  edges: EdgesByOutput;
  /** The output whose edges are worked on, and which of them. */
  output: OutputId;
  chosen: number | null;
  seen: Partial<Record<OutputId, number>>;
  why: { output: OutputId; index: number; cause: CauseId }[];
  mark: Mark | null;
  names: string[];
  hintsShown: number;
}

const EMPTY = {
  given: null,
  edges: {} as EdgesByOutput,
  chosen: null,
  seen: {},
  why: [],
  mark: null,
  hintsShown: 0,
};

export const useJob = create<JobData>()(() => ({
  exercise: null,
  seed: 1,
  output: 'innerRow',
  names: ['', ''],
  ...EMPTY,
}));
const setJob = useJob.setState;
const getJob = useJob.getState;

function setStage(stage: JobStage): void {
  const { job } = getApp();
  if (job) setApp({ job: { ...job, stage } });
}

function stageIs(stage: JobStage): boolean {
  return getApp().job?.stage === stage;
}

/** Opens an exercise on a bench; work kept in this browser is taken up where it was left. */
export async function openJob(exercise: Exercise, seed: number, attempt: Attempt | null = null): Promise<void> {
  const kept = attempt ?? keptAttempt(exercise.id, seed);
  const scenario = benchScenario(exercise, seed);
  const locked = kept?.headTick ? kept : null;
  const saved = locked ? readSave(scenario) : null;
  const usable = saved && saved !== 'damaged' ? saved : null;
  const fromTick = secondsToTicks(exercise.predict.fromS);
  loadStory(scenario, usable ? { saved: usable } : { atTick: fromTick, fresh: true });
  setJob({
    ...EMPTY,
    exercise,
    seed,
    output: exercise.predict.outputs[0]!,
    edges: kept?.answers.predict?.edges ?? {},
    seen: kept?.answers.predict?.seen ?? {},
    why: kept?.answers.predict?.why ?? [],
    names: kept?.names ?? getJob().names,
  });
  setApp({
    screen: 'main',
    speed: 60,
    job: { id: exercise.id, seed, stage: 'preparing', untilTick: secondsToTicks(exercise.predict.toS) },
    foretold: locked ? getJob().edges : null,
  });
  try {
    const answer = await ask({ type: 'given', exercise, seed });
    if (!isOpen(exercise, seed) || answer.type !== 'given') return;
    setJob({ given: answer.given });
    setStage(locked ? 'running' : 'predicting');
    if (locked) watchEnd();
  } catch (error) {
    setApp({ notice: error instanceof Error ? error.message : String(error) });
  }
}

function isOpen(exercise: Exercise, seed: number): boolean {
  const { job } = getApp();
  return job?.id === exercise.id && job.seed === seed;
}

// --- foretelling --------------------------------------------------------------------------------------------------

export function startsOn(output: OutputId): boolean {
  return getJob().given?.onAtStart.includes(output) ?? false;
}

function putEdges(output: OutputId, edges: readonly Edge[], chosenS: number | null): void {
  const list = inTurn(edges, startsOn(output));
  const chosen = chosenS === null ? null : list.findIndex(({ atS }) => atS === chosenS);
  setJob((s) => ({ edges: { ...s.edges, [output]: list }, output, chosen: chosen === -1 ? null : chosen }));
  keep(false);
}

export function chooseEdge(output: OutputId, index: number | null): void {
  setJob({ output, chosen: index });
}

export function addEdge(output: OutputId, atS: number): void {
  const { exercise, edges } = getJob();
  if (!exercise || !stageIs('predicting')) return;
  const at = clampS(Math.round(atS / 5) * 5, exercise.predict);
  putEdges(output, [...(edges[output] ?? []), { atS: at, on: false }], at);
}

/** A further edge of the output being worked on, a little after its last one. */
export function addNextEdge(): void {
  const { exercise, edges, output } = getJob();
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
  const { edges, output, chosen } = getJob();
  return chosen === null ? null : (edges[output]?.[chosen] ?? null);
}

function setChosenTo(toS: number): void {
  const { exercise, edges, output, chosen } = getJob();
  if (!exercise || chosen === null || !stageIs('predicting')) return;
  const at = clampS(toS, exercise.predict);
  const others = (edges[output] ?? []).filter((_, i) => i !== chosen);
  putEdges(output, [...others, { atS: at, on: false }], at);
}

export function removeEdge(): void {
  const { edges, output, chosen } = getJob();
  if (chosen === null || !stageIs('predicting')) return;
  putEdges(
    output,
    (edges[output] ?? []).filter((_, i) => i !== chosen),
    null,
  );
}

/** The delay that counts for the chosen edge, and the pulse it stands on if there is one. */
export function pulseOfChosen(): { pulseS: number | null; delayS: number } | null {
  const { given, output } = getJob();
  const { scenario } = getApp();
  const edge = chosenEdge();
  if (!given || !scenario || !edge) return null;
  const delayS = delayFor(output, edge.on, scenario.settings);
  return { pulseS: countedPulseS(given, edge, delayS), delayS };
}

/** Puts the chosen edge a delay after the pulse before or after the one it counts from. */
export function stepPulse(direction: 1 | -1): void {
  const { given } = getJob();
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
  setApp({ foretold: getJob().edges });
  setStage('running');
  keep(true);
  watchEnd();
  run(getApp().speed);
}

let unwatch: (() => void) | null = null;

/** Stops the room where the window ends, and asks what was seen. */
function watchEnd(): void {
  unwatch?.();
  const stop = useApp.subscribe((s) => {
    const { exercise, seed } = getJob();
    if (!exercise || !isOpen(exercise, seed)) {
      unwatch?.();
      return;
    }
    if (s.job?.stage !== 'running' || s.shownTick < s.job.untilTick) return;
    unwatch?.();
    setStage('seen');
  });
  unwatch = () => {
    stop();
    unwatch = null;
  };
}

export function setSeen(output: OutputId, count: number): void {
  setJob((s) => ({ seen: { ...s.seen, [output]: Math.max(0, count) } }));
  keep(true);
}

export function chooseCause(output: OutputId, index: number, cause: CauseId): void {
  setJob((s) => ({
    why: [...s.why.filter((w) => w.output !== output || w.index !== index), { output, index, cause }],
  }));
  keep(true);
}

export function setName(place: 0 | 1, name: string): void {
  setJob((s) => ({ names: s.names.map((old, i) => (i === place ? name.slice(0, 60) : old)) }));
  keep(getApp().foretold !== null);
}

export function showHint(): void {
  setJob((s) => ({ hintsShown: Math.min(3, s.hintsShown + 1) }));
}

/** What has been done so far, as a file holds it. */
export function presentAttempt(locked: boolean): Attempt | null {
  const { exercise, seed, names, edges, seen, why } = getJob();
  if (!exercise) return null;
  return {
    format: 1,
    exercise: exercise.id,
    seed,
    engine: ENGINE_VERSION,
    names: names.filter((name) => name.trim() !== ''),
    aid: exercise.aid,
    inputs: [],
    headTick: locked ? Math.max(1, live.frame?.tick ?? 1) : 0,
    digests: locked ? live.digests : [],
    answers: { predict: { edges, seen, why } },
  };
}

function keep(locked: boolean): void {
  const attempt = presentAttempt(locked);
  if (attempt && !keepAttempt(attempt)) setApp({ notice: jobWords.storage });
}

export async function handIn(): Promise<void> {
  const { exercise, seed } = getJob();
  const attempt = presentAttempt(true);
  if (!exercise || !attempt) return;
  setStage('marking');
  try {
    const answer = await ask({ type: 'mark', exercise, attempt });
    if (!isOpen(exercise, seed) || answer.type !== 'marked') return;
    setJob({ mark: answer.mark });
    setStage('result');
  } catch (error) {
    setStage('seen');
    setApp({ notice: error instanceof Error ? error.message : String(error) });
  }
}

/** The same job on the next bench: other settings, other movements. */
export function nextBench(): void {
  const { exercise, seed } = getJob();
  if (exercise) void openJob(exercise, seed + 1);
}

/** The same bench from the start, what was foretold forgotten. */
export function beginAgain(): void {
  const { exercise, seed } = getJob();
  if (!exercise) return;
  forgetAttempt(exercise.id, seed);
  void openJob(exercise, seed);
}
