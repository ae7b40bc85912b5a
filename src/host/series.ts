/** The Recorder's series of one line of a run: grows at the end, is cut at the end, is handed out in chunks. */
import type { Tick } from '../engine/types.ts';
import { TICKS_PER_S } from '../engine/units.ts';
import type { SeriesChunk } from './messages.ts';

interface Row {
  values: Float32Array;
  length: number;
}

const SAMPLED = ['innerEstimateLx', 'windowEstimateLx', 'innerReadingLx', 'windowReadingLx'] as const;
export type Sample = Record<(typeof SAMPLED)[number], number>;

export interface Series {
  /** [min, max] per tick, µV. */
  signalUv: Row;
  /** One value per second, lx. */
  samples: Record<(typeof SAMPLED)[number], Row>;
}

/** First room in an array, values. Assumed: ten minutes of signal; arrays double when full. */
const FIRST_ROOM = 12_000;

function emptyRow(): Row {
  return { values: new Float32Array(FIRST_ROOM), length: 0 };
}

export function createSeries(): Series {
  return {
    signalUv: emptyRow(),
    samples: {
      innerEstimateLx: emptyRow(),
      windowEstimateLx: emptyRow(),
      innerReadingLx: emptyRow(),
      windowReadingLx: emptyRow(),
    },
  };
}

function push(row: Row, value: number): void {
  if (row.length === row.values.length) {
    const bigger = new Float32Array(row.values.length * 2);
    bigger.set(row.values);
    row.values = bigger;
  }
  row.values[row.length++] = value;
}

/** Adds one tick. `signalUv` are all channels' sub-steps of it. */
export function addSignal(series: Series, signalUv: Float32Array): void {
  let min = 0;
  let max = 0;
  for (let i = 0; i < signalUv.length; i++) {
    const value = signalUv[i]!;
    if (i === 0 || value < min) min = value;
    if (i === 0 || value > max) max = value;
  }
  push(series.signalUv, min);
  push(series.signalUv, max);
}

/** Due at the ticks of whole seconds. */
export function addSample(series: Series, sample: Sample): void {
  for (const key of SAMPLED) push(series.samples[key], sample[key]);
}

/** Whole seconds that begin before the tick: samples held when ticks 0 … tick - 1 are in. */
function samplesBefore(tick: Tick): number {
  return Math.ceil(tick / TICKS_PER_S);
}

/** Forgets `fromTick` and everything after it. */
export function cutSeries(series: Series, fromTick: Tick): void {
  series.signalUv.length = Math.min(series.signalUv.length, fromTick * 2);
  for (const key of SAMPLED) {
    const row = series.samples[key];
    row.length = Math.min(row.length, samplesBefore(fromTick));
  }
}

export function copySeries(series: Series): Series {
  const copy = (row: Row): Row => ({ values: row.values.slice(), length: row.length });
  const { samples } = series;
  return {
    signalUv: copy(series.signalUv),
    samples: {
      innerEstimateLx: copy(samples.innerEstimateLx),
      windowEstimateLx: copy(samples.windowEstimateLx),
      innerReadingLx: copy(samples.innerReadingLx),
      windowReadingLx: copy(samples.windowReadingLx),
    },
  };
}

/** Ticks `fromTick` up to, not including, `toTick`; samples of the whole seconds in between. Fresh arrays. */
export function chunkOf(series: Series, fromTick: Tick, toTick: Tick): SeriesChunk {
  const sampled = (row: Row) => row.values.slice(samplesBefore(fromTick), Math.min(row.length, samplesBefore(toTick)));
  const { samples } = series;
  return {
    fromTick,
    signalUv: series.signalUv.values.slice(fromTick * 2, Math.min(series.signalUv.length, toTick * 2)),
    innerEstimateLx: sampled(samples.innerEstimateLx),
    windowEstimateLx: sampled(samples.windowEstimateLx),
    innerReadingLx: sampled(samples.innerReadingLx),
    windowReadingLx: sampled(samples.windowReadingLx),
  };
}
