/** Attempts made by rule, for the proofs: somebody who works through tests, names a cause, repairs and proves. */
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import type { ButtonId, Input, OutputId, Tick, TimedInput } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import type { Attempt } from '../types.ts';
import { type Bench, createBench, momentOf } from './bench.ts';
import { candidateOf, placesOf } from './cards.ts';
import type { Taken } from './evidence.ts';
import { nearest } from './moment.ts';
import { runPlan, timedActs } from './outcomes.ts';
import { type Plan, planOf } from './plan.ts';
import { readTest } from './readings.ts';
import { testKey } from './tests.ts';
import type { DiagnoseAnswers, DiagnoseExercise, Reading, SpecialProof, Test } from './types.ts';
import { advance, tickOf } from './world.ts';

/** Somebody at work on a bench. The true room runs along, so that waiting ends when something happens. */
export interface Worker {
  exercise: DiagnoseExercise;
  seed: number;
  bench: Bench;
  inputs: TimedInput[];
  answers: DiagnoseAnswers;
  /** Clips with their readings, as the worker saw them. */
  taken: Taken[];
  serial: number;
}

export function createWorker(exercise: DiagnoseExercise, seed: number): Worker {
  const inputs: TimedInput[] = [];
  const bench = createBench(exercise, seed, inputs);
  advance(bench.trueWorld, secondsToTicks(exercise.diagnose.beginS));
  const answers: DiagnoseAnswers = { clips: [], claims: [], swaps: [], hints: [], record: { advice: '' } };
  return { exercise, seed, bench, inputs, answers, taken: [], serial: 1 };
}

function now({ bench }: Worker): Tick {
  return tickOf(bench.trueWorld);
}

export function act(worker: Worker, inputs: readonly Input[]): void {
  for (const input of inputs) worker.inputs.push({ tick: now(worker), serial: worker.serial++, input });
  advance(worker.bench.trueWorld, now(worker) + 1);
}

/** Carries a test out and keeps its reading, unless the instrument refuses. */
export function take(worker: Worker, test: Test, plan: Plan | null = null): Reading {
  const { bench, exercise } = worker;
  const steps = plan ?? planOf(exercise, test, bench.trueWorld.sim.state);
  const acts = timedActs(steps, now(worker), worker.serial);
  worker.serial += acts.length;
  worker.inputs.push(...acts);
  runPlan(bench.trueWorld, steps);
  const reading = readTest(test, momentOf(bench, bench.trueWorld, true));
  if ('refused' in reading) return reading;
  const clip = { tick: now(worker), serial: worker.serial++, test, values: reading.values };
  worker.answers.clips.push(clip);
  worker.taken.push({ clip, reading });
  return reading;
}

export function claim(worker: Worker, card: string): void {
  worker.answers.claims.push({ tick: now(worker), serial: worker.serial++, card });
}

export function attemptOf(worker: Worker, names: string[] = ['Bench 1']): Attempt {
  const { exercise, seed, inputs, answers, bench } = worker;
  return {
    format: 1,
    exercise: exercise.id,
    seed,
    engine: ENGINE_VERSION,
    names,
    aid: exercise.aid,
    inputs,
    headTick: now(worker),
    digests: bench.trueWorld.digests,
    answers: { diagnose: answers },
  };
}

/** What the card's own repair is; the places of the room are in it. */
export function repairOf(worker: Worker, card: string): readonly Input[] {
  return candidateOf(worker.exercise, card).card.repair;
}

/** A press in the middle of a visit, for rows that daylight, or their mode, keeps off. */
function withPress(plan: Plan, button: ButtonId): Plan {
  const leaving = plan.acts.filter(({ afterS }) => afterS > 1);
  const coming = plan.acts.filter(({ afterS }) => afterS <= 1);
  const press = { afterS: 5, input: { kind: 'press' as const, input: button } };
  return { ...plan, acts: [...coming, press, ...leaving] };
}

const BUTTON_OF: Record<OutputId, ButtonId> = { innerRow: 'inner', windowRow: 'window', airContact: 'air' };

/** Times an off-delay: by movement, or by a press where movement does not light the row. */
export function timeOff(worker: Worker, output: OutputId): Reading {
  const test: Test = { instrument: 'stopwatch', output, edge: 'off' };
  const begin = now(worker);
  const first = take(worker, test);
  const fresh =
    'values' in first && typeof first.values.agoS === 'number' && now(worker) - first.values.agoS * 10 > begin;
  if (fresh) return first;
  const plan = planOf(worker.exercise, test, worker.bench.trueWorld.sim.state);
  return take(worker, test, withPress(plan, BUTTON_OF[output]));
}

function proveSpecial(worker: Worker, { test }: SpecialProof): void {
  if (test.instrument === 'stopwatch' && test.edge === 'off') timeOff(worker, test.output);
  else take(worker, test);
}

/** The five proofs, and the settings read once more for the record. */
export function proveRepair(worker: Worker, card: string): void {
  const { exercise, bench } = worker;
  const allowed = (test: Test): boolean => exercise.diagnose.tests.some((one) => testKey(one) === testKey(test));
  const { atM } = bench.trueWorld.sim.state.setup.mount;
  const seen = exercise.diagnose.tests.filter((test) => test.instrument === 'seenAt');
  const awayM = (test: Test) =>
    nearest(placesOf(exercise).find(({ id }) => 'place' in test && id === test.place)?.atM ?? null, atM);
  const near = [...seen].sort((a, b) => awayM(a) - awayM(b))[0];
  take(worker, { instrument: 'repeat' });
  if (near) take(worker, near);
  for (const button of ['inner', 'window'] as const) {
    if (allowed({ instrument: 'button', button })) take(worker, { instrument: 'button', button });
  }
  const timed = exercise.diagnose.tests.find((test) => test.instrument === 'stopwatch' && test.edge === 'off');
  if (timed?.instrument === 'stopwatch') timeOff(worker, timed.output);
  proveSpecial(worker, candidateOf(exercise, card).card.proof);
  const settings = exercise.diagnose.tests.find((test) => test.instrument === 'settings');
  if (settings) take(worker, settings);
}
