/** Spoken results: one polite message at most every three seconds, several events merged into it. */
import { useEffect, useRef, useState } from 'react';
import type { TraceEvent } from '../../engine/trace.ts';
import { en } from '../../report/text/en.ts';
import { eventSentence } from '../../report/text/events.ts';
import { firstIndexAtOrAfter, record } from '../state/record.ts';
import { getApp } from '../state/store.ts';

/** Least time between two messages, ms. Requirement of the product: one in 3 s. */
const EVERY_MS = 3000;
/** Sentences in one message; the rest is counted. Assumed: more would still be spoken when the next one comes. */
const MOST = 3;

/** Switchings, phases, flags and what was done; dragging the sun is left out. */
function isSpoken(event: TraceEvent): boolean {
  if (event.kind === 'input') return event.input.kind !== 'moveSun';
  return ['output', 'phase', 'flag', 'note', 'adaptiveDelay'].includes(event.kind);
}

/** One message out of what is new. */
export function merged(events: readonly TraceEvent[]): string {
  const spoken = events.filter(isSpoken);
  const told = spoken.slice(-MOST).map(eventSentence).join(' ');
  const rest = spoken.length - MOST;
  return rest > 0 ? `${en.narration.more(rest)} ${told}` : told;
}

export function Narration() {
  const [message, setMessage] = useState('');
  const toldTick = useRef(-1);
  const story = useRef('');
  useEffect(() => {
    const timer = setInterval(() => {
      const { scenario, shownTick } = getApp();
      const run = scenario?.id ?? '';
      if (run !== story.current) {
        story.current = run;
        toldTick.current = shownTick - 1;
      }
      // After going back, what lies ahead has been told; only what happens from here on is new.
      if (shownTick < toldTick.current) toldTick.current = shownTick;
      const from = firstIndexAtOrAfter(toldTick.current + 1);
      const to = firstIndexAtOrAfter(shownTick + 1);
      const text = merged(record.events.slice(from, to));
      toldTick.current = shownTick;
      if (text) setMessage(text);
    }, EVERY_MS);
    return () => clearInterval(timer);
  }, []);
  return (
    <div className="visuallyHidden" role="status" aria-live="polite">
      {message}
    </div>
  );
}
