/**
 * How many ticks are due for a speed. Ticks are never enlarged and never dropped: when the machine is too slow, time in
 * the room runs slower and the true speed says so. Knows no clock of its own: wall time in ms is handed in.
 */
import { TICKS_PER_S } from '../engine/units.ts';

/** Longest time spent on ticks before messages are looked at again, ms. Assumed: longer makes Pause feel late. */
export const SLICE_MS = 10;
/** Least time between posted frames, ms. Assumed: 30 a second; the page blends between two. */
export const FRAME_EVERY_MS = 33;
/** Ticks owed for a pause longer than this are forgiven, ms. Assumed: after a stall the room goes on, it does not race. */
const MOST_OWED_MS = 250;
/** The true speed is measured over this long, ms. Source: the status promises the last second. */
const MEASURED_MS = 1000;

export const SLOWEST = 0.1;
export const FASTEST = 600;

export interface Pace {
  speed: number;
  lastMs: number;
  /** Ticks due and not yet worked; the fraction waits for its turn. */
  owed: number;
  /** Worked ticks with the time at which they were done, oldest first. */
  done: { atMs: number; ticks: number }[];
}

export function startPace(speed: number, nowMs: number): Pace {
  const limited = Math.min(FASTEST, Math.max(SLOWEST, speed));
  // The first tick is due at once, so that Run is answered without waiting a tick's length.
  return { speed: limited, lastMs: nowMs, owed: 1, done: [] };
}

/** Whole ticks due now. */
export function ticksDue(pace: Pace, nowMs: number): number {
  const ticksPerMs = (pace.speed * TICKS_PER_S) / 1000;
  const most = Math.max(1, MOST_OWED_MS * ticksPerMs);
  pace.owed = Math.min(most, pace.owed + Math.max(0, nowMs - pace.lastMs) * ticksPerMs);
  pace.lastMs = nowMs;
  return Math.floor(pace.owed + 1e-9);
}

/** Notes worked ticks. */
export function ticksDone(pace: Pace, ticks: number, nowMs: number): void {
  if (ticks === 0) return;
  pace.owed -= ticks;
  pace.done.push({ atMs: nowMs, ticks });
  while (pace.done.length > 2 && nowMs - pace.done[1]!.atMs > MEASURED_MS) pace.done.shift();
}

/** Room time over wall time, measured between the first and the last slice noted; as asked until there is enough. */
export function trueSpeed(pace: Pace): number {
  const [first, ...later] = pace.done;
  const spanMs = (later.at(-1)?.atMs ?? 0) - (first?.atMs ?? 0);
  if (later.length === 0 || spanMs < MEASURED_MS / 4) return pace.speed;
  // The first slice's ticks were worked before the span began.
  const ticks = later.reduce((sum, slice) => sum + slice.ticks, 0);
  return ((ticks / TICKS_PER_S) * 1000) / spanMs;
}

/** How long to wait until a tick is due, ms; 0 when one is. */
export function waitMs(pace: Pace): number {
  if (pace.owed >= 1) return 0;
  return ((1 - pace.owed) * 1000) / (pace.speed * TICKS_PER_S);
}

/**
 * Works due ticks until none is due or the slice is over. `work` works one tick and says whether to go on.
 * Returns how many were worked.
 */
export function runSlice(pace: Pace, clock: () => number, work: () => boolean): number {
  const startMs = clock();
  const due = ticksDue(pace, startMs);
  let worked = 0;
  while (worked < due) {
    worked++;
    if (!work()) break;
    if (clock() - startMs >= SLICE_MS) break;
  }
  ticksDone(pace, worked, clock());
  return worked;
}
