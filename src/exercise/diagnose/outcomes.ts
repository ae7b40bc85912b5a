/** Planned outcomes: what each test would show for each card, once per exercise and seed, on the complaint's own scene. */
import { cloneState, restoreState } from '../../engine/simulation.ts';
import type { SimState, TimedInput } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { binOf, momentOf } from './bench.ts';
import { cardScenario } from './cards.ts';
import { type Plan, planOf } from './plan.ts';
import { readTest } from './readings.ts';
import { testKey } from './tests.ts';
import type { DiagnoseExercise, Test } from './types.ts';
import { advance, createWorld, movementKey, tickOf, type World } from './world.ts';

/** The room of one card as the learner finds it. */
interface Found {
  card: string;
  world: World;
  state: SimState;
}

/** Rooms of all cards at the instant the learner takes over; those that sense alike are sensed once. */
function roomsFound(exercise: DiagnoseExercise, seed: number): Found[] {
  const beginTick = secondsToTicks(exercise.diagnose.beginS);
  const leaders = new Map<string, World>();
  return exercise.diagnose.candidates.map(({ card }) => {
    const scenario = cardScenario(exercise, seed, card.id);
    const key = movementKey(scenario);
    const leader = leaders.get(key);
    const world = createWorld(scenario, [], leader ?? null);
    advance(world, beginTick);
    if (!world.leader) leaders.set(key, world);
    const from = (world.leader ?? world).sim.state;
    const { people, movement, random } = from.tick === beginTick ? from : world.sim.state;
    return { card: card.id, world, state: cloneState({ ...world.sim.state, people, movement, random }) };
  });
}

/** The found room, going its own way from here. */
function branch(found: Found, inputs: TimedInput[]): World {
  const { scenario, events, light } = found.world;
  const leader = found.world.leader ?? found.world;
  const world = createWorld(scenario, inputs, null);
  restoreState(world.sim, found.state);
  world.events = events.slice();
  world.light = light;
  world.someone = leader.someone.slice(0, found.state.tick);
  world.clips = [{ fromTick: 0, sectors: found.state.control.settings.maskedSectors }];
  return world;
}

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
  found: Found[] | null;
  bins: Map<string, string>;
}

const planned = new WeakMap<DiagnoseExercise, Map<number, Planned>>();

/** Outcome of a test for a card; each is worked out when it is first asked for. */
export function plannedOutcomes(exercise: DiagnoseExercise, seed: number): Outcomes {
  const bySeed = planned.get(exercise) ?? new Map<number, Planned>();
  planned.set(exercise, bySeed);
  const known = bySeed.get(seed) ?? { found: null, bins: new Map<string, string>() };
  bySeed.set(seed, known);
  return (test, card) => {
    const key = `${card} ${testKey(test)}`;
    const bin = known.bins.get(key);
    if (bin !== undefined) return bin;
    known.found ??= roomsFound(exercise, seed);
    const found = known.found.find((room) => room.card === card)!;
    const plan = planOf(exercise, test, found.state);
    const world = branch(found, timedActs(plan, found.state.tick, 0));
    runPlan(world, plan);
    const read = binOf(readTest(test, momentOf({ exercise }, world, false)));
    known.bins.set(key, read);
    return read;
  };
}
