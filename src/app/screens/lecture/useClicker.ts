/** A presenter's clicker sends Page Down and Page Up: on to the next act of the lecture, back to the switching before. */
import { useEffect } from 'react';
import { pause, run } from '../../state/acts.ts';
import { lock, setCovered, setPanel, showTruth, stepNow } from '../../state/lecture/lecture.ts';
import { getApp } from '../../state/store.ts';
import { send } from '../../state/wire.ts';

/** The one next act: lock, run (or stop), show what happened, reveal, ask again. */
function next(): void {
  const { status, speed, lecture } = getApp();
  const step = stepNow();
  if (!lecture) return;
  if (step?.stage === 'asking') lock();
  else if (status.running) pause();
  else if (step?.stage === 'locked' && status.headTick - 1 <= step.fromTick) run(speed);
  else if (step?.stage === 'locked') showTruth();
  else if (step && lecture.covered) setCovered(false);
  else if (step) setPanel('ask');
  else run(speed);
}

export function useClicker(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const at = event.target instanceof HTMLElement ? event.target : null;
      // Lists and the strip have their own use for these keys.
      if (at?.closest('select, input, textarea, dialog, [role="slider"]')) return;
      if (event.key !== 'PageDown' && event.key !== 'PageUp') return;
      event.preventDefault();
      if (event.key === 'PageDown') next();
      else send({ type: 'nextEvent', direction: -1 });
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}
