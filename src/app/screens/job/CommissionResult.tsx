/** Result of a commissioning: the total, every criterion with what was found and where, beliefs to mend, what next. */
import type { Scenario } from '../../../engine/types.ts';
import { COMMISSION_PASS } from '../../../exercise/commission/mark.ts';
import type { CommissionExercise, CommissionLine, CommissionSignatureId } from '../../../exercise/commission/types.ts';
import type { Mark, MarkLine } from '../../../exercise/types.ts';
import { commissionBelief } from '../../../report/text/commission.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { partName } from '../../../report/text/marks.ts';
import { useJob } from '../../state/job/job.ts';
import styles from './Commission.module.css';
import { LineText, ProvedTable } from './ProvedTable.tsx';
import parts from './parts.module.css';
import { Actions, Moment } from './parts.tsx';

type Line = MarkLine & { say: CommissionLine };

function linesOf({ lines }: Mark['parts'][number]): Line[] {
  return lines.filter((line): line is Line => line.say.code === 'criterion');
}

export function CommissionResult({ exercise, scenario }: { exercise: CommissionExercise; scenario: Scenario }) {
  const mark = useJob((s) => s.mark);
  if (!mark) return null;
  return (
    <section aria-label={jobWords.result}>
      <p className={parts.total}>
        <b>{mark.total}</b> {jobWords.of100}
      </p>
      <p className={parts.brief}>{mark.pass ? jobWords.passed : jobWords.notYet(COMMISSION_PASS)}</p>
      {mark.signatures.map((signature) => (
        <p key={signature.id} className={parts.signature}>
          {commissionBelief[signature.id as CommissionSignatureId]}{' '}
          {signature.atS !== null && <Moment atS={signature.atS} />}
        </p>
      ))}
      {exercise.commission.days.length > 0 && <ProvedTable days={mark.commission?.days ?? []} />}
      {mark.parts.map((part) => (
        <section key={part.id} aria-label={partName[part.id]}>
          <h3 className={styles.part}>
            {partName[part.id]} <b>{jobWords.points(part.points, part.of)}</b>
          </h3>
          <ul className={parts.lines}>
            {linesOf(part).map(({ say, points, of, atS }) => (
              <li key={say.id}>
                <b className={parts.points}>{jobWords.points(points, of)}</b> {say.title}{' '}
                {atS !== null && <Moment atS={atS} />}
                <LineText line={say} exercise={exercise} scenario={scenario} final />
              </li>
            ))}
          </ul>
        </section>
      ))}
      <Actions />
    </section>
  );
}
