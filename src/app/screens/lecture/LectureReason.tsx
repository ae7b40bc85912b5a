/** The Reason Card for the last row: why the chosen output is as it is at the instant shown, why not otherwise. */
import type { Explanation } from '../../../engine/trace.ts';
import { conditionSentence, contextOf } from '../../../report/text/conditions.ts';
import { clockAt } from '../../../report/text/format.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { outputName } from '../../../report/text/names.ts';
import { changeSentence, reasonSentence, whyNotTitle } from '../../../report/text/reasons.ts';
import { setCovered } from '../../state/lecture/lecture.ts';
import { useApp } from '../../state/store.ts';
import { send } from '../../state/wire.ts';
import styles from './Lecture.module.css';

/** Lines of a reason. Source: at most four may be read at a glance in this product's own review list; two are the change and the link. */
const MOST_LINES = 2;

export function LectureReason() {
  const output = useApp((s) => s.lastOutput);
  const explanation = useApp((s) => s.explanations[output]);
  return (
    <section className={styles.reason} aria-label={lectureWords.reason} aria-live="polite" data-channel={output}>
      <h2>
        {lectureWords.whyOf} {outputName[output]}
      </h2>
      {explanation && <Lines e={explanation} />}
    </section>
  );
}

function Lines({ e }: { e: Explanation }) {
  const start = useApp((s) => s.scenario?.start ?? null);
  const settings = useApp((s) => s.settings);
  const context = contextOf(e);
  const change = changeSentence(e, settings ?? undefined);
  const { decided } = e;
  const because = e.because.slice(0, MOST_LINES).map((c) => conditionSentence(c, context));
  const lines = because.length > 0 ? because : decided ? [reasonSentence(decided.reason)] : [];
  return (
    <>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {change && (
        <p>
          <b>{whyNotTitle(e)}</b> {change}
        </p>
      )}
      <div className={styles.row}>
        {decided && start && (
          <button type="button" className={styles.moment} onClick={() => send({ type: 'seek', tick: decided.tick })}>
            {clockAt(decided.tick, start)}
          </button>
        )}
        <button type="button" className={styles.quiet} onClick={() => setCovered(true)}>
          {lectureWords.cover}
        </button>
      </div>
    </>
  );
}
