/** While the author works the job as a learner would: what is done can be kept as its solution. */
import { diagnosingWords } from '../../../report/text/diagnosing.ts';
import ui from '../../panels/ui.module.css';
import { endRecording } from '../../state/diagnosing.ts';
import { useDiagnosis } from '../../state/job/diagnose.ts';
import { useApp } from '../../state/store.ts';
import styles from './Author.module.css';

export function RecordBand() {
  const busy = useDiagnosis((s) => s.busy);
  const marking = useApp((s) => s.job?.stage === 'marking');
  return (
    <section className={styles.record} aria-label={diagnosingWords.record}>
      <p>
        <b>{diagnosingWords.band}</b> {diagnosingWords.bandNote}
      </p>
      <div className={ui.row}>
        <button type="button" className={ui.plain} disabled={busy || marking} onClick={() => endRecording(true)}>
          {diagnosingWords.keepWay}
        </button>
        <button type="button" className={ui.word} disabled={busy} onClick={() => endRecording(false)}>
          <span>{diagnosingWords.back}</span>
        </button>
      </div>
    </section>
  );
}
