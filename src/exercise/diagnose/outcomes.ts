/** Planned outcomes: what each test would show for each card, once per exercise and seed, on the complaint's own scene. */
import { canonicalJson } from '../../engine/digest.ts';
import type { TimedInput } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { binOf, momentOf } from './bench.ts';
import { foundRoom } from './found.ts';
import { type Plan, planOf } from './plan.ts';
import { readTest } from './readings.ts';
import { testKey } from './tests.ts';
import type { DiagnoseExercise, Test } from './types.ts';
import { advance, follow, fork, movementKey, tickOf, type World, wholeState } from './world.ts';

function isOn({ sim }: World, { output }: NonNullable<Plan['until']>): boolean {
  const { inner, window, air } = sim.state.control;
  return { innerRow: inner, windowRow: window, airContact: air }[output].contactClosed;
}

/** Runs a plan to its reading: at once, after its time, or at the switching that it waits for. */
export function runPlan(world: World, plan: Plan): void {
  const start = tickOf(world);
  advance(world, start + secondsToTicks(plan.readAfterS));
  const { until } = plan;
  if (!until) return;
  const limit = start + secondsToTicks(until.limitS);
  // An off that never can come is not waited for.
  if (!until.on && !isOn(world, until)) return;
  while (tickOf(world) < limit && isOn(world, until) !== until.on) advance(world, tickOf(world) + 1);
}

export function timedActs(plan: Plan, fromTick: number, firstSerial: number): TimedInput[] {
  return plan.acts.map(({ afterS, input }, i) => ({
    tick: fromTick + secondsToTicks(afterS),
    serial: firstSerial + i,
    input,
  }));
}

export type Outcomes = (test: Test, card: string) => string;

interface Planned {
  bins: Map<string, string>;
  /** Rooms at work on a plan, by movement and acts: the others with the same are given their pulses. */
  leaders: Map<string, World>;
}

const planned = new WeakMap<DiagnoseExercise, Map<number, Planned>>();

function plannedOf(exercise: DiagnoseExercise, seed: number): Planned {
  const bySeed = planned.get(exercise) ?? new Map<number, Planned>();
  planned.set(exercise, bySeed);
  const known = bySeed.get(seed);
  if (known) return known;
  // Of other benches only outcomes are kept: rooms are large.
  for (const { leaders } of bySeed.values()) leaders.clear();
  const fresh: Planned = { bins: new Map(), leaders: new Map() };
  bySeed.set(seed, fresh);
  return fresh;
}

/** The found room after the plan's acts, at its reading. */
function carriedOut(found: World, plan: Plan, leaders: Planned['leaders']): World {
  const acts = timedActs(plan, tickOf(found), 0);
  if (acts.length === 0 && plan.readAfterS === 0) return found;
  const key = `${movementKey(found.scenario)} ${canonicalJson(acts)}`;
  const leader = leaders.get(key);
  const world = leader ? follow(found, leader) : fork(found, acts);
  if (!leader) leaders.set(key, world);
  runPlan(world, plan);
  return world;
}

/** Outcome of a test for a card; each is worked out when it is first asked for. */
export function plannedOutcomes(exercise: DiagnoseExercise, seed: number): Outcomes {
  const { bins, leaders } = plannedOf(exercise, seed);
  return (test, card) => {
    const key = `${card} ${testKey(test)}`;
    const known = bins.get(key);
    if (known !== undefined) return known;
    const found = foundRoom(exercise, seed, card);
    const plan = planOf(exercise, test, wholeState(found));
    const world = carriedOut(found, plan, leaders);
    const bin = binOf(readTest(test, momentOf({ exercise }, world, false)));
    bins.set(key, bin);
    return bin;
  };
}
