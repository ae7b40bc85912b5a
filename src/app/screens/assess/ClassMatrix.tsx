/** The class criterion by criterion: a shape and a word for each learner, and how many of each under every column. */
import { type Matrix, type MatrixRow, matricesOf } from '../../../exercise/assessment/matrix.ts';
import type { Graded } from '../../../exercise/classTable.ts';
import type { Verdict } from '../../../exercise/commission/types.ts';
import { criterionTitle, criterionWord, assessmentWords as words } from '../../../report/text/assessment.ts';
import ui from '../../panels/ui.module.css';
import { openSheet, useSheets } from '../../state/assessments.ts';
import { exerciseTitle } from '../../state/exercises.ts';
import styles from './Matrix.module.css';
import { VerdictShape } from './VerdictShape.tsx';

export function ClassMatrix({ graded }: { graded: readonly Graded[] }) {
  const sheets = useSheets((s) => s.bySeal);
  return matricesOf(graded, sheets).map((matrix) => <OneMatrix key={matrix.exercise} matrix={matrix} />);
}

/** Learners from which on the numbers of the columns stand at the foot again. Assumed: so many fill a page. */
const LONG = 8;

/** Columns are numbered, for their titles are long; the list above says what each number asks. */
function OneMatrix({ matrix }: { matrix: Matrix }) {
  const { exercise, columns, rows } = matrix;
  const title = exerciseTitle(exercise);
  const titles = columns.map(({ example }) => criterionTitle(example));
  return (
    <div>
      <h4>{title}</h4>
      <ol className={styles.key}>
        {titles.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ol>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: wider than a narrow page, it must scroll by keyboard too */}
      <section className={styles.scroll} tabIndex={0} aria-label={words.matrixOf(title)}>
        <table className={styles.matrix}>
          <thead>
            <tr>
              <th scope="col">{words.learner}</th>
              {titles.map((text, i) => (
                <th key={text} scope="col">
                  {i + 1}
                  <span className="visuallyHidden">: {text}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Learner key={row.one.file} row={row} />
            ))}
          </tbody>
          <tfoot>
            {rows.length > LONG && (
              <tr>
                <th scope="row">{words.criterion}</th>
                {titles.map((text, i) => (
                  <td key={text}>
                    <b>{i + 1}</b>
                  </td>
                ))}
              </tr>
            )}
            {COUNTED.map((verdict) => (
              <Counts key={verdict} verdict={verdict} columns={columns} />
            ))}
          </tfoot>
        </table>
      </section>
    </div>
  );
}

function Learner({ row: { one, cells } }: { row: MatrixRow }) {
  const name = one.attempt.names.join(', ') || one.file;
  return (
    <tr>
      <th scope="row">
        <button
          type="button"
          className={ui.link}
          data-assess={one.seal}
          aria-label={words.openFor(name)}
          onClick={() => openSheet(one.seal)}
        >
          <span>{name}</span>
        </button>
      </th>
      {cells.map((cell, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: columns never change their order
        <td key={i}>
          {cell && (
            <>
              <VerdictShape verdict={cell.verdict} />
              <span>{criterionWord[cell.verdict]}</span>
              {cell.ruled && <small>{words.byHand}</small>}
            </>
          )}
        </td>
      ))}
    </tr>
  );
}

const COUNTED: readonly Verdict[] = ['met', 'half', 'missed', 'lecturer'];

function Counts({ verdict, columns }: { verdict: Verdict; columns: Matrix['columns'] }) {
  if (columns.every(({ counts }) => counts[verdict] === 0)) return null;
  return (
    <tr>
      <th scope="row">
        <VerdictShape verdict={verdict} /> {criterionWord[verdict]}
      </th>
      {columns.map(({ example, counts }) => (
        <td key={example.id}>{counts[verdict]}</td>
      ))}
    </tr>
  );
}
