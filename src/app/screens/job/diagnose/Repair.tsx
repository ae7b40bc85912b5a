/** Putting it right: the acts that any of the causes may need, in one list. */
import { useState } from 'react';
import type { DiagnoseExercise } from '../../../../exercise/diagnose/types.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { inputSentence } from '../../../../report/text/events.ts';
import ui from '../../../panels/ui.module.css';
import { Pick } from '../../../panels/ui.tsx';
import { repair, repairActs, swapDetector, useDiagnosis } from '../../../state/job/diagnose.ts';
import styles from './Diagnose.module.css';

export function Repair({ exercise }: { exercise: DiagnoseExercise }) {
  const busy = useDiagnosis((s) => s.busy);
  const acts = repairActs(exercise);
  const [chosen, setChosen] = useState('0');
  const act = acts[Number(chosen)];
  return (
    <section aria-label={diagnoseWords.repair} className={styles.kit}>
      <h3>{diagnoseWords.repair}</h3>
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
