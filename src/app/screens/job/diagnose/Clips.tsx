/** Evidence Clips in the place of the Recorder: what was read and when, the latest first. */
import { placesOf } from '../../../../exercise/diagnose/cards.ts';
import { minutesOf } from '../../../../exercise/diagnose/tests.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { readingText, testLine } from '../../../../report/text/evidence.ts';
import { clockAt } from '../../../../report/text/format.ts';
import ui from '../../../panels/ui.module.css';
import { useDiagnosis } from '../../../state/job/diagnose.ts';
import { useApp } from '../../../state/store.ts';
import styles from '../JobSheet.module.css';

export function Clips() {
  const exercise = useDiagnosis((s) => s.exercise);
  const clips = useDiagnosis((s) => s.answers.clips);
  const start = useApp((s) => s.scenario?.start);
  if (!exercise || !start) return null;
  const places = placesOf(exercise);
  return (
    <section aria-label={diagnoseWords.clips} aria-live="polite" className={styles.clipBand}>
      <h3>{diagnoseWords.clips}</h3>
      {clips.length === 0 && <p className={ui.note}>{diagnoseWords.noClips}</p>}
      <ol className={styles.clips} reversed>
        {[...clips].reverse().map((clip) => (
          <li key={`${clip.tick} ${clip.serial}`}>
            <p>
              <b>{testLine(clip.test, places)}</b>
            </p>
            <p>{readingText(clip.test, clip.values)}</p>
            <p className={ui.note}>
              {clockAt(clip.tick, start)}, {minutesOf(clip.test)} min
            </p>
          </li>
        ))}
      </ol>
    </section>
  );
}
