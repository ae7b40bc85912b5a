/**
 * Rooms that run side by side: the true one and, with the same acts of the learner, one for each rival card. Cards that
 * leave people, scene and clips alone share their movement: it is sensed once, and the others are given its pulses.
 */
import { createWeightMemo, type WeightMemo } from '../../engine/detection/weightMemo.ts';
import { canonicalJson } from '../../engine/digest.ts';
import type { RoomLight } from '../../engine/light/types.ts';
import { isInRoom } from '../../engine/room/corridor.ts';
import {
  createSimulation,
  digestOf,
  restoreState,
  type Simulation,
  type StepResult,
  stepSimulation,
} from '../../engine/simulation.ts';
import type { TraceEvent } from '../../engine/trace.ts';
import type { Input, Pulse, Scenario, SimState, Tick, TimedInput, UprightBody } from '../../engine/types.ts';
import { DIGEST_EVERY_TICKS } from '../replay.ts';

/** One room, run up to `sim.state.tick`. */
export interface World {
  readonly scenario: Scenario;
  readonly inputs: readonly TimedInput[];
  sim: Simulation;
  events: TraceEvent[];
  /** Light of the last tick worked. */
  light: RoomLight;
  /** At the start of each minute, before its first tick. */
  digests: { tick: Tick; digest: string }[];
  /** Inputs already worked. */
  next: number;
  /** A room whose pulses this one is given; null: it senses by itself and can lead others. */
  leader: World | null;
  /** What was sensed, by tick; ticks without a pulse are left out. */
  pulses: Map<Tick, Pulse[]>;
  /** Who was up the ladder before the photometers, by tick; most ticks nobody. */
  raised: Map<Tick, readonly UprightBody[]>;
  /** Clips in force at each change, and whether anybody was in the room in each tick; the corridor is not the room. */
  clips: { fromTick: Tick; sectors: readonly number[] }[];
  someone: boolean[];
  keepDigests: boolean;
}

/** Rooms of all benches show the same moving things to the same scenes. */
let memo: WeightMemo | null = null;

function simulate(scenario: Scenario): Simulation {
  const sim = createSimulation(scenario);
  memo ??= createWeightMemo();
  sim.scratch.weightMemo = memo;
  return sim;
}

const NO_LIGHT: RoomLight = { readings: { innerLx: 0, windowLx: 0 }, deskLx: [] };
const NO_PULSES: Pulse[] = [];

export function createWorld(
  scenario: Scenario,
  inputs: readonly TimedInput[],
  leader: World | null,
  keepDigests = false,
): World {
  return {
    scenario,
    inputs,
    sim: simulate(scenario),
    events: [],
    light: NO_LIGHT,
    digests: [],
    next: 0,
    leader,
    pulses: new Map(),
    raised: new Map(),
    clips: [],
    someone: [],
    keepDigests,
  };
}

/** Whom a room has its movement from: another room at the same tick, or itself. */
function moverOf(world: World): World {
  return world.leader ?? world;
}

/** The state with people where they are now; a leader must be at the same tick. */
export function wholeState(world: World): SimState {
  const { people, movement, random } = moverOf(world).sim.state;
  return { ...world.sim.state, people, movement, random };
}

/** The same room with acts to come, from where it is. */
function continued(source: World, inputs: readonly TimedInput[], leader: World | null): World {
  const world = createWorld(source.scenario, inputs, leader, source.keepDigests);
  restoreState(world.sim, wholeState(source));
  world.events = source.events.slice();
  world.light = source.light;
  world.digests = source.digests.slice();
  return world;
}

/** The same room, going its own way from where it is: it senses by itself. */
export function fork(source: World, inputs: readonly TimedInput[]): World {
  const world = continued(source, inputs, null);
  const { pulses, raised, clips, someone } = moverOf(source);
  world.pulses = new Map(pulses);
  world.raised = new Map(raised);
  world.clips = clips.slice();
  world.someone = someone.slice();
  return world;
}

/** The same room with the acts of `leader`, which sensed the same up to here. */
export function follow(source: World, leader: World): World {
  return continued(source, leader.inputs, leader);
}

export function tickOf(world: World): Tick {
  return world.sim.state.tick;
}

