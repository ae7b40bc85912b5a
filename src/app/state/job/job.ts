/**
 * The exercise being worked, whatever its kind: opened, kept at every act, handed in, marked. What a kind adds (answers,
 * what is shown and may be done) stands in a file of its own. Loaded only when somebody opens an exercise.
 */
import { create } from 'zustand';
import { ENGINE_VERSION } from '../../../engine/simulation.ts';
import type { Scenario, Tick, TimedInput } from '../../../engine/types.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import type { Attempt, Exercise, ExerciseKind, Mark } from '../../../exercise/types.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import type { PlatformState } from '../../../report/text/platform.ts';
import { forgetAttempt, keepAttempt, keepMark, keptAttempt } from '../attempts.ts';
import { live } from '../live.ts';
import { intoNotebook } from '../notebook.ts';
import { forgetSave, readSave, type Saved } from '../saves.ts';
import { getApp, type JobStage, setApp } from '../store.ts';
import { findApi } from './platformApi.ts';
import { ask } from './worker.ts';

export interface JobData {
  exercise: Exercise | null;
  seed: number;
  names: string[];
  hintsShown: number;
  mark: Mark | null;
  /** While something else is tried in a copy of the marked run: the attempt as it was marked, and from when, s. */
  tried: { attempt: Attempt | null; atS: number } | null;
  /** While a worked example is on the stage: the attempt as it was left. */
  aside: { attempt: Attempt | null } | null;
  /** Opened from the Fault Drawer: the cause's title if the class may know it, an empty text if it is hidden. */
  drawn: string | null;
  /** Opened by whoever made it, to record how it is solved. */
  authored: boolean;
  /** The learning platform around the page; null: there is none. */
  platform: PlatformState | null;
}

export const useJob = create<JobData>()(() => ({
  exercise: null,
  seed: 1,
  names: ['', ''],
  hintsShown: 0,
  mark: null,
  tried: null,
  aside: null,
  drawn: null,
  authored: false,
  platform: null,
}));
export const setJob = useJob.setState;
export const getJob = useJob.getState;

