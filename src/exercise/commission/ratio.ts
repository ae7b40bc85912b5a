/** What a meter on the desk and the reading at the ceiling say of the same light, in a room as it begins. */
import { localToUtcMs } from '../../engine/calendar.ts';
import { sampleSky } from '../../engine/light/light.ts';
import { createSimulation, type Simulation, stepSimulation } from '../../engine/simulation.ts';
import { clockToSeconds } from '../../engine/skyClock.ts';
import type { ControllerSettings, RowId, Scenario } from '../../engine/types.ts';
import type { LeftRoom, Measured } from './types.ts';

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

/** The bench as it is found, before anybody does anything. */
export function foundRoom(scenario: Scenario): LeftRoom {
  const { state } = begun(scenario);
  return { settings: state.control.settings, setup: state.setup };
}
