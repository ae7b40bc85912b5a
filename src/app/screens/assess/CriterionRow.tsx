/** One criterion of the assessor's sheet: what was computed with its evidence, and what the assessor says of it. */
import { useId } from 'react';
import {
  type AssessedCriterion,
  lacksReason,
  mostPoints,
  type Note,
  pointsFor,
  type Ruling,
} from '../../../exercise/assessment/assessment.ts';
import type { CriterionMark } from '../../../exercise/assessment/criteria.ts';
import type { EvidenceLine } from '../../../report/assessment.ts';
import { criterionTitle, criterionWord, assessmentWords as words } from '../../../report/text/assessment.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { Pick } from '../../panels/ui.tsx';
import styles from './Assess.module.css';
import { VerdictShape } from './VerdictShape.tsx';

interface RowProps {
  one: AssessedCriterion;
  evidence: readonly EvidenceLine[];
  /** What the learner wrote; null: this criterion is not about a text. */
  written: string | null;
  change: (note: Note) => void;
}

export function CriterionRow({ one, evidence, written, change }: RowProps) {
  const { computed } = one;
  return (
    <tr>
      <th scope="row">
        <b className={styles.title}>{criterionTitle(computed)}</b>
        {evidence.length > 0 && (
          <ul className={styles.evidence}>
            {evidence.map(({ clock, text }, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: lines of a mark never change their order
              <li key={i}>
                <b>{clock ?? '–'}</b> <span>{text}</span>
              </li>
            ))}
          </ul>
        )}
        {written !== null && (
          <figure className={styles.written}>
            <figcaption>{words.written}</figcaption>
            <blockquote>{written.trim() === '' ? words.notWritten : written}</blockquote>
          </figure>
        )}
      </th>
      <td>
        <Verdict verdict={computed.verdict} points={computed.points} of={computed.of} />
      </td>
      <td>
        <Fields one={one} change={change} />
        <Printed one={one} />
      </td>
    </tr>
  );
}

function Verdict({ verdict, points, of }: Pick<CriterionMark, 'verdict' | 'points' | 'of'>) {
  return (
    <p className={styles.verdict}>
      <VerdictShape verdict={verdict} />
      <span>
        {criterionWord[verdict]}
        {of > 0 && <small>{jobWords.points(Math.round(points), Math.round(of))}</small>}
      </span>
    </p>
  );
}

const RULINGS = (['met', 'half', 'missed'] as const).map((value) => ({ value, text: criterionWord[value] }));

function Fields({ one: { computed, note }, change }: Pick<RowProps, 'one' | 'change'>) {
  const { ruling } = note;
  const title = criterionTitle(computed);
  const none = computed.verdict === 'lecturer' ? words.notMarked : words.asComputed;
  const rule = (verdict: Ruling['verdict'] | 'none'): void => {
    const reason = ruling?.reason ?? '';
    const next = verdict === 'none' ? null : { verdict, points: pointsFor(computed.of, verdict), reason };
    change({ ...note, ruling: next });
  };
  return (
    <fieldset className={styles.fields}>
      <legend className="visuallyHidden">{title}</legend>
      <div className={styles.ruling}>
        <Pick
          label={words.ruling}
          value={ruling?.verdict ?? 'none'}
          options={[{ value: 'none', text: none }, ...RULINGS]}
          pick={rule}
        />
        {ruling && computed.of > 0 && (
          <PointsField ruling={ruling} most={mostPoints(computed)} set={(next) => change({ ...note, ruling: next })} />
        )}
      </div>
      {ruling && computed.verdict !== 'lecturer' && (
        <ReasonField
          criterion={computed}
          ruling={ruling}
          set={(reason) => change({ ...note, ruling: { ...ruling, reason } })}
        />
      )}
      <div className={styles.typed}>
        <label>
          {words.comment}
          <textarea
            rows={1}
            maxLength={2000}
            value={note.comment}
            onChange={(e) => change({ ...note, comment: e.target.value })}
          />
        </label>
        <label>
          {words.code}
          <input
            type="text"
            maxLength={40}
            value={note.code}
            onChange={(e) => change({ ...note, code: e.target.value })}
          />
        </label>
      </div>
    </fieldset>
  );
}

function PointsField({ ruling, most, set }: { ruling: Ruling; most: number; set: (ruling: Ruling) => void }) {
  const take = (text: string): void => {
    const points = Number(text);
    if (/^\d*$/.test(text) && points <= most) set({ ...ruling, points });
  };
  return (
    <label className={styles.points}>
      {words.points}
      <input
        type="text"
        inputMode="numeric"
        maxLength={3}
        value={ruling.points}
        onChange={(e) => take(e.target.value)}
      />
      {words.outOf(most)}
    </label>
  );
}

interface ReasonProps {
  criterion: CriterionMark;
  ruling: Ruling;
  set: (reason: string) => void;
}

function ReasonField({ criterion, ruling, set }: ReasonProps) {
  const hint = useId();
  const lacks = lacksReason(criterion, ruling);
  return (
    <>
      <label>
        {words.reason}
        <textarea
          rows={1}
          maxLength={1000}
          data-reason={criterion.id}
          aria-describedby={lacks ? hint : undefined}
          aria-invalid={lacks}
          value={ruling.reason}
          onChange={(e) => set(e.target.value)}
        />
      </label>
      {lacks && (
        <p id={hint} className={styles.needed}>
          {words.reasonNeeded}
        </p>
      )}
    </>
  );
}

/** The same on paper, as text: a field cuts what is longer than itself. */
function Printed({ one: { note, ruled, verdict, points, computed } }: Pick<RowProps, 'one'>) {
  return (
    <div className={styles.printed}>
      {ruled && <Verdict verdict={verdict} points={points} of={computed.of} />}
      {ruled && note.ruling?.reason && (
        <p>
          {words.reason}: {note.ruling.reason}
        </p>
      )}
      {note.comment && <p>{note.comment}</p>}
      {note.code && (
        <p>
          {words.code}: {note.code}
        </p>
      )}
    </div>
  );
}
