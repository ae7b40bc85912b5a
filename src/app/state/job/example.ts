/**
 * The worked example on the page: it takes the stage, and the learner's own room comes back as it was left. What is
 * answered at its stops is kept nowhere; what is done in its room belongs to nobody's attempt.
 */
import { create } from 'zustand';
import { canonicalJson } from '../../../engine/digest.ts';
import type { Recording } from '../../../engine/recording.ts';
import { ENGINE_VERSION } from '../../../engine/simulation.ts';
import type { Scenario, Tick } from '../../../engine/types.ts';
import { TICKS_PER_S } from '../../../engine/units.ts';
import { stepSeconds } from '../../../exercise/example/pace.ts';
import type { WorkedExample, WorkedScene } from '../../../exercise/example/types.ts';
import { exampleWords } from '../../../report/text/example.ts';
import { SPEEDS } from '../acts.ts';
import { live } from '../live.ts';
import { layMeters } from '../probeActs.ts';
import { getProbes, type ProbesState } from '../probes.ts';
import { forgetSave, type Saved } from '../saves.ts';
import { loadStory } from '../session.ts';
import { type AppState, getApp, type OpenJob, setApp, useApp } from '../store.ts';
import { rememberUndo, takeUndo } from '../undo.ts';
import { useWalkTest } from '../walkTest.ts';
import { send } from '../wire.ts';
import { getJob, isBusy, isOpen, keep, presentAttempt, setJob, tell } from './job.ts';
import { ask } from './worker.ts';

export interface ExampleData {
  example: WorkedExample | null;
  /** The expert is at work. */
  preparing: boolean;
  /** Place of the step shown. */
  at: number;
  playing: boolean;
  /** Choice taken at each stop, by place of its step. */
  answers: Readonly<Record<number, number>>;
  /** The learner has just come back from it. */
  left: boolean;
}

const NOTHING: ExampleData = { example: null, preparing: false, at: 0, playing: false, answers: {}, left: false };

export const useExample = create<ExampleData>()(() => NOTHING);
const set = useExample.setState;
const get = useExample.getState;

/** The learner's own work, to be put back. */
interface Own {
  scenario: Scenario;
  saved: Saved;
  digests: typeof live.digests;
  app: Pick<AppState, 'job' | 'foretold' | 'speed' | 'overlay' | 'sectionDeg' | 'panel' | 'lastOutput'>;
  probes: ProbesState;
  notebook: Pick<ReturnType<typeof useWalkTest.getState>, 'points' | 'edge'>;
  undo: ReturnType<typeof takeUndo>[];
}

let own: Own | null = null;
/** A room is being put on the stage: for a moment no job is open. */
let changing = false;
let timer: ReturnType<typeof setTimeout> | null = null;

/** Before the work is handed in, and never in a test. */
export function isOffered(job: OpenJob | null): boolean {
  return job !== null && job.aid !== 'test' && (job.stage === 'predicting' || job.stage === 'working');
}

/** Works the example out and shows its first step. */
export async function openExample(): Promise<void> {
  const { exercise, seed } = getJob();
  if (!exercise?.example || get().preparing || !isOffered(getApp().job)) return;
  set({ ...NOTHING, preparing: true });
  try {
    const answer = await ask({ type: 'example', exercise });
    if (answer.type !== 'exampleWorked' || !isOpen(exercise, seed) || !isOffered(getApp().job)) return;
    if (answer.example.unmet.length > 0) setApp({ notice: exampleWords.unmet });
    else if (isBusy() || getApp().readiness !== 'ready') setApp({ notice: exampleWords.busy });
    else enter(answer.example);
  } catch (error) {
    tell(error);
  } finally {
    set({ preparing: false });
  }
}

function allUndo(): Own['undo'] {
  const undo: Own['undo'] = [];
  while (getApp().undoDepth > 0) undo.unshift(takeUndo());
  return undo;
}

function recordingOf({ id: scenarioId, seed }: Scenario, inputs: Recording['inputs'], headTick: Tick): Recording {
  return { format: 1, engine: ENGINE_VERSION, scenarioId, seed, inputs, headTick, digests: [] };
}

function takeOwn(scenario: Scenario): Own {
  const { job, foretold, speed, overlay, sectionDeg, panel, lastOutput, status, shownTick, selection } = getApp();
  const tick = live.frame?.tick ?? shownTick;
  const { points, edge } = useWalkTest.getState();
  const { inputs, digests } = live;
  const recording = { ...recordingOf(scenario, inputs, Math.max(status.headTick, tick) + 1), digests };
  return {
    scenario,
    saved: { recording, tick, selection },
    digests,
    app: { job, foretold, speed, overlay, sectionDeg, panel, lastOutput },
    probes: getProbes(),
    notebook: { points, edge },
    undo: allUndo(),
  };
}

function enter(example: WorkedExample): void {
  const { scenario } = getApp();
  if (!scenario) return;
  // Asked before anything changes: from here on nothing is added to it.
  setJob({ aside: { attempt: presentAttempt() } });
  own = takeOwn(scenario);
  set({ example });
  toStep(0);
}

function sceneAt(at: number): WorkedScene | null {
  const { example } = get();
  return example?.scenes[example.steps[at]?.scene ?? -1] ?? null;
}

