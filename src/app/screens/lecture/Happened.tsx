/** What the room did since the answers were locked: each switching a link to its instant. */

import type { Truth } from '../../../report/tally.ts';
import { clockAt } from '../../../report/text/format.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { outputName } from '../../../report/text/names.ts';
import { useApp } from '../../state/store.ts';
import { send } from '../../state/wire.ts';
import styles from './Lecture.module.css';

/** Lines shown. Assumed: the column's room beside the hands. */
const MOST = 4;

export function Happened({ truth }: { truth: Truth }) {
  const start = useApp((s) => s.scenario?.start ?? null);
  if (!start) return null;
  return (
    <section aria-label={lectureWords.happened}>
      <h2>{lectureWords.happened}</h2>
      {truth.events.length === 0 && <p>{lectureWords.nothingYet}</p>}
      <ul className={styles.list}>
        {truth.events.slice(0, MOST).map(({ tick, output, on }) => (
          <li key={`${tick} ${output}`}>
            <button
              type="button"
              className={styles.moment}
              data-channel={output}
              onClick={() => send({ type: 'seek', tick })}
            >
              {lectureWords.onAt(outputName[output], on, clockAt(tick, start))}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
