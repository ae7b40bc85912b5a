/** A class criterion by criterion: learners in rows, one table for each exercise, with what became of every column. */

import type { Graded } from '../classTable.ts';
import type { Verdict } from '../commission/types.ts';
import { type AssessedCriterion, type Assessment, assessed, NO_ASSESSMENT } from './assessment.ts';

export interface MatrixRow {
  one: Graded;
  /** By column; null: this bench has no such criterion. */
  cells: (AssessedCriterion | null)[];
}

export interface MatrixColumn {
  /** The criterion as one of the benches has it. */
  example: AssessedCriterion['computed'];
  /** How many learners have each verdict. */
  counts: Record<Verdict, number>;
}

export interface Matrix {
  exercise: string;
  columns: MatrixColumn[];
  rows: MatrixRow[];
}

/** Columns stand in the order of the first bench that has them; what other benches have more of is put behind its kind. */
function columnIds(marks: readonly AssessedCriterion[][]): string[] {
  const ids: string[] = [];
  for (const criteria of marks) {
    let at = 0;
    for (const { computed } of criteria) {
      const known = ids.indexOf(computed.id);
      if (known === -1) ids.splice(at, 0, computed.id);
      at = (known === -1 ? at : known) + 1;
    }
  }
  return ids;
}

function countsOf(cells: readonly (AssessedCriterion | null)[]): MatrixColumn['counts'] {
  const counts = { met: 0, half: 0, missed: 0, lecturer: 0 };
  for (const cell of cells) if (cell) counts[cell.verdict]++;
  return counts;
}

/** `sheets`: assessor's sheets by the seal of their attempt; their verdicts stand in place of the computed ones. */
export function matricesOf(graded: readonly Graded[], sheets: ReadonlyMap<string, Assessment>): Matrix[] {
  const exercises = [...new Set(graded.map(({ mark }) => mark.exercise))];
  return exercises.map((exercise) => {
    const own = graded.filter(({ mark }) => mark.exercise === exercise);
    const marks = own.map(({ mark, seal }) => assessed(mark, sheets.get(seal) ?? NO_ASSESSMENT).criteria);
    const ids = columnIds(marks);
    const rows = own.map((one, i) => ({
      one,
      cells: ids.map((id) => marks[i]!.find(({ computed }) => computed.id === id) ?? null),
    }));
    const columns = ids.map((_, j): MatrixColumn => {
      const cells = rows.map(({ cells }) => cells[j]!);
      return { example: cells.find((cell) => cell !== null)!.computed, counts: countsOf(cells) };
    });
    return { exercise, columns, rows };
  });
}
