/**
 * The page to read first: a room, and the one function that advances it by a tick of 0.1 s. The worker, the command
 * line, replay, marks and tests are all ways of calling `stepSimulation`.
 */
import { movementAt, SURFACES_EVERY_TICKS } from './background.ts';
import { createControlState, runControl } from './control/control.ts';
import { createMovementState, renewSurfaces, senseMovement } from './detection/sense.ts';
import type { MovementTables } from './detection/types.ts';
import type { WeightMemo } from './detection/weightMemo.ts';
import { canonicalJson, fnv64 } from './digest.ts';
import { createLightState, lightRoom } from './light/light.ts';
import type { RoomLight } from './light/types.ts';
import { adaptPerson, advancePeople, createPeople, poseTick, radiateBodies, raisedBodies } from './people/people.ts';
import { createPlant, drivePlant } from './plant/plant.ts';
import { fitsNextTick, type PulseReader, pulsesOf, recallMemory } from './pulseStore.ts';
import { streamFor } from './random.ts';
import { type AppliedInputs, applyInputs, createSetup } from './setup.ts';
import { moveSky, SKY_EVERY_TICKS, skyMoment } from './skyClock.ts';
import { type Tables, tablesFor } from './tables.ts';
import type { TraceEvent } from './trace.ts';
import type { BodyBuffer, Input, Pulse, Scenario, SimState, Tick, TimedInput, UprightBody } from './types.ts';
import { createBodyBuffer, MOST_BODIES, PART_KINDS } from './types.ts';
import { SUB_STEPS, secondsToTicks, TICK_MS } from './units.ts';
import { createWires, dueContacts, dueSupply } from './wires.ts';

/** Rises when a golden digest changes, with the reason in DEVELOPERS.md. */
export const ENGINE_VERSION = '4';

/** Quadrant channels of the detector. Source: our own lens has one dual element per quadrant. */
export const CHANNELS = 4;

export interface Simulation {
  readonly scenario: Scenario;
  /** The scenario's own inputs by the tick in which they are due. */
  readonly script: ReadonlyMap<Tick, Input[]>;
  state: SimState;
  /** Worked out from scenario and setup; looked up afresh when the scene changes. What sensing has behind bodies, which
   *  goes by the minute, is asked for by `movementNow`. */
  tables: Tables;
  /** Stored pulses stand in for sensing; null: bodies are sensed. */
  stored: PulseReader | null;
  /** Buffers that carry nothing from one tick to the next. */
  readonly scratch: Scratch;
}

/** The detector's tables as of the tick to come, surfaces in sun and cold included. */
export function movementNow({ tables, scenario, state }: Simulation, tick: Tick = state.tick): MovementTables {
  return movementAt(tables, scenario, state.setup, state.seed, tick);
}

interface Scratch {
  bodies: BodyBuffer[];
  radiance: Float64Array;
  signalUv: Float32Array;
  /** Each body's own changes of flux, for who follows them (personSight.ts); null: nobody asks, nothing is written. */
  sharesW: Float64Array | null;
  /** What is sensed with, while it lasts; null: to be looked up. */
  movement: MovementTables | null;
  /** For who runs many rooms alike; null: every pose is weighed. The results are the same. */
  weightMemo: WeightMemo | null;
}

/**
 * What one tick brought. `signalUv` and `bodies` are scratch: copy what must outlive the next tick. With stored pulses
 * nobody is posed and there is no signal: `bodies` stand as they last did, `signalUv` is not a number.
 */
export interface StepResult {
  /** The tick that was worked. */
  tick: Tick;
  events: TraceEvent[];
  pulses: Pulse[];
  /** Who is up the ladder, before the photometers. */
  raised: readonly UprightBody[];
  light: RoomLight;
  /** Light output of the lamps of each row, 0-1, that `light` was read with. */
  lamps: { inner: number; window: number };
  signalUv: Float32Array;
  bodies: BodyBuffer;
}

function scriptByTick(scenario: Scenario): Map<Tick, Input[]> {
  const script = new Map<Tick, Input[]>();
  for (const { atS, input } of scenario.script) {
    const tick = secondsToTicks(atS);
    script.set(tick, [...(script.get(tick) ?? []), input]);
  }
  return script;
}

