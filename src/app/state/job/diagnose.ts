/** A diagnosis being worked: readings taken and kept, a cause named, the room put right, handed in. */
import { create } from 'zustand';
import { canonicalJson } from '../../../engine/digest.ts';
import type { Input, Tick } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import { cardScenario, trueCard } from '../../../exercise/diagnose/cards.ts';
import { rungsOpened } from '../../../exercise/diagnose/hints.ts';
import { minutesOf, SWAP_MIN } from '../../../exercise/diagnose/tests.ts';
import type { DiagnoseAnswers, DiagnoseExercise, Refusal, Test } from '../../../exercise/diagnose/types.ts';
import type { Attempt, Exercise } from '../../../exercise/types.ts';
import type { BenchMoment } from '../../../host/benchWork.ts';
import { live } from '../live.ts';
import { askSetup, loadStory, onAnswer } from '../session.ts';
import { getApp, setApp } from '../store.ts';
import { send } from '../wire.ts';
import { askBench, closeBench } from './benchWorker.ts';
import { isOpen, type JobKind, keep, presentAttempt, savedRun, setJob, tell } from './job.ts';
import { doPlan, putIn, RoomLeft, stepOn } from './roomWork.ts';

export interface DiagnosisData {
  exercise: DiagnoseExercise | null;
  answers: DiagnoseAnswers;
  /** A test is being done: nothing else may begin. */
  busy: boolean;
  refused: Refusal | null;
  /** Causes that the readings leave possible, by id; null: not known (yet), or not told in a test. */
  fitting: string[] | null;
  /** Instants of the readings that ruled a cause out; null: not known yet. */
  tellingTicks: Tick[] | null;
}

const NOTHING: DiagnoseAnswers = { clips: [], claims: [], swaps: [], hints: [], record: { advice: '' } };
const EMPTY = { answers: NOTHING, busy: false, refused: null, fitting: null, tellingTicks: null };

export const useDiagnosis = create<DiagnosisData>()(() => ({ exercise: null, ...EMPTY }));
const set = useDiagnosis.setState;
const get = useDiagnosis.getState;

/** What mending opens, beside what tests do. */
const MENDING: readonly Input['kind'][] = [
  'setSettings',
  'takePresentLight',
  'moveDetector',
  'moveFurniture',
  'walkTest',
];

/** What a hand, a screwdriver and the hand-held setter can do; people are put where a test needs them. */
const ALLOWS: readonly Input['kind'][] = [
  'addPerson',
  'placePerson',
  'setPlan',
  'press',
  'setWarmThing',
  'setDoor',
  'cleanPhotometers',
  'coverDetector',
  'holdTorch',
];

function allowed({ mending }: DiagnoseAnswers): readonly Input['kind'][] {
  return mending ? [...ALLOWS, ...MENDING] : ALLOWS;
}

async function open(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'diagnose') return;
  const scenario = cardScenario(exercise, seed, trueCard(exercise, seed));
  const saved = kept ? savedRun(scenario, kept) : null;
  loadStory(scenario, saved ? { saved } : { atTick: secondsToTicks(exercise.diagnose.beginS), fresh: true });
  live.inputs = saved?.recording?.inputs ?? [];
  live.digests = saved?.recording?.digests ?? [];
  const answers = kept?.answers.diagnose ?? NOTHING;
  set({ ...EMPTY, exercise, answers });
  setJob({ hintsShown: rungsOpened(answers.hints) });
  setApp({
    screen: 'main',
    overlay: 'none',
    speed: 10,
    settings: null,
    job: {
      id: exercise.id,
      kind: 'diagnose',
      seed,
      aid: exercise.aid,
      stage: 'working',
      untilTick: Infinity,
      sealed: true,
      allows: allowed(answers),
      mending: answers.mending !== undefined,
    },
  });
  try {
    await askBench({ type: 'benchOpen', exercise, seed });
    if (isOpen(exercise, seed)) await askFits();
  } catch (error) {
    tell(error);
  }
}

export const diagnoseKind: JobKind = {
  open,
  begun: () => live.inputs.length > 0 || lastTick() > 0,
  answers: () => ({ diagnose: get().answers }),
  inputs: () => live.inputs,
  lastTick,
  unmarked: 'working',
  // The bench asks for the acts of the room that is shown.
  busy: () => get().busy || (get().exercise?.aid !== 'test' && get().fitting === null),
  helped: (rung) => setAnswers({ hints: [...get().answers.hints, { tick: moment().tick, rung }] }),
  marked: showAll,
};

function lastTick(): Tick {
  const { clips, claims, swaps } = get().answers;
  return Math.max(0, ...[...clips, ...claims, ...swaps].map(({ tick }) => tick));
}

/** Where the work stands, as the bench wants it. */
function moment(): BenchMoment {
  return { inputs: live.inputs, clips: get().answers.clips, tick: (live.frame?.tick ?? 0) + 1 };
}

