/**
 * Light alone over one day of the sun: sky, blinds, furniture and settings as they are now, a sample every ten minutes.
 * Reads a simulation, never writes it. Nobody walks and nothing waits here: delays and dwells are left out.
 */
import { localToUtcMs } from './calendar.ts';
import { rowLight } from './control/control.ts';
import { sampleSky } from './light/light.ts';
import type { Simulation } from './simulation.ts';
import type { RowId } from './types.ts';

/** Step between samples, s. Assumed: ten minutes; passing clouds move faster and show as single dips. */
export const DAY_SAMPLE_S = 600;
/** Samples of a day, midnight to midnight with both ends. Source: 24 h of ten minutes. */
export const DAY_SAMPLES = 145;

/** Lamps of the day's course: all off; as they are lit now; or as the setpoints would switch them with people there. */
export type DayLamps = 'off' | 'asNow' | 'bySetpoint';
export const DAY_LAMPS: readonly DayLamps[] = ['off', 'asNow', 'bySetpoint'];

export interface RowCourse {
  ceilingReadingLx: number[];
  daylightEstimateLx: number[];
  /** Light output of the row's lamps, 0-1. */
  level: number[];
  /** Its desk point with the least daylight over the day; null: the row has no desk point. */
  poorest: { label: string; lx: number[] } | null;
}

export interface DayLight {
  localDate: string;
  everyS: number;
  sunUp: boolean[];
  limits: Record<RowId, { setpointLx: number | null; releaseLx: number | null }>;
  courses: Record<DayLamps, Record<RowId, RowCourse>>;
}

export interface DaySample {
  altitudeDeg: number;
  /** Inner and window photometer, then desk points, lamps off, doors as they are, lx. */
  sensorsLx: number[];
}

/** Daylight of sample `i` of the day the sun is on. */
export function daySample(sim: Simulation, i: number): DaySample {
  const { scenario, state, tables } = sim;
  const { setup, seed } = state;
  const utcMs = localToUtcMs(setup.sunLocalDate, i * DAY_SAMPLE_S, scenario.start.utcOffsetH);
  const sky = sampleSky(tables.light, { tick: 0, utcMs, sky: setup.sky, seed });
  const sensorsLx = [...sky.daylightLx];
  for (const door of tables.light.doors) {
    if (!setup.doors.some((d) => d.doorId === door.doorId && d.open)) continue;
    for (let s = 0; s < sensorsLx.length; s++) sensorsLx[s]! += door.lx[s]!;
  }
  return { altitudeDeg: sky.altitudeDeg, sensorsLx };
}

/** Number of the row's desk point with the least daylight over the day; -1: none. */
function poorestDesk(sim: Simulation, row: RowId, samples: readonly DaySample[]): number {
  let best = -1;
  let bestSum = Number.POSITIVE_INFINITY;
  sim.scenario.room.deskPoints.forEach((desk, d) => {
    if (desk.row !== row) return;
    const sum = samples.reduce((total, sample) => total + sample.sensorsLx[2 + d]!, 0);
    if (sum >= bestSum) return;
    bestSum = sum;
    best = d;
  });
  return best;
}

type Levels = Record<RowId, number>;

function emptyCourse(sim: Simulation, row: RowId, samples: readonly DaySample[]): RowCourse & { desk: number } {
  const desk = poorestDesk(sim, row, samples);
  const label = sim.scenario.room.deskPoints[desk]?.label;
  return {
    ceilingReadingLx: [],
    daylightEstimateLx: [],
    level: [],
    poorest: label === undefined ? null : { label, lx: [] },
    desk,
  };
}

/** The next levels by setpoint and release; between the two the row stays as it is. Brightness ignored: lit. */
function switched(limits: DayLight['limits'], estimate: Levels, before: Levels): Levels {
  const one = (row: RowId): number => {
    const { setpointLx, releaseLx } = limits[row];
    if (setpointLx === null || releaseLx === null || estimate[row] < setpointLx) return 1;
    return estimate[row] >= releaseLx ? 0 : before[row];
  };
  return { inner: one('inner'), window: one('window') };
}

function courseOf(sim: Simulation, samples: readonly DaySample[], lamps: DayLamps, limits: DayLight['limits']) {
  const { state, tables } = sim;
  const { settings } = state.control;
  const { rowLx } = tables.light;
  const rows = { inner: emptyCourse(sim, 'inner', samples), window: emptyCourse(sim, 'window', samples) };
  const lx = (sample: DaySample, sensor: number, levels: Levels) =>
    sample.sensorsLx[sensor]! + levels.inner * rowLx.inner[sensor]! + levels.window * rowLx.window[sensor]!;
  const estimates = (sample: DaySample, levels: Levels): Levels => {
    // A share that has been learned is exactly the lamps' light here; without one they count as daylight.
    const counted = settings.lampShare === 'learned' ? { inner: 0, window: 0 } : levels;
    return {
      inner: lx(sample, 0, counted) * settings.innerDeskFactor,
      window: lx(sample, 1, counted) * settings.windowDeskFactor,
    };
  };
  let levels: Levels =
    lamps === 'asNow' ? { inner: state.plant.innerLevel, window: state.plant.windowLevel } : { inner: 0, window: 0 };
  for (const sample of samples) {
    if (lamps === 'bySetpoint') levels = switched(limits, estimates(sample, levels), levels);
    const estimate = estimates(sample, levels);
    for (const row of ['inner', 'window'] as const) {
      const course = rows[row];
      course.ceilingReadingLx.push(lx(sample, row === 'inner' ? 0 : 1, levels));
      course.daylightEstimateLx.push(estimate[row]);
      course.level.push(levels[row]);
      course.poorest?.lx.push(lx(sample, 2 + course.desk, levels));
    }
  }
  const { desk: _inner, ...inner } = rows.inner;
  const { desk: _window, ...window } = rows.window;
  return { inner, window };
}

/** All samples of the day put together. */
export function dayLightOf(sim: Simulation, samples: readonly DaySample[]): DayLight {
  const { control, setup } = sim.state;
  const limit = (row: RowId) => {
    const { setpointLx, releaseLx } = rowLight(control, row);
    return { setpointLx, releaseLx };
  };
  const limits = { inner: limit('inner'), window: limit('window') };
  return {
    localDate: setup.sunLocalDate,
    everyS: DAY_SAMPLE_S,
    sunUp: samples.map(({ altitudeDeg }) => altitudeDeg > 0),
    limits,
    courses: {
      off: courseOf(sim, samples, 'off', limits),
      asNow: courseOf(sim, samples, 'asNow', limits),
      bySetpoint: courseOf(sim, samples, 'bySetpoint', limits),
    },
  };
}
