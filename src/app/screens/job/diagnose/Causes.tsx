/** What it could be: all candidates, how many still fit (not in a test), and the one that is named. */
import { useState } from 'react';
import type { DiagnoseExercise } from '../../../../exercise/diagnose/types.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import ui from '../../../panels/ui.module.css';
import { Pick } from '../../../panels/ui.tsx';
import { nameCause, useDiagnosis } from '../../../state/job/diagnose.ts';
import styles from './Diagnose.module.css';

export function Causes({ exercise }: { exercise: DiagnoseExercise }) {
  const { aid } = exercise;
  const { candidates } = exercise.diagnose;
  const fitting = useDiagnosis((s) => s.fitting);
  const busy = useDiagnosis((s) => s.busy);
  const named = useDiagnosis((s) => s.answers.claims.at(-1)?.card ?? null);
  const [chosen, setChosen] = useState(candidates[0]!.card.id);
  const titleOf = (id: string): string => candidates.find(({ card }) => card.id === id)?.card.title ?? id;
  return (
    <section aria-label={diagnoseWords.causes} className={styles.kit}>
      <h3>{diagnoseWords.causes}</h3>
      {aid !== 'test' && (
        <p role="status">
          <b>{fitting ? diagnoseWords.fits(fitting.length, candidates.length) : diagnoseWords.fitsBusy}</b>
        </p>
      )}
      {aid === 'guided' && (
        <ul className={styles.causes}>
          {candidates.map(({ card }) => {
            const out = fitting !== null && !fitting.includes(card.id);
            return (
              <li key={card.id} data-out={out}>
                {card.title}
                {out && <small>: {diagnoseWords.ruledOut}</small>}
              </li>
            );
          })}
        </ul>
      )}
      <Pick
        label={diagnoseWords.causes}
        value={chosen}
        options={candidates.map(({ card }) => ({ value: card.id, text: card.title }))}
        pick={setChosen}
      />
      <button type="button" className={ui.plain} disabled={busy} onClick={() => void nameCause(chosen)}>
        {diagnoseWords.name}
      </button>
      <p>{named ? diagnoseWords.named(titleOf(named)) : diagnoseWords.notNamed}</p>
    </section>
  );
}
