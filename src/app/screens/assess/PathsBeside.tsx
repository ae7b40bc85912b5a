/** What was done beside what the stored expert does on the same bench; worked out when asked for, in a worker. */
import { useState } from 'react';
import { type PathStep, type Paths, settingsApart } from '../../../exercise/assessment/path.ts';
import type { Attempt, Exercise } from '../../../exercise/types.ts';
import { type PathLine, pathLines } from '../../../report/path.ts';
import { pathWords as words } from '../../../report/text/path.ts';
import { settingName } from '../../../report/text/settings.ts';
import ui from '../../panels/ui.module.css';
import { ask } from '../../state/job/worker.ts';
import styles from './Paths.module.css';

type State = { is: 'idle' } | { is: 'busy' } | { is: 'failed'; say: string } | { is: 'there'; paths: Paths };

export function PathsBeside({ exercise, attempt }: { exercise: Exercise; attempt: Attempt }) {
  const [state, setState] = useState<State>({ is: 'idle' });
  const work = async (): Promise<void> => {
    setState({ is: 'busy' });
    try {
      const answer = await ask({ type: 'paths', exercise, attempt });
      setState(answer.type === 'paths' ? { is: 'there', paths: answer.paths } : { is: 'failed', say: words.failed });
    } catch (error) {
      setState({ is: 'failed', say: error instanceof Error ? error.message : String(error) });
    }
  };
  return (
    <section className={styles.paths} aria-label={words.head}>
      <h3>{words.head}</h3>
      <p className={ui.note}>{words.note}</p>
      {state.is === 'there' ? (
        <Both paths={state.paths} linesOf={(steps) => pathLines(exercise, attempt.seed, steps)} />
      ) : (
        <button type="button" className={ui.plain} disabled={state.is === 'busy'} onClick={() => void work()}>
          {words.work}
        </button>
      )}
      <p role="status">{state.is === 'busy' ? words.working : state.is === 'failed' ? state.say : ''}</p>
    </section>
  );
}

function Both({ paths, linesOf }: { paths: Paths; linesOf: (steps: readonly PathStep[]) => PathLine[] }) {
  const { learner, expert, partAt } = paths;
  const parts = words.parts(settingsApart(paths).map((key) => settingName[key]));
  return (
    <>
      {!partAt && <p>{words.never}</p>}
      <div className={styles.both}>
        <Path name={words.learner} lines={linesOf(learner)} partAt={partAt?.learner ?? null} parts={parts} />
        <Path name={words.expert} lines={linesOf(expert)} partAt={partAt?.expert ?? null} parts={parts} />
      </div>
    </>
  );
}

interface PathProps {
  name: string;
  lines: readonly PathLine[];
  partAt: number | null;
  /** What is said where the paths part. */
  parts: string;
}

function Path({ name, lines, partAt, parts }: PathProps) {
  const minutes = lines.reduce((sum, line) => sum + (line.minutes ?? 0), 0);
  const priced = lines.some((line) => line.minutes !== null);
  const columns = priced ? 3 : 2;
  return (
    <table className={styles.path} aria-label={name}>
      <caption>
        <b>{name}</b> {priced && words.minutes(minutes)}
      </caption>
      <thead>
        <tr>
          <th scope="col">{words.columns.clock}</th>
          {priced && (
            <th scope="col" className={styles.minutes}>
              {words.columns.minutes}
            </th>
          )}
          <th scope="col">{words.columns.act}</th>
        </tr>
      </thead>
      <tbody>
        {lines.flatMap((line, i) => [
          ...(i === partAt ? [<Part key="part" columns={columns} text={parts} />] : []),
          // biome-ignore lint/suspicious/noArrayIndexKey: acts never change their order
          <tr key={i}>
            <td>{line.clock ?? '–'}</td>
            {priced && <td className={styles.minutes}>{line.minutes ?? ''}</td>}
            <td>{line.text}</td>
          </tr>,
        ])}
        {partAt === lines.length && <Part columns={columns} text={lines.length === 0 ? words.nothing : words.ends} />}
      </tbody>
    </table>
  );
}

/** Shape first: two lines that leave one another. */
function Part({ columns, text }: { columns: number; text: string }) {
  return (
    <tr className={styles.part}>
      <td colSpan={columns}>
        <svg viewBox="0 0 20 20" aria-hidden="true">
          <path d="M10 18v-6L4 3M10 12l6-9" fill="none" stroke="currentColor" strokeWidth="2.5" />
        </svg>
        {text}
      </td>
    </tr>
  );
}
