/** Ratios of desk light to ceiling reading: worked out anew from the readings that were really taken. */
import { createSimulation, stepSimulation } from '../../engine/simulation.ts';
import type { RowId, Scenario, Tick, TimedInput } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { frameOf } from '../../engine/view.ts';
import type { MarkLine } from '../types.ts';
import type { DeskReading, ObserveAnswers, RatioLine, RatioSignature } from './types.ts';

/** Full points within this share of the true ratio. Source: the product's own marking rule. */
export const RATIO_WITHIN = 0.1;
/** Half the points within so many times that. Source: the product's own marking rule. */
const HALF_WITHIN = 2;
/** A ratio this near to what a belief would give counts as that belief. Assumed: a rounded figure. */
const BELIEF_WITHIN = 0.05;

const ROWS: readonly RowId[] = ['inner', 'window'];

/** What the meter on a desk and the detector over it read. */
export type Meter = (tick: Tick, desk: string) => { deskLx: number; ceilingLx: number } | null;

/** Every reading of a room up to a tick, exclusive, lx. */
export function metersOf(scenario: Scenario, inputs: readonly TimedInput[], endTick: Tick): Meter {
  const sim = createSimulation(scenario);
  const points = scenario.room.deskPoints;
  const desksLx: Float64Array[] = [];
  const ceilingsLx: Record<RowId, number>[] = [];
  let next = 0;
  for (let tick = 0; tick < endTick; tick++) {
    const from = next;
    while (next < inputs.length && inputs[next]!.tick <= tick) next++;
    const { deskLx, light } = frameOf(sim, stepSimulation(sim, inputs.slice(from, next)));
    desksLx.push(Float64Array.from(deskLx));
    ceilingsLx.push({ inner: light.inner.ceilingReadingLx, window: light.window.ceilingReadingLx });
  }
  return (tick, desk) => {
    const place = points.findIndex(({ id }) => id === desk);
    const deskLx = desksLx[tick]?.[place];
    return deskLx === undefined ? null : { deskLx, ceilingLx: ceilingsLx[tick]![points[place]!.row] };
  };
}

interface RowTruth {
  row: RowId;
  /** Desk points of the row, and those among them that were read. */
  of: number;
  read: number;
  /** Means over the desks read, lx. */
  deskLx: number;
  ceilingLx: number;
  atS: number;
}

function truthOf(row: RowId, scenario: Scenario, readings: readonly DeskReading[], meter: Meter): RowTruth {
  const desks = scenario.room.deskPoints.filter((point) => point.row === row);
  const taken = desks.flatMap(({ id }) => {
    const last = readings.filter(({ desk }) => desk === id).at(-1);
    const again = last ? meter(last.tick, id) : null;
    return last && again ? [{ ...again, tick: last.tick }] : [];
  });
  const mean = (values: number[]): number => values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);
  return {
    row,
    of: desks.length,
    read: taken.length,
    deskLx: mean(taken.map(({ deskLx }) => deskLx)),
    ceilingLx: mean(taken.map(({ ceilingLx }) => ceilingLx)),
    atS: Math.max(0, ...taken.map(({ tick }) => tick)) / TICKS_PER_S,
  };
}

const near = (said: number, truth: number, share: number): boolean => Math.abs(said - truth) <= share * truth;

function lineOf(truth: RowTruth, said: number | undefined): MarkLine {
  const { row, of, read, deskLx, ceilingLx, atS } = truth;
  const worth = 100 / ROWS.length;
  const line = (share: number, say: RatioLine): MarkLine => ({
    points: worth * share,
    of: worth,
    atS: read > 0 ? atS : null,
    say,
  });
  if (read < of) return line(0, { code: 'desksNotRead', row, read, of });
  const ratio = deskLx / ceilingLx;
  if (said === undefined) return line(0, { code: 'ratioMissing', row, ratio });
  const share = near(said, ratio, RATIO_WITHIN) ? 1 : near(said, ratio, RATIO_WITHIN * HALF_WITHIN) ? 0.5 : 0;
  return line(share, { code: 'ratioSaid', row, said, ratio, deskLx, ceilingLx });
}

export interface JudgedRatios {
  lines: MarkLine[];
  signatures: RatioSignature[];
}

export function judgeRatios(scenario: Scenario, answers: ObserveAnswers, meter: Meter): JudgedRatios {
  const { readings = [], ratios = {} } = answers;
  const truths = ROWS.map((row) => truthOf(row, scenario, readings, meter));
  const lines = truths.map((truth) => lineOf(truth, ratios[truth.row]));
  const signatures = truths.flatMap((truth, i): RatioSignature[] => {
    const { row, deskLx, ceilingLx, atS, read, of } = truth;
    const said = ratios[row];
    if (said === undefined || read < of || lines[i]!.points === lines[i]!.of) return [];
    if (near(said, ceilingLx / deskLx, BELIEF_WITHIN)) return [{ id: 'ratioUpsideDown', row, atS }];
    const other = truths[1 - i]!;
    const borrowed = other.read === other.of && near(said, other.deskLx / other.ceilingLx, BELIEF_WITHIN);
    return borrowed ? [{ id: 'oneRatioForAll', row, atS }] : [];
  });
  return { lines, signatures };
}

/** Each desk of the room read at an instant. */
export function allDesksRead(scenario: Scenario, tick: Tick, meter: Meter): DeskReading[] {
  return scenario.room.deskPoints.flatMap(({ id }) => {
    const reading = meter(tick, id);
    return reading ? [{ tick, desk: id, ...reading }] : [];
  });
}

/** What readings say, worked out without a slip. */
export function solutionRatios(scenario: Scenario, readings: readonly DeskReading[], meter: Meter) {
  const ratio = (row: RowId): number => {
    const { deskLx, ceilingLx } = truthOf(row, scenario, readings, meter);
    return deskLx / ceilingLx;
  };
  return { inner: ratio('inner'), window: ratio('window') };
}
