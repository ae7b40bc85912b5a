/** One bench: the true room and its rivals under the same acts, and what an instrument shows in each of them. */
import { canonicalJson } from '../../engine/digest.ts';
import type { Tick, TimedInput } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { cardScenario, placesOf, trueCard } from './cards.ts';
import { type Moment, youAt } from './moment.ts';
import { readTest } from './readings.ts';
import { testKey } from './tests.ts';
import type { DiagnoseExercise, Reading, Test } from './types.ts';
import { advance, createWorld, fork, movementKey, plainWorld, tickOf, type World } from './world.ts';

export interface Bench {
  exercise: DiagnoseExercise;
  seed: number;
  inputs: readonly TimedInput[];
  /** The card that is true here. */
  truth: string;
  /** The true room, run with all its movement; it leads the rivals that sense the same. */
  trueWorld: World;
  rivals: Map<string, World>;
  leaders: Map<string, World>;
}

/** The learner takes over here. */
export function beginTick(exercise: DiagnoseExercise): Tick {
  return secondsToTicks(exercise.diagnose.beginS);
}

/** True rooms as the learners find them, by seed. Assumed: a class has at most so many seeds at once. */
const FOUND_KEPT = 40;
const found = new WeakMap<DiagnoseExercise, Map<number, World>>();

function foundWorld(exercise: DiagnoseExercise, seed: number): World {
  const bySeed = found.get(exercise) ?? new Map<number, World>();
  found.set(exercise, bySeed);
  const known = bySeed.get(seed);
  if (known) return known;
  const world = createWorld(cardScenario(exercise, seed, trueCard(exercise, seed)), [], null, true);
  advance(world, beginTick(exercise));
  bySeed.set(seed, world);
  if (bySeed.size > FOUND_KEPT) bySeed.delete(bySeed.keys().next().value!);
  return world;
}

/** `inputs` may grow at its end while the bench is at work. */
export function createBench(exercise: DiagnoseExercise, seed: number, inputs: readonly TimedInput[]): Bench {
  const truth = trueCard(exercise, seed);
  const early = inputs.some(({ tick }) => tick < beginTick(exercise));
  const scenario = cardScenario(exercise, seed, truth);
  const trueWorld = early ? createWorld(scenario, inputs, null, true) : fork(foundWorld(exercise, seed), inputs);
  const leaders = new Map([[movementKey(scenario), trueWorld]]);
  return { exercise, seed, inputs, truth, trueWorld, rivals: new Map(), leaders };
}

function rivalWorld(bench: Bench, card: string, tick: Tick): World {
  const known = bench.rivals.get(card);
  if (known && tickOf(known) <= tick) return known;
  const scenario = cardScenario(bench.exercise, bench.seed, card);
  const key = movementKey(scenario);
  const leader = bench.leaders.get(key) ?? null;
  const world = createWorld(scenario, bench.inputs, leader);
  if (!leader) bench.leaders.set(key, world);
  bench.rivals.set(card, world);
  return world;
}

export function momentOf(bench: Pick<Bench, 'exercise'>, world: World, isTrue: boolean): Moment {
  return {
    world,
    plain: world.scenario,
    complaint: bench.exercise.diagnose.complaint,
    places: placesOf(bench.exercise),
    isTrue,
    you: (atM, moving) => (isTrue ? youAt(world, atM, moving) : null),
  };
}

/** What the instrument shows in the true room at a tick that has not been passed. */
export function readTrue(bench: Bench, test: Test, tick: Tick): Reading {
  advance(bench.trueWorld, tick);
  return readTest(test, momentOf(bench, bench.trueWorld, true));
}

export function binOf(reading: Reading): string {
  return 'bin' in reading ? reading.bin : `refused ${reading.refused}`;
}

/** Readings of rivals remembered per exercise. Assumed: some hundred attempts of one class share their first readings. */
const KEPT = 20_000;
const remembered = new WeakMap<DiagnoseExercise, Map<string, string>>();

/** Outcome that a rival's room would have shown for the same test at the same tick, after the same acts. */
export function rivalBin(bench: Bench, card: string, test: Test, tick: Tick): string {
  const bins = remembered.get(bench.exercise) ?? new Map<string, string>();
  remembered.set(bench.exercise, bins);
  const before = bench.inputs.filter((timed) => timed.tick < tick);
  const key = canonicalJson([bench.seed, card, before, tick, testKey(test)]);
  const known = bins.get(key);
  if (known !== undefined) return known;
  let world: World;
  // Nobody has acted yet: the room is the plain one, which many attempts share.
  if (before.length === 0) world = plainRival(bench, card, tick);
  else world = rivalWorld(bench, card, tick);
  advance(world, tick);
  const bin = binOf(readTest(test, momentOf(bench, world, false)));
  bins.set(key, bin);
  if (bins.size > KEPT) bins.delete(bins.keys().next().value!);
  return bin;
}

function plainRival(bench: Bench, card: string, tick: Tick): World {
  const name = `plain ${card}`;
  const known = bench.rivals.get(name);
  if (known && tickOf(known) <= tick) return known;
  const world = plainWorld(cardScenario(bench.exercise, bench.seed, card));
  bench.rivals.set(name, world);
  return world;
}