function sameSectors(a: readonly number[], b: readonly number[]): boolean {
  return a === b || (a.length === b.length && a.every((sector) => b.includes(sector)));
}

function clipsAt(world: World, tick: Tick): readonly number[] {
  let sectors: readonly number[] = [];
  for (const change of world.clips) {
    if (change.fromTick > tick) break;
    sectors = change.sectors;
  }
  return sectors;
}

/** Pulses of the leader in this tick; null: its clips differ, so what it saw is not what this room sees. */
function givenPulses(world: World, leader: World, tick: Tick): Pulse[] | null {
  if (tickOf(leader) <= tick) advance(leader, tick + 1);
  const mine = world.sim.state.control.settings.maskedSectors;
  return sameSectors(mine, clipsAt(leader, tick)) ? (leader.pulses.get(tick) ?? NO_PULSES) : null;
}

function note(world: World, { tick, pulses, raised }: StepResult): void {
  if (pulses.length > 0) world.pulses.set(tick, pulses);
  if (raised.length > 0) world.raised.set(tick, raised);
  const { room } = world.scenario;
  world.someone[tick] = world.sim.state.people.some((person) => person.present && isInRoom(room, person.atM));
}

/** Begins again without a leader and comes back to where it was: from here on this room senses by itself. */
function standAlone(world: World): void {
  const tick = tickOf(world);
  world.leader = null;
  world.sim = simulate(world.scenario);
  world.events = [];
  world.digests = [];
  world.next = 0;
  advance(world, tick);
}

/** Works the room up to `toTick` (exclusive). */
export function advance(world: World, toTick: Tick): void {
  while (tickOf(world) < toTick) {
    const { state } = world.sim;
    const { tick } = state;
    const given = world.leader ? givenPulses(world, world.leader, tick) : null;
    if (world.leader && given === null) {
      standAlone(world);
      continue;
    }
    if (world.keepDigests && tick % DIGEST_EVERY_TICKS === 0) world.digests.push({ tick, digest: digestOf(state) });
    const sectors = state.control.settings.maskedSectors;
    const known = world.clips.at(-1);
    if (!world.leader && !(known && sameSectors(known.sectors, sectors))) world.clips.push({ fromTick: tick, sectors });
    const from = world.next;
    while (world.next < world.inputs.length && world.inputs[world.next]!.tick <= tick) world.next++;
    const raised = world.leader?.raised.get(tick);
    const step = stepSimulation(world.sim, world.inputs.slice(from, world.next), given, raised);
    for (const event of step.events) world.events.push(event);
    world.light = step.light;
    if (!world.leader) note(world, step);
  }
}

/** Whether anybody was in the room in a tick that has been worked. */
export function someoneAt(world: World, tick: Tick): boolean {
  return (world.leader ?? world).someone[tick] ?? false;
}

/** Kinds of input that movement does not feel. Clips are settings: they are compared tick by tick. */
const UNFELT: readonly Input['kind'][] = [
  'setSettings',
  'takePresentLight',
  'walkTest',
  'contact',
  'press',
  'supply',
  'cleanPhotometers',
  'holdTorch',
];

/** Rooms with the same key and the same acts sense the same. */
export function movementKey(scenario: Scenario): string {
  const { detectorModel, room, mount, people, warmThings, seed, script, settings, start, site, sky } = scenario;
  const felt = script.filter(({ input }) => !UNFELT.includes(input.kind));
  const { photometerClearShare: _share, ...model } = detectorModel;
  const outside = [start, site, sky];
  return canonicalJson([model, room, mount, people, warmThings, seed, felt, settings.maskedSectors, outside]);
}

/** Rooms without acts whose movement is kept. Assumed: the true scene, its repaired twin and a few rivals. */
const KEPT = 6;
const leaders = new Map<string, World>();

/** A room that nobody acts in, at its beginning; led by an earlier one with the same movement if there is one. */
export function plainWorld(scenario: Scenario): World {
  const key = movementKey(scenario);
  const known = leaders.get(key);
  leaders.delete(key);
  const leader = known ?? createWorld(scenario, [], null);
  leaders.set(key, leader);
  if (leaders.size > KEPT) leaders.delete(leaders.keys().next().value!);
  return createWorld(scenario, [], leader);
}
