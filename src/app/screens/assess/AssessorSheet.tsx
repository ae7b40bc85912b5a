/** The assessor's sheet of one attempt: typed beside the computed mark, printed, saved as a file, opened again. */
import { useEffect, useRef, useState } from 'react';
import {
  type Assessed,
  type Assessment,
  assessed,
  isBlank,
  lacksReason,
  NO_ASSESSMENT,
  withNote,
} from '../../../exercise/assessment/assessment.ts';
import type { Graded } from '../../../exercise/classTable.ts';
import { exerciseById } from '../../../exercise/load.ts';
import type { Exercise } from '../../../exercise/types.ts';
import { evidenceOf, writtenFor } from '../../../report/assessment.ts';
import { criterionTitle, assessmentWords as words } from '../../../report/text/assessment.ts';
import { Sheet } from '../../panels/Sheet.tsx';
import ui from '../../panels/ui.module.css';
import { keepSheet, openSheet, openSheetFile, saveSheet, sheetOf, useSheets } from '../../state/assessments.ts';
import { useTray } from '../../state/classTray.ts';
import { library } from '../../state/stories.ts';
import styles from './Assess.module.css';
import { CriterionRow } from './CriterionRow.tsx';
import { PathsBeside } from './PathsBeside.tsx';

export function AssessorSheet({ one }: { one: Graded }) {
  const exercise = exerciseById(library, one.attempt.exercise);
  if (!exercise.ok) return null;
  return <Paper one={one} exercise={exercise.value} />;
}

function Paper({ one, exercise }: { one: Graded; exercise: Exercise }) {
  const { attempt, mark, seal } = one;
  const sheet = useSheets((s) => s.bySeal.get(seal)) ?? NO_ASSESSMENT;
  const result = assessed(mark, sheet);
  // Closed, the sheet gives the keyboard back to the line of the tray that it came from.
  useEffect(() => () => document.querySelector<HTMLElement>(`[data-assess="${seal}"]`)?.focus(), [seal]);
  const keep = (change: Partial<typeof sheet>): void => keepSheet(seal, { ...sheet, ...change });
  return (
    <Sheet
      title={words.title}
      closeText={words.close}
      onClose={() => openSheet(null)}
      className={styles.sheet}
      acts={<Next one={one} />}
    >
      <p>{words.about(exercise.title, attempt.seed, attempt.names)}</p>
      <p className={`${ui.note} ${styles.screenOnly}`}>{words.note}</p>
      <p className={styles.printed}>{words.simulated}</p>
      <div className={styles.band}>
        <Totals result={result} computedPass={mark.pass} />
        <Acts one={one} result={result} />
      </div>
      <table className={styles.criteria} aria-label={words.criteria}>
        <thead>
          <tr>
            <th scope="col">{words.columns.criterion}</th>
            <th scope="col">{words.columns.computed}</th>
            <th scope="col">{words.columns.assessor}</th>
          </tr>
        </thead>
        <tbody>
          {result.criteria.map((criterion) => (
            <CriterionRow
              key={criterion.computed.id}
              one={criterion}
              evidence={evidenceOf(exercise, attempt.seed, criterion.computed)}
              written={writtenFor(attempt, criterion.computed)}
              change={(note) => keep(withNote(sheet, note))}
            />
          ))}
        </tbody>
      </table>
      <div className={styles.signed}>
        <label>
          {words.assessor}
          <input
            type="text"
            maxLength={80}
            value={sheet.assessor}
            onChange={(e) => keep({ assessor: e.target.value })}
          />
        </label>
        <label>
          {words.date}
          <input type="text" maxLength={40} value={sheet.date} onChange={(e) => keep({ date: e.target.value })} />
        </label>
        <p className={styles.printed}>{words.signature}</p>
      </div>
      <PathsBeside exercise={exercise} attempt={attempt} />
    </Sheet>
  );
}

/** On through the tray, attempt by attempt. */
function Next({ one }: { one: Graded }) {
  const graded = useTray((s) => s.graded);
  const next = graded.slice(graded.indexOf(one) + 1).find(({ seal }) => seal !== one.seal);
  if (!next) return null;
  return (
    <button type="button" className={ui.word} onClick={() => openSheet(next.seal)}>
      <span>{words.next(next.file)}</span>
    </button>
  );
}

/** Both marks, always beside each other. */
function Totals({ result, computedPass }: { result: Assessed; computedPass: boolean }) {
  const { computed, total, pass, ruled } = result;
  const resultWord = (passed: boolean): string => (passed ? words.pass : words.notYet);
  return (
    <dl className={styles.totals}>
      <div>
        <dt>{words.computed}</dt>
        <dd>
          <b>{words.of100(computed)}</b> {resultWord(computedPass)}
        </dd>
      </div>
      <div>
        <dt>{words.counts}</dt>
        <dd aria-live="polite">
          {ruled ? (
            <>
              <b>{words.of100(total)}</b> {resultWord(pass)}
            </>
          ) : (
            words.untouched
          )}
        </dd>
      </div>
    </dl>
  );
}

function Acts({ one, result }: { one: Graded; result: Assessed }) {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState('');
  const [refused, setRefused] = useState(false);
  const [before, setBefore] = useState<Assessment | null>(null);
  const lacking = result.criteria.filter(({ computed, note }) => lacksReason(computed, note.ruling));
  const titles = lacking.map(({ computed }) => criterionTitle(computed));
  const save = (): void => {
    setSaid('');
    setRefused(lacking.length > 0);
    const [first] = lacking;
    if (!first) saveSheet(one);
    else document.querySelector<HTMLElement>(`[data-reason="${first.computed.id}"]`)?.focus();
  };
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const now = sheetOf(one.seal);
    const { taken, say } = await openSheetFile(file, one);
    if (taken && !isBlank(now)) setBefore(now);
    setSaid(say);
  };
  const goBack = (): void => {
    if (before) keepSheet(one.seal, before);
    setBefore(null);
    setSaid('');
  };
  return (
    <>
      <div className={styles.acts}>
        <button type="button" className={ui.plain} onClick={() => print()}>
          {words.print}
        </button>
        <button type="button" className={ui.plain} onClick={save}>
          {words.save}
        </button>
        <button type="button" className={ui.plain} onClick={() => input.current?.click()}>
          {words.openFile}
        </button>
        <input
          ref={input}
          type="file"
          hidden
          accept=".json,application/json"
          aria-label={words.openFile}
          onChange={(e) => {
            void take(e.target.files?.[0]);
            e.target.value = '';
          }}
        />
        {before && (
          <button type="button" className={ui.word} onClick={goBack}>
            <span>{words.backToBefore}</span>
          </button>
        )}
      </div>
      <p role="status" className={styles.said}>
        {refused && titles.length > 0 ? words.withoutReason(titles) : said}
      </p>
    </>
  );
}
