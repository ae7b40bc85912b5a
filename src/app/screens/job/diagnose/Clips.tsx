/** Evidence Clips in the place of the Recorder: what was read and when, the latest first. */
import type { OutputId } from '../../../../engine/types.ts';
import { placesOf } from '../../../../exercise/diagnose/cards.ts';
import { minutesOf } from '../../../../exercise/diagnose/tests.ts';
import { outputWords } from '../../../../report/text/badges.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { readingText, testLine } from '../../../../report/text/evidence.ts';
import { clockAt } from '../../../../report/text/format.ts';
import { outputName } from '../../../../report/text/names.ts';
import ui from '../../../panels/ui.module.css';
import { useDiagnosis } from '../../../state/job/diagnose.ts';
import { useApp, useShown } from '../../../state/store.ts';
import styles from './Diagnose.module.css';

const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

/** What is lit and what blows, where the picture has no room to say so. */
function Outputs() {
  const text = useShown(
    (f) => OUTPUTS.map((id) => `${outputName[id]} ${outputWords(f.outputs[id], f.tick).full}`).join(' · '),
    '',
  );
  return <p aria-hidden="true">{text}</p>;
}

export function Clips() {
  const exercise = useDiagnosis((s) => s.exercise);
  const clips = useDiagnosis((s) => s.answers.clips);
  const start = useApp((s) => s.scenario?.start);
  if (!exercise || !start) return null;
  const places = placesOf(exercise);
  return (
    <section aria-label={diagnoseWords.clips} aria-live="polite" className={styles.clipBand}>
      <Outputs />
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
