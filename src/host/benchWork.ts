/** A diagnosis being worked: its true room and the rivals stand in a worker of their own and follow what is done. */
import type { Tick, TimedInput } from '../engine/types.ts';
import { type Bench, createBench, readTrue } from '../exercise/diagnose/bench.ts';
import { beliefAfter, type Taken, takeAgain } from '../exercise/diagnose/evidence.ts';
import { beginTick } from '../exercise/diagnose/found.ts';
import { type Plan, planOf } from '../exercise/diagnose/plan.ts';
import type { Clip, DiagnoseExercise, Reading, Test } from '../exercise/diagnose/types.ts';
import { advance, tickOf } from '../exercise/diagnose/world.ts';

/** Where the work on a bench stands: what was done and read so far, and the next tick to be worked. */
export interface BenchMoment {
  inputs: TimedInput[];
  clips: Clip[];
  tick: Tick;
}

export type BenchQuestion =
  | { type: 'benchOpen'; exercise: DiagnoseExercise; seed: number }
  | { type: 'benchPlan'; at: BenchMoment; test: Test }
  | { type: 'benchRead'; at: BenchMoment; test: Test }
  /** Which causes the clips leave possible, and which clips ruled one out. */
  | { type: 'benchFits'; at: BenchMoment };

export type BenchAnswer =
  | { type: 'benchOpened' }
  | { type: 'benchPlanned'; plan: Plan }
  | { type: 'benchReading'; reading: Reading }
  | { type: 'benchFitting'; cards: string[]; tellingTicks: Tick[] };

export function isBenchQuestion(message: { type: string }): message is BenchQuestion {
  return message.type.startsWith('bench');
}

interface OpenBench {
  exercise: DiagnoseExercise;
  seed: number;
  bench: Bench;
  /** Grows with what is done; the bench holds the same list. */
  inputs: TimedInput[];
  taken: Taken[];
}

let open: OpenBench | null = null;

function fresh(exercise: DiagnoseExercise, seed: number): OpenBench {
  const inputs: TimedInput[] = [];
  return { exercise, seed, inputs, bench: createBench(exercise, seed, inputs), taken: [] };
}

const sameInput = (a: TimedInput | undefined, b: TimedInput): boolean =>
  a !== undefined && a.tick === b.tick && a.serial === b.serial;

/** Brings the bench to where the work stands; begins anew when the work went back. */
function follow(at: BenchMoment): OpenBench {
  if (!open) throw new Error('no bench is open');
  const reached = tickOf(open.bench.trueWorld);
  const grown = open.inputs.every((input, i) => sameInput(at.inputs[i], input));
  const late = at.inputs.slice(open.inputs.length).every(({ tick }) => tick >= reached);
  const known = open.taken.every(({ clip }, i) => clip.tick === at.clips[i]?.tick);
  if (!grown || !late || !known || reached > at.tick) open = fresh(open.exercise, open.seed);
  open.inputs.push(...at.inputs.slice(open.inputs.length));
  const missing = at.clips.slice(open.taken.length);
  open.taken.push(...takeAgain(open.bench, missing, at.tick));
  advance(open.bench.trueWorld, Math.max(at.tick, beginTick(open.exercise)));
  return open;
}

export function answerBench(question: BenchQuestion): BenchAnswer {
  switch (question.type) {
    case 'benchOpen':
      open = fresh(question.exercise, question.seed);
      return { type: 'benchOpened' };
    case 'benchPlan': {
      const { exercise, bench } = follow(question.at);
      return { type: 'benchPlanned', plan: planOf(exercise, question.test, bench.trueWorld.sim.state) };
    }
    case 'benchRead': {
      const { bench } = follow(question.at);
      return { type: 'benchReading', reading: readTrue(bench, question.test, question.at.tick) };
    }
    case 'benchFits': {
      const { bench, taken } = follow(question.at);
      const { belief, tellingTicks } = beliefAfter(bench, taken);
      return { type: 'benchFitting', cards: [...belief.keys()], tellingTicks };
    }
  }
}
