/** What the run has been so far: events and the Recorder's series. Grows in place; `recordVersion` in the store tells views. */

import type { TraceEvent } from '../../engine/trace.ts';
import type { Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { SeriesChunk } from '../../host/messages.ts';

/** A typed array that doubles when full. */
export interface Grow {
  values: Float32Array;
  length: number;
}

export interface RunRecord {
  /** In order of tick. */
  events: TraceEvent[];
  /** [min, max] per tick, µV. */
  signalUv: Grow;
  /** One sample per second, lx. */
  innerEstimateLx: Grow;
  windowEstimateLx: Grow;
}

function emptyGrow(): Grow {
  return { values: new Float32Array(4096), length: 0 };
}

export const record: RunRecord = {
  events: [],
  signalUv: emptyGrow(),
  innerEstimateLx: emptyGrow(),
  windowEstimateLx: emptyGrow(),
};

export function clearRecord(): void {
  record.events = [];
  record.signalUv.length = 0;
  record.innerEstimateLx.length = 0;
  record.windowEstimateLx.length = 0;
}

/** Writes `add` at index `at`; a gap is filled with NaN, which drawings leave open. */
function put(grow: Grow, at: number, add: Float32Array): void {
  const need = Math.max(grow.length, at + add.length);
  if (need > grow.values.length) {
    const bigger = new Float32Array(Math.max(need, grow.values.length * 2));
    bigger.set(grow.values.subarray(0, grow.length));
    grow.values = bigger;
  }
  if (at > grow.length) grow.values.fill(Number.NaN, grow.length, at);
  grow.values.set(add, at);
  grow.length = need;
}

export function addSeries(chunk: SeriesChunk): void {
  put(record.signalUv, chunk.fromTick * 2, chunk.signalUv);
  const fromS = Math.ceil(chunk.fromTick / TICKS_PER_S);
  put(record.innerEstimateLx, fromS, chunk.innerEstimateLx);
  put(record.windowEstimateLx, fromS, chunk.windowEstimateLx);
}

/** Adds events; anything the record already holds of the same or later ticks is kept once (a replay sends them again). */
export function addEvents(events: TraceEvent[]): void {
  const first = events[0];
  if (!first) return;
  const last = record.events.at(-1);
  if (!last || last.tick < first.tick) {
    record.events.push(...events);
    return;
  }
  const endTick = events[events.length - 1]!.tick;
  const before = record.events.slice(0, firstIndexAtOrAfter(first.tick));
  const after = record.events.slice(firstIndexAtOrAfter(endTick + 1));
  record.events = [...before, ...events, ...after];
}

/** Forgets everything after `tick`. */
export function cutRecord(tick: Tick): void {
  record.events = record.events.slice(0, firstIndexAtOrAfter(tick + 1));
  record.signalUv.length = Math.min(record.signalUv.length, (tick + 1) * 2);
  const samples = Math.floor(tick / TICKS_PER_S) + 1;
  record.innerEstimateLx.length = Math.min(record.innerEstimateLx.length, samples);
  record.windowEstimateLx.length = Math.min(record.windowEstimateLx.length, samples);
}

/** Index of the first event with `event.tick >= tick`. */
export function firstIndexAtOrAfter(tick: Tick, events: readonly TraceEvent[] = record.events): number {
  let low = 0;
  let high = events.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (events[middle]!.tick < tick) low = middle + 1;
    else high = middle;
  }
  return low;
}
