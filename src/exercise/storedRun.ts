/**
 * Whole days again and again: a run is sensed once, its pulses are stored, and every other run of the room (other
 * settings, other light, a rival fault) reads them for as long as nothing touches sensing otherwise; from there on it
 * senses by itself. What comes out is the same as if all of it had been sensed.
 */
import {
  createPulseStore,
  cutPulses,
  fitsNextTick,
  MEMORY_EVERY_TICKS,
  notePulses,
  noteTouches,
  type PulseStore,
  readPulses,
} from '../engine/pulseStore.ts';
import { sensingKey } from '../engine/sensingKey.ts';
import {
  cloneState,
  createSimulation,
  dueInputs,
  ENGINE_VERSION,
  restoreState,
  type Simulation,
  type StepResult,
  stepSimulation,
} from '../engine/simulation.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { ControllerSettings, Scenario, SimState, Tick, TimedInput } from '../engine/types.ts';
import { secondsToTicks } from '../engine/units.ts';

export interface StoredRun {
  readonly sim: Simulation;
  /** The pulses of this run as far as they are known: those given and, once it senses by itself, its own. */
  store: PulseStore;
  /** The whole state at the last full minute, and what others put in since: from there sensing can go on. */
  minute: SimState;
  since: TimedInput[];
  /** The first tick that was sensed and not read; null: none so far. */
  sensedFromTick: Tick | null;
}

/** A run at tick 0. `given`: pulses of another run, used as far as they fit (not changed); null: all is sensed. */
export function startStoredRun(scenario: Scenario, given: PulseStore | null, seed = scenario.seed): StoredRun {
  const sim = createSimulation(scenario, seed);
  const fits = given !== null && given.engine === ENGINE_VERSION && given.key === sensingKey(scenario, seed);
  if (fits) sim.stored = readPulses(given);
  const store = fits ? given : createPulseStore(scenario, seed, ENGINE_VERSION);
  return { sim, store, minute: cloneState(sim.state), since: [], sensedFromTick: fits ? null : 0 };
}

/** Works one tick, by stored pulses where they fit and by sensing from the first tick where they do not. */
export function stepStoredRun(run: StoredRun, inputs: TimedInput[]): StepResult {
  const { sim } = run;
  if (sim.stored) {
    if (sim.state.tick % MEMORY_EVERY_TICKS === 0) keepMinute(run);
    if (fitsNextTick(sim.stored, sim.state, dueInputs(sim, inputs))) {
      run.since.push(...inputs);
      return stepSimulation(sim, inputs);
    }
    senseFromHere(run);
  }
  noteTouches(run.store, sim.state, dueInputs(sim, inputs));
  const step = stepSimulation(sim, inputs);
  notePulses(run.store, sim.state, step.pulses);
  return step;
}

function keepMinute(run: StoredRun): void {
  run.minute = cloneState(run.sim.state);
  run.since = [];
}

/** Sensing needs the detector's memory: the room goes back to the full minute and senses up to where it was. */
function senseFromHere(run: StoredRun): void {
  const { sim, since } = run;
  const { tick } = sim.state;
  sim.stored = null;
  restoreState(sim, run.minute);
  while (sim.state.tick < tick) {
    const now = sim.state.tick;
    stepSimulation(
      sim,
      since.filter((timed) => timed.tick === now),
    );
  }
  run.store = cutPulses(run.store, tick);
  run.sensedFromTick = tick;
}

export interface RunResult {
  events: TraceEvent[];
  /** The room after the last tick. */
  state: SimState;
  store: PulseStore;
  sensedFromTick: Tick | null;
}

/**
 * Runs `forS` seconds from the start. `inputs` in order of (tick, serial). `each` is called after every tick with what
 * it brought and the room as it stands (scratch: copy what must outlive the call).
 */
export function runStored(
  scenario: Scenario,
  given: PulseStore | null,
  forS: number,
  inputs: readonly TimedInput[] = [],
  each?: (step: StepResult, sim: Simulation) => void,
  seed = scenario.seed,
): RunResult {
  const run = startStoredRun(scenario, given, seed);
  const events: TraceEvent[] = [];
  const ticks = secondsToTicks(forS);
  let next = 0;
  while (run.sim.state.tick < ticks) {
    const from = next;
    while (next < inputs.length && inputs[next]!.tick <= run.sim.state.tick) next++;
    const step = stepStoredRun(run, inputs.slice(from, next));
    for (const event of step.events) events.push(event);
    each?.(step, run.sim);
  }
  return { events, state: run.sim.state, store: run.store, sensedFromTick: run.sensedFromTick };
}

/** The same day under other settings, from the start; see `runStored`. */
export function runWithSettings(
  store: PulseStore,
  scenario: Scenario,
  change: Partial<ControllerSettings>,
  forS: number,
  inputs: readonly TimedInput[] = [],
  each?: (step: StepResult, sim: Simulation) => void,
): RunResult {
  return runStored(withSettings(scenario, change), store, forS, inputs, each);
}

export function withSettings(scenario: Scenario, change: Partial<ControllerSettings>): Scenario {
  return { ...scenario, settings: { ...scenario.settings, ...change } };
}
