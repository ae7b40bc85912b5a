/** The Kit Bag of a diagnosis: an instrument, its place or part, and the reading. */
import { useState } from 'react';
import { placesOf } from '../../../../exercise/diagnose/cards.ts';
import { minutesOf, testKey } from '../../../../exercise/diagnose/tests.ts';
import type { DiagnoseExercise, Instrument, Test } from '../../../../exercise/diagnose/types.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { instrumentName, refusalText, testParameter } from '../../../../report/text/evidence.ts';
import ui from '../../../panels/ui.module.css';
import { Pick } from '../../../panels/ui.tsx';
import { takeTest, useDiagnosis } from '../../../state/job/diagnose.ts';
import styles from './Diagnose.module.css';

export function Kit({ exercise }: { exercise: DiagnoseExercise }) {
  const { tests } = exercise.diagnose;
  const busy = useDiagnosis((s) => s.busy);
  const refused = useDiagnosis((s) => s.refused);
  const [instrument, setInstrument] = useState<Instrument>('ask');
  const [key, setKey] = useState('');
  const places = placesOf(exercise);
  const own = tests.filter((test) => test.instrument === instrument);
  const test: Test | undefined = own.find((one) => testKey(one) === key) ?? own[0];
  const inBag = (Object.keys(instrumentName) as Instrument[]).filter((id) => tests.some((t) => t.instrument === id));
  if (!test) return null;
  return (
    <section aria-label={diagnoseWords.kit} className={styles.kit}>
      <h3>{diagnoseWords.kit}</h3>
      <Pick
        label={diagnoseWords.instrument}
        value={instrument}
        options={inBag.map((value) => ({ value, text: instrumentName[value] }))}
        pick={setInstrument}
      />
      {own.length > 1 && (
        <Pick
          label={diagnoseWords.what}
          value={testKey(test)}
          options={own.map((one) => ({ value: testKey(one), text: testParameter(one, places) ?? '' }))}
          pick={setKey}
        />
      )}
      {own.length === 1 && testParameter(test, places) !== null && <p>{testParameter(test, places)}</p>}
      <button type="button" className={styles.reading} disabled={busy} onClick={() => void takeTest(test)}>
        {busy ? diagnoseWords.taking : diagnoseWords.take(minutesOf(test))}
      </button>
      {refused && <p role="status">{refusalText[refused]}</p>}
      <p className={ui.note}>{diagnoseWords.kitNote}</p>
    </section>
  );
}