/** The room of a scene, run up to an instant; what comes later is not drawn before it is shown. */
function putOn({ scenario, inputs }: WorkedScene, tick: Tick): void {
  const job = own?.app.job;
  if (!job) return;
  const recording = recordingOf(scenario, inputs, tick + 1);
  const { settings: _settings, ...rest } = job;
  changing = true;
  loadStory(scenario, { saved: { recording, tick, selection: getApp().selection } });
  const last = Math.max(...(get().example?.steps ?? []).map((step) => step.tick));
  const untilTick = Math.max(tick, last);
  setApp({
    screen: 'main',
    speed: 1,
    overlay: 'none',
    sectionDeg: null,
    job: { ...rest, stage: 'example', untilTick, sealed: false, reachShut: false, allows: [] },
  });
  changing = false;
}

/** Longest way from one step to the next that is watched, s of the clock on the wall. Assumed. */
const TRAVEL_S = 3;

/** Speed at which the room comes to the next step within that time; null: none is quick enough. */
function travelSpeed(forS: number): number | null {
  return SPEEDS.find((speed) => speed >= 1 && forS / speed <= TRAVEL_S) ?? null;
}

function prefersStill(): boolean {
  return typeof matchMedia === 'function' && matchMedia('(prefers-reduced-motion: reduce)').matches;
}

function toStep(at: number, watched = false): void {
  stopTimer();
  const step = get().example?.steps[at];
  const scene = sceneAt(at);
  if (!step || !scene) return;
  set({ at });
  const { scenario, readiness } = getApp();
  if (scenario?.id !== scene.scenario.id || readiness !== 'ready') {
    putOn(scene, step.tick);
    return;
  }
  const forS = (step.tick - (live.frame?.tick ?? 0)) / TICKS_PER_S;
  const speed = watched && forS > 0 && !prefersStill() ? travelSpeed(forS) : null;
  if (speed !== null) {
    setApp({ speed });
    send({ type: 'run', speed, untilTick: step.tick });
    return;
  }
  send({ type: 'pause' });
  send({ type: 'seek', tick: step.tick });
}

function stopTimer(): void {
  if (timer) clearTimeout(timer);
  timer = null;
}

/** Whether the step shown lets the example go on: it is not the last, and what it asks has been answered. */
export function mayGoOn({ example, at, answers }: ExampleData): boolean {
  const step = example?.steps[at];
  return step !== undefined && at + 1 < (example?.steps.length ?? 0) && (!step.stop || answers[at] !== undefined);
}

export function stepOnward(by: 1 | -1): void {
  const data = get();
  if (by === 1 ? !mayGoOn(data) : data.at === 0) return;
  set({ playing: false });
  toStep(data.at + by);
}

export function playExample(): void {
  const data = get();
  if (!mayGoOn(data)) return;
  set({ playing: true });
  // A stop has been read when it is answered, the first step when Play is pressed.
  playOn();
}

/** Shows the next step, and in its time the one after it; stands at a stop and at the end. */
function playOn(): void {
  if (document.hidden) {
    pauseExample();
    return;
  }
  toStep(get().at + 1, true);
  const data = get();
  if (!mayGoOn(data)) {
    set({ playing: false });
    return;
  }
  timer = setTimeout(playOn, 1000 * stepSeconds(data.example!.steps[data.at]!));
}

export function pauseExample(): void {
  stopTimer();
  set({ playing: false });
  send({ type: 'pause' });
}

/** Takes a choice at the stop shown. It is neither marked nor kept. */
export function answerStop(choice: number): void {
  const { at, example } = get();
  if (example?.steps[at]?.stop) set((s) => ({ answers: { ...s.answers, [at]: choice } }));
}

export function restartExample(): void {
  set({ playing: false, answers: {} });
  toStep(0);
}

/** Puts the learner's own room back as it was left. */
export function leaveExample(): void {
  const mine = own;
  if (!mine) return;
  const names = get().example?.scenes.map(({ scenario }) => scenario.id) ?? [];
  changing = true;
  loadStory(mine.scenario, { saved: mine.saved });
  live.inputs = mine.saved.recording?.inputs ?? [];
  live.digests = mine.digests;
  setApp({ screen: 'main', ...mine.app });
  changing = false;
  forget(names);
  set({ left: true });
  whenBack(mine);
}

function forget(sceneIds: readonly string[]): void {
  stopTimer();
  for (const id of sceneIds) forgetSave(id);
  own = null;
  set(NOTHING);
}

/** The room stands again where it was: instruments are laid out, and what is done from here on is kept. */
function whenBack({ scenario, saved, probes, notebook, undo }: Own): void {
  const before = getJob().aside?.attempt;
  const stop = useApp.subscribe(({ scenario: shown, readiness }) => {
    if (shown !== scenario) stop();
    if (shown !== scenario || readiness !== 'ready' || live.frame?.tick !== saved.tick) return;
    stop();
    if (probes.probes.length > 0) layMeters(probes.probes, probes.chosen);
    if (useWalkTest.getState().points.length !== notebook.points.length) useWalkTest.setState(notebook);
    for (const inputs of undo) rememberUndo(inputs);
    setJob({ aside: null });
    // Somebody may have typed a name meanwhile.
    if (canonicalJson(presentAttempt()) !== canonicalJson(before)) keep();
  });
}

/** Another story or job was opened from inside the example. */
useApp.subscribe(({ job }) => {
  const { example } = get();
  if (changing || !example || job?.stage === 'example') return;
  forget(example.scenes.map(({ scenario }) => scenario.id));
  setJob({ aside: null });
});
