/** The paper while something else is tried in a copy of a marked run: what the copy is, all acts, and the way back. */
import { useEffect, useRef } from 'react';
import { clockAt } from '../../../report/text/format.ts';
import { tryWords } from '../../../report/text/tryAgain.ts';
import { useJob } from '../../state/job/job.ts';
import { backToResult } from '../../state/job/tryAgain.ts';
import { useApp } from '../../state/store.ts';
import { RightSheet } from '../RightSheet.tsx';
import styles from './parts.module.css';

export function TryPaper() {
  const atS = useJob((s) => s.tried?.atS ?? 0);
  const start = useApp((s) => s.scenario?.start ?? null);
  const back = useRef<HTMLButtonElement>(null);
  // The button that led here is gone with the result.
  useEffect(() => back.current?.focus(), []);
  if (!start) return null;
  return (
    <>
      <section aria-label={tryWords.region} className={styles.block}>
        <p className={styles.brief}>{tryWords.head(clockAt(Math.round(atS * 10), start))}</p>
        <p role="status">{tryWords.how}</p>
        <button ref={back} type="button" className={styles.primary} onClick={backToResult}>
          {tryWords.back}
        </button>
      </section>
      <RightSheet />
    </>
  );
}
