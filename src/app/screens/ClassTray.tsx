/** The tray: thirty attempts dropped, each played again and marked, told apart from copies, laid out as a table. */
import { lazy, Suspense, useState } from 'react';
import { assessed, NO_ASSESSMENT } from '../../exercise/assessment/assessment.ts';
import { csvOf, type Graded, skillProfile, withTwins } from '../../exercise/classTable.ts';
import { assessmentWords } from '../../report/text/assessment.ts';
import { classWords, skillName } from '../../report/text/class.ts';
import { splitWords } from '../../report/text/split.ts';
import { FileButton } from '../panels/FileButton.tsx';
import ui from '../panels/ui.module.css';
import { WordChoice } from '../panels/ui.tsx';
import { openSheet, useSheets } from '../state/assessments.ts';
import { offerFile } from '../state/attempts.ts';
import { markFiles, useTray } from '../state/classTray.ts';
import { exerciseTitle, openAttemptOf } from '../state/exercises.ts';
import { setApp } from '../state/store.ts';
import styles from './ClassPage.module.css';

const ClassMatrix = lazy(async () => ({ default: (await import('./assess/ClassMatrix.tsx')).ClassMatrix }));

type View = 'table' | 'matrix';
const VIEWS = (['table', 'matrix'] as const).map((value) => ({ value, text: assessmentWords.views[value] }));

export function ClassTray() {
  const [over, setOver] = useState(false);
  const [view, setView] = useState<View>('table');
  const { graded, sentences, done, of } = useTray();
  const rows = withTwins(graded);
  const take = (files: File[]): void => {
    if (files.length > 0) void markFiles(files);
  };
  return (
    <section aria-label={classWords.trayHead}>
      <h3>{classWords.trayHead}</h3>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is a shortcut for the button inside */}
      <div
        className={over ? styles.dropOver : styles.drop}
        onDragOver={(e) => {
          e.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(e) => {
          e.preventDefault();
          setOver(false);
          take([...e.dataTransfer.files]);
        }}
      >
        <p>{classWords.trayNote}</p>
        <FileButton text={classWords.chooseFiles} className={ui.plain} take={take} />
      </div>
      {done < of && <p role="status">{classWords.marking(done, of)}</p>}
      {sentences.length > 0 && (
        <>
          <h4>{classWords.unread}</h4>
          <ul className={styles.sentences}>
            {sentences.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      {rows.length > 0 && (
        <>
          <WordChoice label={assessmentWords.view} options={VIEWS} chosen={view} choose={setView} className={ui.row} />
          {view === 'table' ? (
            <Table rows={rows} />
          ) : (
            <Suspense fallback={null}>
              <ClassMatrix graded={rows} />
            </Suspense>
          )}
          <button
            type="button"
            className={ui.plain}
            onClick={() => offerFile('marks.csv', csvOf(rows, useSheets.getState().bySeal), 'text/csv')}
          >
            {classWords.csv}
          </button>
          <Profile rows={rows} />
        </>
      )}
    </section>
  );
}

/** The next free side of the Split Bench; names stay in the tray. */
async function beside({ attempt }: Graded): Promise<void> {
  const { putAttempt } = await import('../state/split.ts');
  putAttempt(attempt);
  setApp({ splitOpen: true });
}

function Table({ rows }: { rows: Graded[] }) {
  const look = (one: Graded) => (): void => {
    setApp({ classOpen: false });
    openAttemptOf(one.attempt);
  };
  return (
    <table className={styles.table} aria-label={classWords.trayHead}>
      <thead>
        <tr>
          {classWords.columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
          <td />
        </tr>
      </thead>
      <tbody>
        {rows.map((one) => (
          <tr key={one.file}>
            <th scope="row">{one.file}</th>
            <td>{one.attempt.names.join(', ')}</td>
            <td>{exerciseTitle(one.mark.exercise)}</td>
            <td>{one.mark.seed}</td>
            <td>{Math.round(one.mark.total)}</td>
            <td>{one.mark.pass ? classWords.pass : classWords.notYet}</td>
            <td>
              <Given one={one} />
            </td>
            <td>{one.remarks.join('; ')}</td>
            <td className={styles.acts}>
              <button
                type="button"
                className={ui.link}
                data-assess={one.seal}
                aria-label={assessmentWords.openFor(one.file)}
                onClick={() => openSheet(one.seal)}
              >
                <span>{assessmentWords.open}</span>
              </button>
              <button type="button" className={ui.link} onClick={() => beside(one)}>
                <span>{splitWords.putOn}</span>
              </button>
              <button type="button" className={ui.link} onClick={look(one)}>
                <span>{classWords.look}</span>
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What counts with the assessor's sheet in it. */
function Given({ one: { mark, seal } }: { one: Graded }) {
  const sheet = useSheets((s) => s.bySeal.get(seal)) ?? NO_ASSESSMENT;
  const { total, pass, ruled } = assessed(mark, sheet);
  if (!ruled) return '–';
  return `${total}, ${pass ? classWords.pass : classWords.notYet}`;
}

function Profile({ rows }: { rows: Graded[] }) {
  return (
    <table className={styles.table} aria-label={classWords.profile}>
      <caption>{classWords.profile}</caption>
      <thead>
        <tr>
          {classWords.skillColumns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {skillProfile(rows).map(({ skill, successes, attempts, estimate, mastered }) => (
          <tr key={skill}>
            <th scope="row">{skillName[skill]}</th>
            <td>{successes}</td>
            <td>{attempts}</td>
            <td>{estimate.toFixed(2)}</td>
            <td>{mastered ? classWords.mastered : classWords.notYet}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
