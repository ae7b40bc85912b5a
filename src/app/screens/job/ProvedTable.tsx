/** What proving runs looked like, and one criterion's line of words. */
import type { Scenario } from '../../../engine/types.ts';
import type { CommissionExercise, CommissionLine, DayFigures } from '../../../exercise/commission/types.ts';
import { commissionWords, dayRows, lineText, provingClock, verdictWord } from '../../../report/text/commission.ts';
import styles from './Commission.module.css';

/** Runs stand side by side: a paper is narrow, and there are few of them. */
export function ProvedTable({ days }: { days: readonly DayFigures[] }) {
  return (
    <table className={styles.days} aria-label={commissionWords.table}>
      <thead>
        <tr>
          <td />
          {days.map((day) => (
            <th key={day.id} scope="col">
              {day.title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {dayRows(days).map(({ name, cells }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {days.map((day, i) => (
              <td key={day.id}>{cells[i]}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface LineProps {
  line: CommissionLine;
  exercise: CommissionExercise;
  scenario: Scenario;
  /** In the result nothing is left to find out. */
  final?: boolean;
}

/** Shape first, then the word: a full, half or empty square. */
const SHAPE = { met: '■', half: '◧', missed: '□', lecturer: '✎' } as const;

export function LineText({ line, exercise, scenario, final = false }: LineProps) {
  const clockOf = provingClock(exercise.commission.days, scenario.start);
  return (
    <p className={styles.line}>
      <b>
        <span aria-hidden="true">{SHAPE[line.verdict]}</span> {verdictWord[line.verdict]}
      </b>{' '}
      {lineText(line, clockOf, final)}
    </p>
  );
}
