/** The vendored reference rows (published, derived and rule-of-thumb values; each row names its source). */
import { describe, expect, it } from 'vitest';
import { evaluateRows } from '../../src/cli/physics.ts';
import type { PhysicsRow } from '../../src/cli/physicsFile.ts';
import { readPhysicsRows } from '../../src/cli/physicsFile.ts';
import { PHYSICS_ROWS, ROW_SOURCES, UNUSED_QUANTITIES } from '../../src/cli/physicsRows.ts';
import { textOf } from '../house/files.ts';

const FILE = 'tests/reference/physics.json';
const ROWS = 399;

function vendoredRows(): PhysicsRow[] {
  const file = readPhysicsRows(textOf(FILE), FILE);
  if (!file.ok) throw new Error(file.sentence);
  return file.rows;
}

describe('reference rows', () => {
  const rows = vendoredRows();
  const quantities = [...new Set(rows.map((row) => row.quantity))];

  for (const quantity of quantities.filter((q) => !Object.hasOwn(UNUSED_QUANTITIES, q))) {
    it(`${quantity} meets every row`, () => {
      const own = rows.filter((row) => row.quantity === quantity);
      const report = evaluateRows(own);
      expect(report.failures).toEqual([]);
      expect(report.passed).toBe(own.length);
    });
  }

  it('are all there, and every one is answered or named with a reason', () => {
    expect(rows).toHaveLength(ROWS);
    expect(quantities.filter((q) => !(q in PHYSICS_ROWS) && !(q in UNUSED_QUANTITIES))).toEqual([]);
    // A reason for a quantity that is answered, or that no row asks for, is out of date.
    expect(Object.keys(UNUSED_QUANTITIES).filter((q) => q in PHYSICS_ROWS || !quantities.includes(q))).toEqual([]);
    expect(Object.values(UNUSED_QUANTITIES).filter((reason) => reason.length < 20)).toEqual([]);
  });

  it('are answered by one folder each, and no function stands without a row', () => {
    const answered = ROW_SOURCES.flatMap((source) => Object.keys(source));
    expect(answered.filter((q, i) => answered.indexOf(q) !== i)).toEqual([]);
    expect(answered.filter((q) => !quantities.includes(q))).toEqual([]);
  });
});
