/** What is new, as one short spoken message. */
import type { TraceEvent } from '../../engine/trace.ts';
import { en } from '../../report/text/en.ts';
import { eventSentence } from '../../report/text/events.ts';

/** Sentences in one message; the rest is counted. Assumed: more would still be spoken when the next one comes. */
const MOST = 3;

/** Switchings, phases, flags and what was done; dragging the sun is left out. */
function isSpoken(event: TraceEvent): boolean {
  if (event.kind === 'input') return event.input.kind !== 'moveSun';
  return ['output', 'phase', 'flag', 'note', 'adaptiveDelay'].includes(event.kind);
}

/** One message out of what is new. `withReasons`: each switching is told with its reason. */
export function merged(events: readonly TraceEvent[], withReasons = true): string {
  const spoken = events.filter(isSpoken);
  const told = spoken
    .slice(-MOST)
    .map((event) => eventSentence(event, withReasons))
    .join(' ');
  const rest = spoken.length - MOST;
  return rest > 0 ? `${en.narration.more(rest)} ${told}` : told;
}
