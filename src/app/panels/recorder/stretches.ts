/** The Seen row in figures: counted pulses put together into stretches of movement. */
import type { TraceEvent } from '../../../engine/trace.ts';
import type { Tick } from '../../../engine/types.ts';

/** What restarts a delay: counted pulses, and movement that an extension detector reports. */
export function isCounted(event: TraceEvent): boolean {
  return (event.kind === 'pulse' && event.counted) || (event.kind === 'seen' && event.by !== 'pulse');
}

export interface SeenStretch {
  fromTick: Tick;
  untilTick: Tick;
  pulses: number;
}

/** Without a pulse for longer than this a stretch ends, ticks. Assumed: a walker pauses for less; a reader for more. */
const GAP_TICKS = 50;

/** The last `most` stretches, oldest first. An act ends a stretch as well, so that what comes after it stands alone. */
export function seenStretches(events: readonly TraceEvent[], most: number): SeenStretch[] {
  const stretches: SeenStretch[] = [];
  let open: SeenStretch | null = null;
  for (let i = events.length - 1; i >= 0; i--) {
    const event = events[i]!;
    if (event.kind === 'input') open = null;
    if (!isCounted(event)) continue;
    if (open && open.fromTick - event.tick <= GAP_TICKS) {
      open.fromTick = event.tick;
      open.pulses++;
      continue;
    }
    if (stretches.length === most) break;
    open = { fromTick: event.tick, untilTick: event.tick, pulses: 1 };
    stretches.push(open);
  }
  return stretches.reverse();
}