async function askFits(): Promise<void> {
  const { exercise } = get();
  if (!exercise) return;
  // When work is taken up again the readings are there before the room has come to where they were taken.
  const now = moment();
  const at = { ...now, tick: Math.max(now.tick, lastTick()) };
  const answer = await askBench({ type: 'benchFits', at });
  if (get().exercise !== exercise || answer.type !== 'benchFitting') return;
  set({ fitting: exercise.aid === 'test' ? null : answer.cards, tellingTicks: answer.tellingTicks });
}

function setAnswers(change: Partial<DiagnoseAnswers>): void {
  set((s) => ({ answers: { ...s.answers, ...change } }));
  keep();
}

function act(): { tick: number; serial: number } {
  const { clips, claims, swaps } = get().answers;
  return { tick: moment().tick, serial: clips.length + claims.length + swaps.length };
}

/** One thing at a time: while it is being done nothing else may begin, and a room left meanwhile is left alone. */
async function busily(work: (stillHere: () => void) => Promise<void>): Promise<void> {
  const { scenario } = getApp();
  if (!get().exercise || get().busy) return;
  const isHere = (): boolean => getApp().scenario === scenario;
  set({ busy: true, refused: null });
  try {
    await work(() => {
      if (!isHere()) throw new RoomLeft();
    });
    keep();
  } catch (error) {
    if (!(error instanceof RoomLeft)) tell(error);
  } finally {
    if (isHere()) set({ busy: false });
  }
}

/**
 * Acts of the ordinary controls may still be on their way: the first step comes after their frame, the second after
 * their inputs are known here.
 */
async function afterMending(): Promise<void> {
  if (!get().answers.mending) return;
  send({ type: 'pause' });
  await stepOn();
  await stepOn();
}

/** Does a test as it is done by hand: You go where it needs You, the room runs, the instrument is read and the clip kept. */
export function takeTest(test: Test): Promise<void> {
  return busily(async (stillHere) => {
    await afterMending();
    stillHere();
    const planned = await askBench({ type: 'benchPlan', at: moment(), test });
    stillHere();
    if (planned.type === 'benchPlanned') await doPlan(planned.plan);
    const answer = await askBench({ type: 'benchRead', at: moment(), test });
    stillHere();
    if (answer.type !== 'benchReading') return;
    const { reading } = answer;
    if ('refused' in reading) set({ refused: reading.refused });
    else {
      setAnswers({ clips: [...get().answers.clips, { ...act(), test, values: reading.values }] });
      await askFits();
      stillHere();
    }
    // What is done next is done after the reading.
    await stepOn();
  });
}

/** Minutes of everything read so far, and of parts replaced. */
export function minutesSpent({ clips, swaps }: DiagnoseAnswers): number {
  return clips.reduce((sum, { test }) => sum + minutesOf(test), SWAP_MIN * swaps.length);
}

export function nameCause(card: string): Promise<void> {
  return busily(async () => {
    await afterMending();
    setAnswers({ claims: [...get().answers.claims, { ...act(), card }] });
    await stepOn();
  });
}

// What is mended by the ordinary controls is kept as it is done.
onAnswer((message) => {
  const { job } = getApp();
  if (message.type !== 'recording' || !job?.mending || job.id !== get().exercise?.id) return;
  // The session has taken the message after its listeners: the inputs are looked at one turn later.
  queueMicrotask(keep);
});

/** Opens settings, detector and furniture; what was read until now is all the evidence there will be. */
export function beginMending(): void {
  const { job } = getApp();
  const { answers } = get();
  if (!job || answers.mending) return;
  const mending = act();
  setAnswers({ mending });
  setApp({ job: { ...job, mending: true, allows: allowed({ ...answers, mending }) } });
  askSetup();
}

/** Every act that puts some candidate right, each once: the list is the same whatever is true. */
export function repairActs(exercise: DiagnoseExercise): Input[] {
  const all = exercise.diagnose.candidates.flatMap(({ card }) => card.repair);
  const seen = new Set<string>();
  return all.filter((input) => {
    const key = canonicalJson(input);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

export function repair(input: Input): Promise<void> {
  return busily(() => {
    beginMending();
    return putIn([input]);
  });
}

/** A new detector: clean, with the settings of the commissioning sheet. */
export function swapDetector(): Promise<void> {
  return busily(async () => {
    beginMending();
    setAnswers({ swaps: [...get().answers.swaps, { ...act(), part: 'detector' }] });
    const change = get().exercise!.scenario.settings;
    await putIn([{ kind: 'cleanPhotometers' }, { kind: 'setSettings', change, via: 'handHeld' }]);
  });
}

export function setAdvice(advice: string): void {
  setAnswers({ record: { advice: advice.slice(0, 2000) } });
}

/** After the mark nothing is kept back: the room is shown as it is, with everything the device knows. */
function showAll(): void {
  const { job, scenario } = getApp();
  const attempt = presentAttempt();
  if (!job || !scenario || !attempt) return;
  const saved = savedRun(scenario, attempt);
  closeBench();
  loadStory(scenario, saved ? { saved } : {});
  setApp({ screen: 'main', job: { ...job, sealed: false, allows: [] } });
}
