/** Spoken results: one polite message at most every three seconds, several events merged into it. */
import { useEffect, useRef, useState } from 'react';
import { firstIndexAtOrAfter, record } from '../state/record.ts';
import { getApp, reasonsClosed } from '../state/store.ts';
import { merged } from './narrationText.ts';

/** Least time between two messages, ms. Requirement of the product: one in 3 s. */
const EVERY_MS = 3000;
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
      const text = merged(record.events.slice(from, to), !reasonsClosed(getApp()));
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
