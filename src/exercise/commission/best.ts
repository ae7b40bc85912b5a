/** The stored best set-up of a bench: what the exercise states, with what must be measured in the room worked out. */
import { localToUtcMs } from '../../engine/calendar.ts';
import { sampleSky } from '../../engine/light/light.ts';
import { createSimulation, type Simulation, stepSimulation } from '../../engine/simulation.ts';
import { clockToSeconds } from '../../engine/skyClock.ts';
import type { ControllerSettings, RowId, Scenario } from '../../engine/types.ts';
import { benchScenario } from '../edits.ts';
import { designedRoom } from './design.ts';
import { provedDays } from './proving.ts';
import { longestStillS, type Timeline } from './timeline.ts';
import type { CommissionExercise, LeftRoom, Measured } from './types.ts';

export interface Best {
  left: LeftRoom;
  /** Its proving runs, worked when asked for. */
  days: () => Timeline[];
  /** Off-delay that is the shortest to work; null: the exercise does not ask. */
  shortestS: number | null;
}

/** Where the sensors of a room begin: inner and window photometer, then the desk points. */
const FIRST_DESK = 2;
const SENSOR: Record<RowId, number> = { inner: 0, window: 1 };

/** After its first tick, in which the script has painted and furnished it as the bench has it. */
function begun(scenario: Scenario): Simulation {
  const sim = createSimulation(scenario);
  stepSimulation(sim, []);
  return sim;
}

export interface RowRatio {
  /** Light on the row's poorest desk over the ceiling reading. */
  factor: number;
  deskLx: number;
  readingLx: number;
}

/** What somebody reads who lays a meter on the poorest desk of a row, at a moment, in the room as it begins. */
export function ratioAt(scenario: Scenario, row: RowId, moment: Measured): RowRatio {
  const { tables, state } = begun(scenario);
  const { light } = tables;
  const utcMs = localToUtcMs(moment.localDate, clockToSeconds(moment.localTime), scenario.start.utcOffsetH);
  const { daylightLx } = sampleSky(light, { tick: 0, utcMs, sky: moment.sky, seed: state.seed }, state.setup);
  const lampsLx = (sensor: number) => (moment.lamps ? light.rowLx.inner[sensor]! + light.rowLx.window[sensor]! : 0);
  const lx = (sensor: number) => daylightLx[sensor]! + lampsLx(sensor);
  const desks = scenario.room.deskPoints.flatMap((desk, d) => (desk.row === row ? [lx(FIRST_DESK + d)] : []));
  const deskLx = Math.min(...desks);
  const readingLx = lx(SENSOR[row]);
  return { factor: deskLx / readingLx, deskLx, readingLx };
}

/** Desk factors as measured at a moment, to the hundredth that the setter keeps. */
export function factorsAt(scenario: Scenario, moment: Measured): Partial<ControllerSettings> {
  const hundredth = (row: RowId) => Math.round(ratioAt(scenario, row, moment).factor * 100) / 100;
  return { innerDeskFactor: hundredth('inner'), windowDeskFactor: hundredth('window') };
}

/** The longest off-delay of the device, s. Source: the controller's own range. */
const LONGEST_DELAY_S = 1800;

function withDelay(left: LeftRoom, delayS: number): LeftRoom {
  return { ...left, settings: { ...left.settings, innerOffDelayS: delayS, windowOffDelayS: delayS } };
}

/** The bench as it is found, before anybody does anything. */
export function foundRoom(scenario: Scenario): LeftRoom {
  const { state } = begun(scenario);
  return { settings: state.control.settings, setup: state.setup };
}

function longestStill(days: readonly Timeline[]): number {
  return days.reduce((most, day) => Math.max(most, longestStillS(day)), 0);
}

const known = new WeakMap<CommissionExercise, Map<number, Best>>();

export function bestOf(exercise: CommissionExercise, seed: number): Best {
  const bySeed = known.get(exercise) ?? new Map<number, Best>();
  known.set(exercise, bySeed);
  const kept = bySeed.get(seed);
  if (kept) return kept;
  const found = workedOut(exercise, seed);
  const best: Best = { ...found, days: () => provedDays(exercise, seed, found.left) };
  bySeed.set(seed, best);
  return best;
}

function workedOut(exercise: CommissionExercise, seed: number): Omit<Best, 'days'> {
  const scenario = benchScenario(exercise, seed);
  const { settings, factors, shortestOf, design } = exercise.commission.best;
  if (design) return { left: designedRoom(exercise, seed, design), shortestS: null };
  const found = foundRoom(scenario);
  const measured = factors ? factorsAt(scenario, factors) : {};
  const left = { ...found, settings: { ...found.settings, ...measured, ...settings } };
  if (!shortestOf) return { left, shortestS: null };
  const stillS = longestStill(provedDays(exercise, seed, withDelay(left, LONGEST_DELAY_S)));
  const shortestS = shortestOf.find((s) => s > stillS) ?? LONGEST_DELAY_S;
  return { left: withDelay(left, shortestS), shortestS };
}
