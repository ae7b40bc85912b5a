/** Putting it right: by the ordinary controls once the mending has begun, or by an act from the list of all causes. */
import { lazy, Suspense, useState } from 'react';
import type { DiagnoseExercise } from '../../../../exercise/diagnose/types.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { inputSentence } from '../../../../report/text/events.ts';
import ui from '../../../panels/ui.module.css';
import { Pick } from '../../../panels/ui.tsx';
import { beginMending, repair, repairActs, swapDetector, useDiagnosis } from '../../../state/job/diagnose.ts';
import { useApp } from '../../../state/store.ts';
import styles from './Diagnose.module.css';

const Mend = lazy(async () => ({ default: (await import('./Mend.tsx')).Mend }));

export function Repair({ exercise }: { exercise: DiagnoseExercise }) {
  const busy = useDiagnosis((s) => s.busy);
  const mending = useDiagnosis((s) => s.answers.mending !== undefined);
  const ready = useApp((s) => s.readiness === 'ready');
  const acts = repairActs(exercise);
  const [chosen, setChosen] = useState('0');
  const act = acts[Number(chosen)];
  return (
    <section aria-label={diagnoseWords.repair} className={styles.kit}>
      <h3>{diagnoseWords.repair}</h3>
      {mending ? (
        <Suspense fallback={null}>
          <Mend busy={busy} />
        </Suspense>
      ) : (
        <>
          <p className={ui.note}>{diagnoseWords.beginNote}</p>
          <button type="button" className={ui.plain} disabled={busy || !ready} onClick={beginMending}>
            {diagnoseWords.begin}
          </button>
        </>
      )}
      <p>{diagnoseWords.fromList}</p>
      <Pick
        label={diagnoseWords.act}
        value={chosen}
        options={acts.map((input, i) => ({ value: String(i), text: inputSentence(input) }))}
        pick={setChosen}
      />
      {/* The closed list is too narrow for a whole act. */}
      {act && <p>{inputSentence(act)}</p>}
      <div className={ui.row}>
        <button type="button" className={ui.plain} disabled={busy || !act} onClick={() => act && void repair(act)}>
          {diagnoseWords.doIt}
        </button>
        <button type="button" className={ui.word} disabled={busy} onClick={() => void swapDetector()}>
          <span>{diagnoseWords.swap}</span>
        </button>
      </div>
      <p className={ui.note}>
        {diagnoseWords.repairNote} {diagnoseWords.prove}
      </p>
    </section>
  );
}
