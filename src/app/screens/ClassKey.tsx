/** What the rooms of a class do, bench by bench: for the lecturer alone, worked out when asked for. */
import { useState } from 'react';
import type { OutputId } from '../../engine/types.ts';
import { benchSeed, type ClassPlan } from '../../exercise/classCode.ts';
import { candidateOf, trueCard } from '../../exercise/diagnose/cards.ts';
import { benchScenario } from '../../exercise/edits.ts';
import type { Exercise, Keyed } from '../../exercise/types.ts';
import { classWords } from '../../report/text/class.ts';
import { clockAt } from '../../report/text/format.ts';
import { jobWords } from '../../report/text/jobs.ts';
import { outputName } from '../../report/text/names.ts';
import { observeWords } from '../../report/text/observe.ts';
import { walksWords } from '../../report/text/walks.ts';
import ui from '../panels/ui.module.css';
import { keyOf } from '../state/classTray.ts';
import styles from './ClassPage.module.css';

/** Benches of a key. Assumed: a workshop of twelve. */
const BENCHES = 12;

interface KeyLine {
  /** Title, bench and room number. */
  of: string;
  text: string;
}

async function edgesText(exercise: Keyed, seed: number): Promise<string> {
  if (exercise.kind === 'observe' && exercise.observe.task === 'ratios') return observeWords.keyIsReadings;
  if (exercise.kind === 'observe' && exercise.observe.task === 'walks') return walksWords.key;
  const { start } = benchScenario(exercise, seed);
  const edges = await keyOf(exercise, seed);
  const outputs = Object.keys(edges) as OutputId[];
  return outputs
    .map((output) => {
      const list = (edges[output] ?? []).map(({ on, atS }) => jobWords.edge(on, clockAt(Math.round(atS * 10), start)));
      return `${outputName[output]}: ${list.join(', ') || classWords.stays}`;
    })
    .join('; ');
}

async function lineOf(exercise: Exercise, seed: number, bench: number | null): Promise<KeyLine> {
  return { of: classWords.keyOf(exercise.title, bench, seed), text: await keyText(exercise, seed) };
}

/** What a lecturer wants to know of a bench. A set-up is found by proving it, so there only its task is told. */
async function keyText(exercise: Exercise, seed: number): Promise<string> {
  if (exercise.kind === 'predict' || exercise.kind === 'observe') return await edgesText(exercise, seed);
  if (exercise.kind === 'diagnose') return candidateOf(exercise, trueCard(exercise, seed)).card.title;
  return exercise.commission.asked.map(({ what, value }) => `${what}: ${value}`).join('; ');
}

export function ClassKey({ plan, exercises }: { plan: ClassPlan; exercises: ReadonlyMap<number, Exercise[]> }) {
  const [lines, setLines] = useState<KeyLine[]>([]);
  const [busy, setBusy] = useState<{ done: number; of: number } | null>(null);
  const work = async (): Promise<void> => {
    const jobs = plan.jobs.flatMap((job) => exercises.get(job) ?? []);
    const benches = plan.separate ? Array.from({ length: BENCHES }, (_, i) => i + 1) : [1];
    const of = jobs.length * benches.length;
    const done: KeyLine[] = [];
    for (const exercise of jobs) {
      for (const bench of benches) {
        setBusy({ done: done.length, of });
        done.push(await lineOf(exercise, benchSeed(plan, bench), plan.separate ? bench : null));
        setLines([...done]);
      }
    }
    setBusy(null);
  };
  return (
    <div>
      <div className={ui.row}>
        <button type="button" className={ui.plain} disabled={busy !== null} onClick={() => void work()}>
          {classWords.makeKey(plan.separate ? BENCHES : 1)}
        </button>
        {busy && <p role="status">{classWords.keyBusy(busy.done, busy.of)}</p>}
        {lines.length > 0 && !busy && (
          <button type="button" className={ui.word} onClick={() => print()}>
            <span>{classWords.print}</span>
          </button>
        )}
      </div>
      {lines.length > 0 && (
        <>
          <p className={ui.note}>{classWords.keyNote}</p>
          <table className={styles.table} aria-label={classWords.key}>
            <tbody>
              {lines.map(({ of, text }) => (
                <tr key={of}>
                  <th scope="row">{of}</th>
                  <td>{text}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </div>
  );
}
