/** `physics FILE`: evaluates rows of reference quantities with the engine's own functions. */
import { type RowFunctions, RowInputError } from '../engine/rowInputs.ts';
import { readText } from './files.ts';
import { type PhysicsRow, readPhysicsRows } from './physicsFile.ts';
import { PHYSICS_ROWS, UNUSED_QUANTITIES } from './physicsRows.ts';

export interface PhysicsReport {
  passed: number;
  /** One line for each row that failed. */
  failures: string[];
  /** Rows of quantities that nothing needs, counted by quantity in order of appearance. */
  unused: { quantity: string; rows: number; reason: string }[];
}

/** Distance that the tolerance is compared with; bearings wrap round. */
function distance(key: string | null, got: number, expected: number): number {
  const apart = Math.abs(got - expected);
  if (key !== 'azimuth_deg') return apart;
  const turned = apart % 360;
  return Math.min(turned, 360 - turned);
}

function limitOf(row: PhysicsRow, key: string | null, expected: number): number {
  if ('rel' in row.tolerance) return row.tolerance.rel * Math.abs(expected);
  const { abs } = row.tolerance;
  return typeof abs === 'number' ? abs : abs[key ?? '']!;
}

/** Lines about what does not fit; empty when the row passes. A result that is no number never passes. */
export function mismatches(row: PhysicsRow, got: number | Record<string, number>): string[] {
  const single = typeof row.expected === 'number';
  const wanted: [string | null, number][] = single
    ? [[null, row.expected as number]]
    : Object.entries(row.expected as Record<string, number>);
  return wanted.flatMap(([key, expected]) => {
    const value = key === null ? got : typeof got === 'number' ? undefined : got[key];
    const limit = limitOf(row, key, expected);
    if (typeof value === 'number' && distance(key, value, expected) <= limit) return [];
    const name = key === null ? '' : ` ${key}`;
    return [`${row.id} (${row.quantity}):${name} got ${value}, expected ${expected} ± ${limit}`];
  });
}

/** Runs every row. Throws a RowInputError whose path starts at the file's top when a row's inputs are unusable. */
export function evaluateRows(
  rows: readonly PhysicsRow[],
  functions: RowFunctions = PHYSICS_ROWS,
  unusedQuantities: Readonly<Record<string, string>> = UNUSED_QUANTITIES,
): PhysicsReport {
  const report: PhysicsReport = { passed: 0, failures: [], unused: [] };
  rows.forEach((row, i) => {
    if (Object.hasOwn(functions, row.quantity)) {
      const faults = mismatches(row, evaluate(functions, row, i));
      if (faults.length === 0) report.passed++;
      else report.failures.push(faults.join('; '));
    } else if (Object.hasOwn(unusedQuantities, row.quantity)) {
      const known = report.unused.find((u) => u.quantity === row.quantity);
      if (known) known.rows++;
      else report.unused.push({ quantity: row.quantity, rows: 1, reason: unusedQuantities[row.quantity]! });
    } else {
      report.failures.push(`${row.id}: no such quantity: ${row.quantity}`);
    }
  });
  return report;
}

function evaluate(functions: RowFunctions, row: PhysicsRow, index: number): number | Record<string, number> {
  try {
    return functions[row.quantity]!(row.inputs);
  } catch (error) {
    if (error instanceof RowInputError) throw new RowInputError(`$[${index}].inputs.${error.path}`, error.expectation);
    if (error instanceof RangeError) throw new RowInputError(`$[${index}].inputs`, `usable values (${error.message})`);
    throw error;
  }
}

/** Prints the report; 0 when every row passed, 1 when one failed or the file is bad. */
export function physics(args: string[]): number {
  const [path, ...rest] = args;
  if (path === undefined || rest.length > 0) {
    console.error('physics: expected one file of reference rows: npm run sim -- physics FILE');
    return 1;
  }
  const file = readText(path);
  const parsed = file.ok ? readPhysicsRows(file.text, path) : file;
  if (!parsed.ok) {
    console.error(parsed.sentence);
    return 1;
  }
  let report: PhysicsReport;
  try {
    report = evaluateRows(parsed.rows);
  } catch (error) {
    if (!(error instanceof RowInputError)) throw error;
    console.error(`${path}: ${error.path}: expected ${error.expectation}.`);
    return 1;
  }
  for (const { quantity, rows, reason } of report.unused) {
    console.log(`not counted: ${quantity} (${rows} ${rows === 1 ? 'row' : 'rows'}): ${reason}`);
  }
  for (const line of report.failures) console.log(`FAILED ${line}`);
  console.log(`${report.passed} passed, ${report.failures.length} failed`);
  return report.failures.length === 0 ? 0 : 1;
}
