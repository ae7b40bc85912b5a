/** Reading a file of reference rows; the first thing that is wrong becomes one sentence. */
import type { RowInputs } from '../engine/rowInputs.ts';

export type Expected = number | Readonly<Record<string, number>>;
export type Tolerance = { abs: Expected } | { rel: number };

export interface PhysicsRow {
  id: string;
  quantity: string;
  inputs: RowInputs;
  expected: Expected;
  tolerance: Tolerance;
}

export type PhysicsFile = { ok: true; rows: PhysicsRow[] } | { ok: false; sentence: string };

const ROW_KEYS = ['id', 'quantity', 'inputs', 'expected', 'tolerance', 'source', 'kind'];

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function isExpected(value: unknown): value is Expected {
  return isNumber(value) || (isObject(value) && Object.keys(value).length > 0 && Object.values(value).every(isNumber));
}

/** What is wrong with `tolerance`, as path and expectation; null when it is right. */
function toleranceFault(tolerance: unknown, expected: Expected): [path: string, expectation: string] | null {
  if (!isObject(tolerance) || Object.keys(tolerance).length !== 1 || !('abs' in tolerance || 'rel' in tolerance)) {
    return ['.tolerance', 'either {"abs": …} or {"rel": …}'];
  }
  if ('rel' in tolerance) {
    return isNumber(tolerance.rel) && tolerance.rel >= 0 ? null : ['.tolerance.rel', 'a number, 0 or larger'];
  }
  const { abs } = tolerance;
  if (isNumber(abs)) return abs >= 0 ? null : ['.tolerance.abs', 'a number, 0 or larger'];
  if (typeof expected === 'number' || !isObject(abs)) return ['.tolerance.abs', 'a number'];
  const missing = Object.keys(expected).find((key) => !isNumber(abs[key]) || abs[key] < 0);
  return missing === undefined ? null : [`.tolerance.abs.${missing}`, 'a number, 0 or larger'];
}

/** What is wrong with a row, as path inside it and expectation; null when it is right. */
function rowFault(row: unknown, seen: Set<string>): [path: string, expectation: string] | null {
  if (!isObject(row)) return ['', 'an object'];
  const unknownKey = Object.keys(row).find((key) => !ROW_KEYS.includes(key));
  if (unknownKey !== undefined) return [`.${unknownKey}`, `no such key; a row has ${ROW_KEYS.join(', ')}`];
  if (typeof row.id !== 'string' || row.id === '') return ['.id', 'a text'];
  if (seen.has(row.id)) return ['.id', `an id of its own, but "${row.id}" is taken by a row before`];
  if (typeof row.quantity !== 'string' || row.quantity === '') return ['.quantity', 'the name of a quantity'];
  if (!isObject(row.inputs)) return ['.inputs', 'an object of named inputs'];
  if (!isExpected(row.expected)) return ['.expected', 'a number or an object of numbers'];
  const fault = toleranceFault(row.tolerance, row.expected);
  if (fault) return fault;
  const notText = (['source', 'kind'] as const).find((key) => key in row && typeof row[key] !== 'string');
  return notText === undefined ? null : [`.${notText}`, 'a text'];
}

/** `name` is how the sentence calls the file. Paths are JSON paths from the top, `$`. */
export function readPhysicsRows(text: string, name: string): PhysicsFile {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    return { ok: false, sentence: `${name}: $: expected JSON, but ${(error as Error).message}.` };
  }
  if (!Array.isArray(data)) return { ok: false, sentence: `${name}: $: expected a list of rows.` };
  const seen = new Set<string>();
  for (const [i, row] of data.entries()) {
    const fault = rowFault(row, seen);
    if (fault) return { ok: false, sentence: `${name}: $[${i}]${fault[0]}: expected ${fault[1]}.` };
    seen.add(row.id);
  }
  return { ok: true, rows: data };
}
