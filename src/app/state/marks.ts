/** Marks of the Sight Map: places where counted pulses arose, taken from the record of the run. */
import type { TraceEvent } from '../../engine/trace.ts';
import type { Tick } from '../../engine/types.ts';
import type { PulseMark } from '../../host/messages.ts';
import { firstIndexAtOrAfter } from './record.ts';

/** Marks kept for the picture. Assumed: more than a picture shows before they fade, at any speed. */
export const MARKS_KEPT = 400;
/** How far back marks are looked for, ticks. Assumed: older ones have faded in every view. */
const LOOK_BACK_TICKS = 6000;

/** Marks that these events left, in their order. */
export function marksOf(events: readonly TraceEvent[]): PulseMark[] {
  return events.flatMap((event) =>
    event.kind === 'pulse' && event.counted && event.pulse.atM ? [{ tick: event.tick, atM: event.pulse.atM }] : [],
  );
}

/** The latest marks up to and including an instant. */
export function marksUpTo(tick: Tick, events: readonly TraceEvent[]): PulseMark[] {
  const from = firstIndexAtOrAfter(tick - LOOK_BACK_TICKS, events);
  return marksOf(events.slice(from, firstIndexAtOrAfter(tick + 1, events))).slice(-MARKS_KEPT);
}