/** A room at tick 0, nothing worked yet. The same scenario and seed give the same room everywhere. */
export function createSimulation(scenario: Scenario, seed: number = scenario.seed): Simulation {
  const setup = createSetup(scenario);
  const tables = tablesFor(scenario, setup);
  const state: SimState = {
    engine: ENGINE_VERSION,
    tick: 0,
    seed,
    random: [],
    setup,
    people: createPeople(scenario.people),
    wires: createWires(),
    movement: createMovementState(scenario.detectorModel, seed),
    light: createLightState(
      tables.light,
      skyMoment(scenario, setup, seed, 0),
      skyMoment(scenario, setup, seed, SKY_EVERY_TICKS),
      setup,
    ),
    control: createControlState(scenario.settings, { supplyPresent: scenario.supplyAtStart }),
    plant: createPlant(),
  };
  const bodies = Array.from({ length: SUB_STEPS }, () => createBodyBuffer(MOST_BODIES));
  const scratch = {
    bodies,
    radiance: new Float64Array(MOST_BODIES * PART_KINDS.length),
    signalUv: new Float32Array(CHANNELS * SUB_STEPS),
    sharesW: null,
    movement: null,
    weightMemo: null,
  };
  return { scenario, script: scriptByTick(scenario), state, tables, stored: null, scratch };
}

/**
 * Works one tick: `inputs` are those due now, in order of their serials; the scenario's own script comes first.
 * `known`: the pulses of this very tick from another run whose people, warm things, detector and seed are the same. They
 * do not depend on light or settings, so people then stay where they are, nothing is sensed, and control does the same.
 * `knownRaised`: who was up the ladder in that run.
 */
export function stepSimulation(
  sim: Simulation,
  inputs: TimedInput[],
  known: Pulse[] | null = null,
  knownRaised: readonly UprightBody[] = NOBODY_RAISED,
): StepResult {
  const { state, scratch } = sim;
  const tick = state.tick;
  const due = dueInputs(sim, inputs);
  refuseUnknown(sim, due);

  const applied = applyInputs(state, due, sim.scenario.room);
  if (applied.sceneChanged) sim.tables = tablesFor(sim.scenario, state.setup);
  if (applied.sceneChanged || applied.skyChanged) scratch.movement = null;
  moveSky(sim.scenario, state, sim.tables.light, applied.skyChanged || applied.sceneChanged);
  if (!known) movePeople(state);
  if (known || sim.stored) scratch.movement = null;
  const pulses = known ?? (sim.stored ? recall(sim, sim.stored) : sense(sim, applied));
  const lamps = { inner: state.plant.innerLevel, window: state.plant.windowLevel };
  const raised = known ? knownRaised : raisedBodies(state.people, tick);
  const light = lightRoom(sim.tables.light, state.light, tick, lamps, state.setup, raised);
  const control = runControl(state.control, {
    tick,
    supplyEdges: dueSupply(state.wires, tick * TICK_MS),
    contactEdges: dueContacts(state.wires, tick * TICK_MS),
    commands: applied.commands,
    pulses,
    movements: NO_MOVEMENTS,
    readings: light.readings,
  });
  drivePlant(state.plant, control.contacts);

  const events = recordInputs(due, control.events);
  state.tick = tick + 1;
  const bodies = scratch.bodies[SUB_STEPS - 1]!;
  return { tick, events, pulses, raised, light, lamps, signalUv: scratch.signalUv, bodies };
}

const NO_MOVEMENTS: never[] = [];
const NOBODY_RAISED: readonly UprightBody[] = [];

/** Serials of the script are negative: it was written before anybody acted. */
export function dueInputs(sim: Simulation, inputs: TimedInput[]): TimedInput[] {
  const scripted = sim.script.get(sim.state.tick);
  if (!scripted) return inputs;
  const { tick } = sim.state;
  return [...scripted.map((input, i) => ({ tick, serial: i - scripted.length, input })), ...inputs];
}

