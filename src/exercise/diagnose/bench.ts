/** One bench: the true room and its rivals under the same acts, and what an instrument shows in each of them. */
import { canonicalJson } from '../../engine/digest.ts';
import type { Tick, TimedInput } from '../../engine/types.ts';
import { cardScenario, placesOf, trueCard } from './cards.ts';
import { beginTick, foundRoom } from './found.ts';
import { type Moment, youAt } from './moment.ts';
import { readTest } from './readings.ts';
import { testKey } from './tests.ts';
import type { DiagnoseExercise, Reading, Test } from './types.ts';
import { advance, createWorld, follow, fork, movementKey, tickOf, type World } from './world.ts';

export interface Bench {
  exercise: DiagnoseExercise;
  seed: number;
  inputs: readonly TimedInput[];
  /** Somebody acted before the learner took over: every room runs from its start. */
  early: boolean;
  /** The card that is true here. */
  truth: string;
  /** The true room, run with all its movement; it leads the rivals that sense the same. */
  trueWorld: World;
  rivals: Map<string, World>;
  leaders: Map<string, World>;
}

/** `inputs` may grow at its end while the bench is at work. */
export function createBench(exercise: DiagnoseExercise, seed: number, inputs: readonly TimedInput[]): Bench {
  const truth = trueCard(exercise, seed);
  const early = inputs.some(({ tick }) => tick < beginTick(exercise));
  const scenario = cardScenario(exercise, seed, truth);
  const trueWorld = early ? createWorld(scenario, inputs, null, true) : fork(foundRoom(exercise, seed, truth), inputs);
  const leaders = new Map([[movementKey(scenario), trueWorld]]);
  return { exercise, seed, inputs, early, truth, trueWorld, rivals: new Map(), leaders };
}

function startRival({ exercise, seed, inputs, early }: Bench, card: string, leader: World | null): World {
  if (early) return createWorld(cardScenario(exercise, seed, card), inputs, leader);
  const found = foundRoom(exercise, seed, card);
  return leader ? follow(found, leader) : fork(found, inputs);
}

function rivalWorld(bench: Bench, card: string, tick: Tick): World {
  const known = bench.rivals.get(card);
  if (known && tickOf(known) <= tick) return known;
  const key = movementKey(cardScenario(bench.exercise, bench.seed, card));
  const leader = bench.leaders.get(key) ?? null;
  const world = startRival(bench, card, leader);
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
    you: (atM, must) => (isTrue ? youAt(world, atM, must) : null),
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
  const world = rivalWorld(bench, card, tick);
  advance(world, tick);
  const bin = binOf(readTest(test, momentOf(bench, world, false)));
  bins.set(key, bin);
  if (bins.size > KEPT) bins.delete(bins.keys().next().value!);
  return bin;
}
