/** In the place of the strip: how many causes still fit after each reading, which they are once they are few, the readings. */
import { useEffect } from 'react';
import { placesOf } from '../../../exercise/diagnose/cards.ts';
import { diagnoseWords } from '../../../report/text/diagnose.ts';
import { readingText, testLine } from '../../../report/text/evidence.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { useDiagnosis } from '../../state/job/diagnose.ts';
import { noteTrail, roomId, useLecture } from '../../state/lecture/lecture.ts';
import styles from './Lecture.module.css';

/** Causes written out. Assumed: as many lines as the band has room for beside the readings. */
const MOST_NAMED = 4;

export function CaseTrail() {
  const exercise = useDiagnosis((s) => s.exercise);
  const fitting = useDiagnosis((s) => s.fitting);
  const clips = useDiagnosis((s) => s.answers.clips);
  const trail = useLecture((s) => s.trails[roomId()]) ?? [];
  const busy = useDiagnosis((s) => s.busy);
  useEffect(() => {
    if (fitting && !busy) noteTrail(clips.length, fitting.length);
  }, [fitting, clips.length, busy]);
  if (!exercise) return null;
  const { candidates } = exercise.diagnose;
  const places = placesOf(exercise);
  const named = candidates.filter(({ card }) => fitting?.includes(card.id));
  return (
    <div className={styles.case}>
      <section aria-label={lectureWords.candidates} aria-live="polite">
        <h2>{lectureWords.candidates}</h2>
        {trail.length > 0 ? (
          <p className={styles.trail}>{lectureWords.trail(trail)}</p>
        ) : (
          <p>{diagnoseWords.fitsBusy}</p>
        )}
        {fitting && <p>{lectureWords.stillFit(fitting.length, candidates.length)}</p>}
        {named.length <= MOST_NAMED && (
          <ul>
            {named.map(({ card }) => (
              <li key={card.id}>■ {card.title}</li>
            ))}
          </ul>
        )}
      </section>
      <section aria-label={lectureWords.measured}>
        <h2>{lectureWords.measured}</h2>
        <ol>
          {[...clips].reverse().map((clip) => (
            <li key={`${clip.tick} ${clip.serial}`}>
              <b>{testLine(clip.test, places)}:</b> {readingText(clip.test, clip.values)}
            </li>
          ))}
        </ol>
      </section>
    </div>
  );
}