/** What a kind of exercise knows to do; each kind's state file exports one. */
export interface JobKind {
  /** Puts the bench's room on the stage, and the work kept in `kept` where it was left. Sets `job` of the app. */
  open(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void>;
  /** Whether the work has gone into the room, so that the attempt must be replayed up to where it is. */
  begun(): boolean;
  answers(): Attempt['answers'];
  /** What was done to the room so far. */
  inputs(): TimedInput[];
  /** Tick of the last thing kept beside the inputs; the attempt must reach as far. */
  lastTick?(): Tick;
  /** Where the work goes on when marking failed. */
  unmarked: JobStage;
  /** Something is under way in the room that must come to its end there. */
  busy?(): boolean;
  /** A rung of help has been opened. */
  helped?(rung: number): void;
  /** The mark is there: nothing need be kept back any longer. */
  marked?(): void;
}

/** Read when the first exercise of the kind is opened. */
const KINDS: Record<ExerciseKind, () => Promise<JobKind>> = {
  predict: async () => (await import('./predict.ts')).predictKind,
  diagnose: async () => (await import('./diagnose.ts')).diagnoseKind,
  commission: async () => (await import('./commission.ts')).commissionKind,
  design: async () => (await import('./commission.ts')).commissionKind,
  observe: async () => (await import('./observe.ts')).observeKind,
};

let kind: JobKind | null = null;
/** The link to the learning platform; undefined: not looked for yet, null: there is none. */
let platform: typeof import('./platform.ts') | null | undefined;

/** The first job opened is the one that a learning platform is told of. */
async function lookForPlatform(exercise: Exercise, seed: number): Promise<void> {
  if (platform !== undefined) return;
  platform = null;
  const api = findApi(window);
  if (!api) return;
  platform = await import('./platform.ts');
  platform.joinPlatform(api, exercise, seed);
}

export function setStage(stage: JobStage): void {
  const { job } = getApp();
  if (job) setApp({ job: { ...job, stage } });
}

export function stageIs(stage: JobStage): boolean {
  return getApp().job?.stage === stage;
}

export function isOpen(exercise: Exercise, seed: number): boolean {
  const { job } = getApp();
  return job?.id === exercise.id && job.seed === seed;
}

export function tell(error: unknown): void {
  setApp({ notice: error instanceof Error ? error.message : String(error) });
}

/** The run of an attempt: what this browser saved of it, or what the attempt itself says; null: nothing was done yet. */
export function savedRun(scenario: Scenario, kept: Attempt): Saved | null {
  const saved = readSave(scenario);
  if (saved && saved !== 'damaged' && saved.recording) return saved;
  if (kept.headTick === 0) return null;
  const { seed, inputs, headTick, digests } = kept;
  const recording = {
    format: 1,
    engine: ENGINE_VERSION,
    scenarioId: scenario.id,
    seed,
    inputs,
    headTick,
    digests,
  } as const;
  return { recording, tick: headTick - 1, selection: { kind: 'output', output: 'innerRow' } };
}

/** An attempt leaves empty names out; the sheet has a place for both. */
function twoNames([first = '', second = '']: readonly string[]): string[] {
  return [first, second];
}

/**
 * Opens an exercise on a bench; work kept in this browser is taken up where it was left. A given attempt takes the place
 * of that work: what was saved of the bench is another run, and its acts must not go under this attempt's name.
 */
export async function openJob(
  exercise: Exercise,
  seed: number,
  attempt: Attempt | null = null,
  drawn: string | null = null,
): Promise<void> {
  await lookForPlatform(exercise, seed);
  if (attempt) {
    forgetSave(benchScenario(exercise, seed).id);
    keepAttempt(attempt);
  }
  const kept = attempt ?? keptAttempt(exercise.id, seed);
  kind = await KINDS[exercise.kind]();
  const names = twoNames(kept?.names ?? getJob().names);
  setJob({ exercise, seed, names, hintsShown: 0, mark: null, tried: null, aside: null, drawn, authored: false });
  await kind.open(exercise, seed, kept);
}

export function setName(place: 0 | 1, name: string): void {
  setJob((s) => ({ names: s.names.map((old, i) => (i === place ? name.slice(0, 60) : old)) }));
  keep();
}

export function showHint(): void {
  const rung = Math.min(3, getJob().hintsShown + 1);
  setJob({ hintsShown: rung });
  kind?.helped?.(rung);
}

/** What has been done so far, as a file holds it. */
export function presentAttempt(): Attempt | null {
  const { exercise, seed, names, tried, aside } = getJob();
  // What is done in the copy, or in the example, belongs to nobody's attempt.
  if (tried) return tried.attempt;
  if (aside) return aside.attempt;
  if (!exercise || !kind) return null;
  const begun = kind.begun();
  const inputs = kind.inputs();
  // What was done last counts, also while an earlier instant is looked at or its tick is still to come.
  const headTick = Math.max(1, live.frame?.tick ?? 1, (inputs.at(-1)?.tick ?? 0) + 1, kind.lastTick?.() ?? 0);
  return {
    format: 1,
    exercise: exercise.id,
    seed,
    engine: ENGINE_VERSION,
    names: names.filter((name) => name.trim() !== ''),
    aid: exercise.aid,
    inputs,
    headTick: begun ? headTick : 0,
    digests: begun ? live.digests : [],
    answers: kind.answers(),
  };
}

export function isBusy(): boolean {
  return kind?.busy?.() ?? false;
}

/** Called after every act: nothing that was done can be lost. */
export function keep(): void {
  const attempt = presentAttempt();
  if (!attempt) return;
  if (!keepAttempt(attempt)) setApp({ notice: jobWords.storage });
  platform?.toldOfStep(attempt);
}

/** A marked run stays as it was marked: what else one would do is tried in a copy. */
function closeMarked(): void {
  const { job } = getApp();
  if (job) setApp({ job: { ...job, stage: 'result', allows: [] } });
}

export async function handIn(): Promise<void> {
  const { exercise, seed } = getJob();
  const attempt = presentAttempt();
  if (!exercise || !attempt || !kind) return;
  const { unmarked } = kind;
  setStage('marking');
  try {
    const answer = await ask({ type: 'mark', exercise, attempt });
    if (!isOpen(exercise, seed) || answer.type !== 'marked') return;
    setJob({ mark: answer.mark });
    // Also where nothing was done: what was handed in is kept as it was.
    keepAttempt(attempt);
    keepMark(answer.mark);
    platform?.toldOfMark(attempt, answer.mark);
    if (answer.mark.pass) intoNotebook(attempt, answer.mark);
    kind.marked?.();
    closeMarked();
  } catch (error) {
    setStage(unmarked);
    tell(error);
  }
}

/** The same job on the next bench: other settings, other movements. */
export function nextBench(): void {
  const { exercise, seed } = getJob();
  if (exercise) void openJob(exercise, seed + 1);
}

/** The same bench from the start, what was done forgotten. */
export function beginAgain(): void {
  const { exercise, seed } = getJob();
  if (!exercise) return;
  if (stageIs('example')) {
    void import('./example.ts').then(({ restartExample }) => restartExample());
    return;
  }
  forgetAttempt(exercise.id, seed);
  void openJob(exercise, seed);
}
