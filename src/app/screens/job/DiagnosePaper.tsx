/** The Job Card of a diagnosis: complaint, Kit Bag, what was measured, causes, repair, record; then the result. */

import { complaintLine } from '../../../exercise/diagnose/cards.ts';
import { isHintEarned } from '../../../exercise/diagnose/hints.ts';
import { HINT_COST } from '../../../exercise/diagnose/score.ts';
import type { DiagnoseExercise } from '../../../exercise/diagnose/types.ts';
import { diagnoseWords } from '../../../report/text/diagnose.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import ui from '../../panels/ui.module.css';
import { minutesSpent, setAdvice, useDiagnosis } from '../../state/job/diagnose.ts';
import { useJob } from '../../state/job/job.ts';
import { useApp } from '../../state/store.ts';
import { Causes } from './diagnose/Causes.tsx';
import styles from './diagnose/Diagnose.module.css';
import { DiagnoseResult } from './diagnose/DiagnoseResult.tsx';
import { Kit } from './diagnose/Kit.tsx';
import { Repair } from './diagnose/Repair.tsx';
import parts from './parts.module.css';
import { Foot, HandIn, Hints, Names, Reasons } from './parts.tsx';

export function DiagnosePaper() {
  const exercise = useDiagnosis((s) => s.exercise);
  const stage = useApp((s) => s.job?.stage);
  if (!exercise || !stage) return null;
  if (stage !== 'result') return <Work exercise={exercise} />;
  return (
    <>
      <DiagnoseResult exercise={exercise} />
      <Reasons />
    </>
  );
}

function Work({ exercise }: { exercise: DiagnoseExercise }) {
  const seed = useJob((s) => s.seed);
  const answers = useDiagnosis((s) => s.answers);
  const ready = useApp((s) => s.readiness === 'ready');
  const busy = useDiagnosis((s) => s.busy);
  const named = answers.claims.length > 0;
  return (
    <>
      <section aria-label={diagnoseWords.complaint}>
        <p className={ui.note}>{diagnoseWords.complaint}</p>
        <p className={parts.brief}>“{complaintLine(exercise, seed)}”</p>
      </section>
      <p>{exercise.brief}</p>
      <p className={ui.note}>{diagnoseWords.sealed}</p>
      {ready ? <Kit exercise={exercise} /> : <p role="status">{jobWords.preparing}</p>}
      <p>
        <b>{diagnoseWords.minutes(minutesSpent(answers))}</b>
      </p>
      <Causes exercise={exercise} />
      <Repair exercise={exercise} />
      <Help exercise={exercise} />
      <Names />
      <Advice advice={answers.record.advice} />
      <p className={ui.note}>{diagnoseWords.caution}</p>
      <Foot>
        <HandIn next disabled={!named || busy || !ready} />
      </Foot>
    </>
  );
}

/** A hint opens with a new reading that ruled a cause out. */
function Help({ exercise }: { exercise: DiagnoseExercise }) {
  const telling = useDiagnosis((s) => s.tellingTicks);
  const hints = useDiagnosis((s) => s.answers.hints);
  const busy = useDiagnosis((s) => s.busy);
  const earned = telling !== null && isHintEarned(telling, hints);
  const cost = exercise.aid === 'test' ? HINT_COST : 0;
  const say =
    telling === null ? diagnoseWords.hintBusy : earned ? diagnoseWords.hintOpen(cost) : diagnoseWords.hintShut;
  return <Hints exercise={exercise} gate={{ say, open: earned && !busy }} />;
}

function Advice({ advice }: { advice: string }) {
  return (
    <label className={styles.advice}>
      {diagnoseWords.record}
      <textarea rows={2} value={advice} onChange={(e) => setAdvice(e.target.value)} />
      <span className={ui.note}>{diagnoseWords.recordNote}</span>
    </label>
  );
}
