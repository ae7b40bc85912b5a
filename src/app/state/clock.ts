import type { Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { type ClockStart, clockToSeconds } from '../../report/text/format.ts';

/** Tick of a clock time at or after the story's start (a smaller clock means the next day); null: no clock time. */
export function tickOfClockIn(text: string, start: ClockStart): Tick | null {
  const s = clockToSeconds(text) - clockToSeconds(start.localTime);
  if (Number.isNaN(s)) return null;
  return Math.round((s < 0 ? s + 86_400 : s) * TICKS_PER_S);
}
