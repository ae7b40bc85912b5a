/** A diagnosis being worked: readings taken and kept, a cause named, the room put right, handed in. */
import { create } from 'zustand';
import { canonicalJson } from '../../../engine/digest.ts';
import type { Input } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import { cardScenario, trueCard } from '../../../exercise/diagnose/cards.ts';
import { minutesOf } from '../../../exercise/diagnose/tests.ts';
import type { Clip, DiagnoseAnswers, DiagnoseExercise, Refusal, Test } from '../../../exercise/diagnose/types.ts';
import type { Attempt, Exercise } from '../../../exercise/types.ts';
import type { BenchMoment } from '../../../host/benchWork.ts';
import { live } from '../live.ts';
import { readSave } from '../saves.ts';
import { loadStory } from '../session.ts';
import { getApp, setApp } from '../store.ts';
import { askBench } from './benchWorker.ts';
import { getJob, isOpen, type JobKind, keep, setStage, tell, useJob } from './job.ts';
import { doPlan, putIn, stepOn } from './roomWork.ts';

export interface DiagnosisData {
  exercise: DiagnoseExercise | null;
  answers: DiagnoseAnswers;
  /** A test is being done: nothing else may begin. */
  busy: boolean;
  refused: Refusal | null;
  /** Causes that the readings leave possible, by id; null: not known (yet), or not told in a test. */
  fitting: string[] | null;
}

const NOTHING: DiagnoseAnswers = { clips: [], claims: [], swaps: [], hints: [], record: { advice: '' } };
const EMPTY = { answers: NOTHING, busy: false, refused: null, fitting: null };

export const useDiagnosis = create<DiagnosisData>()(() => ({ exercise: null, ...EMPTY }));
const set = useDiagnosis.setState;
const get = useDiagnosis.getState;

/** What a hand, a screwdriver and the hand-held setter can do; people are put where a test needs them. */
const ALLOWS: readonly Input['kind'][] = [
  'addPerson',
  'placePerson',
  'setPlan',
  'press',
  'setSettings',
  'setWarmThing',
  'setDoor',
  'moveDetector',
  'moveFurniture',
  'cleanPhotometers',
  'walkTest',
];

async function open(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'diagnose') return;
  const scenario = cardScenario(exercise, seed, trueCard(exercise, seed));
  const saved = kept?.headTick ? readSave(scenario) : null;
  const usable = saved && saved !== 'damaged' ? saved : null;
  const answers = usable ? (kept?.answers.diagnose ?? NOTHING) : NOTHING;
  loadStory(scenario, usable ? { saved: usable } : { atTick: secondsToTicks(exercise.diagnose.beginS), fresh: true });
  set({ ...EMPTY, exercise, answers });
  const stage = 'working';
  setApp({
    screen: 'main',
    overlay: 'none',
    speed: 10,
    settings: null,
    job: { id: exercise.id, kind: 'diagnose', seed, stage, untilTick: Infinity, sealed: true, allows: ALLOWS },
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
  begun: () => live.frame !== null,
  answers: () => ({ diagnose: get().answers }),
  inputs: () => live.inputs,
  unmarked: 'working',
};

/** Where the work stands, as the bench wants it. */
function moment(): BenchMoment {
  return { inputs: live.inputs, clips: get().answers.clips, tick: (live.frame?.tick ?? 0) + 1 };
}

async function askFits(): Promise<void> {
  const { exercise } = get();
  // The exercise that is open may have been given another level of aid than its file has.
  if (!exercise || getJob().exercise?.aid === 'test') return;
  const answer = await askBench({ type: 'benchFits', at: moment() });
  if (get().exercise === exercise && answer.type === 'benchFitting') set({ fitting: answer.cards });
}

function setAnswers(change: Partial<DiagnoseAnswers>): void {
  set((s) => ({ answers: { ...s.answers, ...change } }));
  keep();
}

function act(): { tick: number; serial: number } {
  const { clips, claims, swaps } = get().answers;
  return { tick: moment().tick, serial: clips.length + claims.length + swaps.length };
}

/** Does a test as it is done by hand: You go where it needs You, the room runs, the instrument is read and the clip kept. */
export async function takeTest(test: Test): Promise<void> {
  const { exercise, busy } = get();
  if (!exercise || busy) return;
  set({ busy: true, refused: null });
  try {
    const planned = await askBench({ type: 'benchPlan', at: moment(), test });
    if (planned.type === 'benchPlanned') await doPlan(planned.plan);
    const answer = await askBench({ type: 'benchRead', at: moment(), test });
    if (get().exercise !== exercise || answer.type !== 'benchReading') return;
    const { reading } = answer;
    if ('refused' in reading) set({ refused: reading.refused });
    else {
      const clip: Clip = { ...act(), test, values: reading.values };
      setAnswers({ clips: [...get().answers.clips, clip] });
      await askFits();
    }
    // What is done next is done after the reading.
    await stepOn();
    keep();
  } catch (error) {
    tell(error);
  } finally {
    set({ busy: false });
  }
}

/** Minutes of everything read so far, and of parts replaced. */
export function minutesSpent({ clips }: DiagnoseAnswers): number {
  return clips.reduce((sum, { test }) => sum + minutesOf(test), 0);
}

export async function nameCause(card: string): Promise<void> {
  setAnswers({ claims: [...get().answers.claims, { ...act(), card }] });
  await stepOn();
  keep();
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

export async function repair(input: Input): Promise<void> {
  if (get().busy) return;
  set({ busy: true });
  await putIn([input]);
  set({ busy: false });
  keep();
}

/** A new detector: clean, with the settings of the commissioning sheet. */
export async function swapDetector(): Promise<void> {
  const { exercise, busy } = get();
  if (!exercise || busy) return;
  set({ busy: true });
  setAnswers({ swaps: [...get().answers.swaps, { ...act(), part: 'detector' }] });
  const change = exercise.scenario.settings;
  await putIn([{ kind: 'cleanPhotometers' }, { kind: 'setSettings', change, via: 'handHeld' }]);
  set({ busy: false });
  keep();
}

export function setAdvice(advice: string): void {
  setAnswers({ record: { advice: advice.slice(0, 2000) } });
}

/** After the mark nothing is kept back: the room is shown as it is, with everything the device knows. */
useJob.subscribe((job, before) => {
  const { job: at, scenario } = getApp();
  if (!job.mark || before.mark || at?.kind !== 'diagnose' || !scenario) return;
  const saved = readSave(scenario);
  loadStory(scenario, saved && saved !== 'damaged' ? { saved } : {});
  setApp({ screen: 'main', job: { ...at, stage: 'result', sealed: false, allows: [] } });
  setStage('result');
});