function movePeople(state: SimState): void {
  const stream = streamFor(state, 'gestures');
  advancePeople(state.people, state.tick, stream);
  stream.save();
}

function anybody(bodies: readonly BodyBuffer[]): boolean {
  for (const { count } of bodies) if (count > 0) return true;
  return false;
}

function sense(sim: Simulation, applied: AppliedInputs): Pulse[] {
  const { state, scratch } = sim;
  radiateBodies(state.people, state.setup.warmThings, state.setup, state.tick, scratch.radiance);
  poseTick(state.people, state.setup.warmThings, state.tick, scratch.bodies);
  // Behind nobody there is nothing: an empty room asks neither for sun nor for glass.
  if (!anybody(scratch.bodies)) scratch.movement = null;
  else scratch.movement ??= movementNow(sim);
  const pulses = senseMovement({
    tables: scratch.movement ?? sim.tables.movement,
    state: state.movement,
    bodies: scratch.bodies,
    radiance: scratch.radiance,
    maskedSectors: state.control.settings.maskedSectors,
    covered: state.tick < (state.setup.coveredUntilTick ?? 0),
    placedOwners: applied.placedOwners,
    sceneChanged: applied.heatChanged,
    signalUv: scratch.signalUv,
    sharesW: scratch.sharesW,
    weightMemo: scratch.weightMemo,
  });
  if (scratch.movement && (state.tick + 1) % SURFACES_EVERY_TICKS === 0) {
    scratch.movement = movementNow(sim, state.tick + 1);
    renewSurfaces(
      scratch.movement,
      state.movement,
      scratch.bodies[SUB_STEPS - 1]!,
      scratch.radiance,
      scratch.weightMemo,
    );
  }
  return pulses;
}

/** Before anything is worked: a tick that can be neither read nor sensed. Whoever runs with stored pulses asks first. */
function refuseUnknown({ stored, state }: Simulation, due: readonly TimedInput[]): void {
  if (stored && !fitsNextTick(stored, state, due)) {
    throw new RangeError(`tick ${state.tick} must be sensed: no stored pulses fit it`);
  }
  if (!stored && state.movementAsOfTick !== undefined) {
    throw new RangeError(`tick ${state.tick} cannot be sensed: the detector's memory is of ${state.movementAsOfTick}`);
  }
}

/** In place of sensing: stored pulses. People still warm and cool, so that their state is whole at every tick. */
function recall(sim: Simulation, stored: PulseReader): Pulse[] {
  const { state, tables, scratch } = sim;
  for (const person of state.people) adaptPerson(person, state.setup);
  if (!Number.isNaN(scratch.signalUv[0])) scratch.signalUv.fill(Number.NaN);
  recallMemory(stored.store, state, state.tick + 1, tables.movement.sceneKey);
  return pulsesOf(stored, state.tick);
}

function recordInputs(due: TimedInput[], events: TraceEvent[]): TraceEvent[] {
  if (due.length === 0) return events;
  return [...due.map(({ tick, input }): TraceEvent => ({ tick, kind: 'input', input })), ...events];
}

/** The host's own deep copy; every host of the engine has it. */
declare function structuredClone<T>(value: T): T;

/**
 * A copy that the running state cannot touch. Setup, plans and what people are made of are replaced when they change,
 * never edited in place, so copies share them: a day keeps 1,440 copies.
 */
export function cloneState(state: SimState): SimState {
  const { setup, people, ...rest } = state;
  const moving = people.map(({ spec: _spec, plan: _plan, ...person }) => person);
  const copy = structuredClone({ ...rest, moving });
  const { moving: copied, ...others } = copy;
  return {
    ...others,
    setup: { ...setup },
    people: copied.map((person, i) => ({ ...person, spec: people[i]!.spec, plan: people[i]!.plan })),
  };
}

/** Puts a state back (its own copy is taken); tables come from memory unless the scene is unknown. */
export function restoreState(sim: Simulation, state: SimState): void {
  sim.state = cloneState(state);
  sim.scratch.movement = null;
  sim.tables = tablesFor(sim.scenario, sim.state.setup);
}

export function digestOf(state: SimState): string {
  return fnv64(canonicalJson(state));
}
