/** The class criterion by criterion: every bench finds its column, every verdict is counted, sheets count like marks. */
import { expect, it } from 'vitest';
import { NO_ASSESSMENT, withNote } from '../../../src/exercise/assessment/assessment.ts';
import { matricesOf } from '../../../src/exercise/assessment/matrix.ts';
import { type Graded, gradedOf } from '../../../src/exercise/classTable.ts';
import type { Attempt, Mark, MarkLine } from '../../../src/exercise/types.ts';

/** A prediction in which each letter is a switching: capital foreseen, small not; I and i inner row, A and a air contact. */
function bench(file: string, switchings: string, exercise = 'x'): Graded {
  const attempt: Attempt = {
    format: 1,
    exercise,
    seed: 1,
    engine: '1',
    names: [file],
    aid: 'test',
    inputs: [],
    headTick: 1,
    digests: [],
    answers: {},
  };
  const of = 100 / switchings.length;
  const lines = [...switchings].map((letter, i): MarkLine => {
    const output = letter.toUpperCase() === 'I' ? 'innerRow' : 'airContact';
    const known = letter === letter.toUpperCase();
    const say = { output, on: true, trueS: i, cause: 'seen' } as const;
    return {
      points: known ? of : 0,
      of,
      atS: i,
      say: known ? { code: 'edgeRight', ...say, saidS: i } : { code: 'edgeWrong', ...say, saidS: null },
    };
  });
  const total = lines.reduce((sum, { points }) => sum + points, 0);
  const mark: Mark = {
    exercise,
    seed: 1,
    names: [file],
    parts: [{ id: 'prediction', points: total, of: 100, lines }],
    total,
    pass: total >= 70,
    signatures: [],
    skills: {},
    firstMismatchTick: null,
  };
  return gradedOf(file, attempt, mark);
}

const ids = (matrix: ReturnType<typeof matricesOf>[number]): string[] =>
  matrix.columns.map(({ example }) => example.id);

it('has a table for each exercise, and a column for whatever any bench of it has', () => {
  const [x, y] = matricesOf([bench('a', 'IA'), bench('b', 'I', 'y'), bench('c', 'iIAa')], new Map());
  expect(ids(x!)).toEqual(['air-contact-1', 'air-contact-2', 'inner-row-1', 'inner-row-2', 'nothing-else']);
  expect(ids(y!)).toEqual(['inner-row-1', 'nothing-else']);
  const [a, c] = x!.rows;
  expect(a!.cells.map((cell) => cell?.verdict ?? null)).toEqual(['met', null, 'met', null, 'met']);
  expect(c!.cells.map((cell) => cell?.verdict ?? null)).toEqual(['met', 'missed', 'missed', 'met', 'met']);
  expect(x!.columns.map(({ counts }) => [counts.met, counts.missed])).toEqual([
    [2, 0],
    [0, 1],
    [1, 1],
    [1, 0],
    [2, 0],
  ]);
});

it("counts an assessor's verdict in place of the computed one", () => {
  const one = bench('a', 'Ia');
  const ruling = { verdict: 'half' as const, points: 25, reason: 'Said aloud before the run.' };
  const sheet = withNote(NO_ASSESSMENT, { criterion: 'air-contact-1', code: '', comment: '', ruling });
  const [computed] = matricesOf([one], new Map());
  const [given] = matricesOf([one], new Map([[one.seal, sheet]]));
  expect(computed!.columns[0]!.counts).toMatchObject({ missed: 1, half: 0 });
  expect(given!.columns[0]!.counts).toMatchObject({ missed: 0, half: 1 });
  expect(given!.rows[0]!.cells[0]).toMatchObject({ ruled: true, computed: { verdict: 'missed' } });
});
