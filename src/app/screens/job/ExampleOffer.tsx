/** The way to the worked example from the Job Card; in a test there is none. */
import { useEffect, useRef } from 'react';
import { exampleWords as words } from '../../../report/text/example.ts';
import ui from '../../panels/ui.module.css';
import { isOffered, openExample, useExample } from '../../state/job/example.ts';
import { useApp } from '../../state/store.ts';
import styles from './Example.module.css';

export function ExampleOffer() {
  const offered = useApp((s) => isOffered(s.job));
  const ready = useApp((s) => s.readiness === 'ready');
  const preparing = useExample((s) => s.preparing);
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    // Whoever comes back from the example goes on where it was opened.
    if (useExample.getState().left) button.current?.focus({ preventScroll: true });
  }, []);
  if (!offered) return null;
  return (
    <div className={styles.offer}>
      <button
        ref={button}
        type="button"
        className={ui.plain}
        disabled={!ready || preparing}
        onClick={() => void openExample()}
      >
        {words.open}
      </button>
      <p className={ui.note} role="status">
        {preparing ? words.preparing : words.openNote}
      </p>
    </div>
  );
}
