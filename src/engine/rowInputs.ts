/**
 * Reading the inputs of a reference row: a named quantity with named inputs and an expected value from outside.
 * Each folder of the engine answers for its own quantities with its own functions (`rows.ts` there).
 */
export type RowInputs = Readonly<Record<string, unknown>>;
/** Evaluates one row. Throws a RowInputError for an input that is missing or of the wrong kind. */
export type RowFunction = (inputs: RowInputs) => number | Record<string, number>;
export type RowFunctions = Readonly<Record<string, RowFunction>>;

/** An input that the row does not give as expected. `path`: its name, or a JSON path once the runner knows the row. */
export class RowInputError extends Error {
  readonly path: string;
  readonly expectation: string;
  constructor(path: string, expectation: string) {
    super(`${path}: expected ${expectation}`);
    this.path = path;
    this.expectation = expectation;
  }
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

export function numberIn(inputs: RowInputs, key: string): number {
  const value = inputs[key];
  if (!isNumber(value)) throw new RowInputError(key, 'a number');
  return value;
}

export function textIn(inputs: RowInputs, key: string): string {
  const value = inputs[key];
  if (typeof value !== 'string') throw new RowInputError(key, 'a text');
  return value;
}

/** One of the given words. */
export function wordIn<const W extends string>(inputs: RowInputs, key: string, words: readonly W[]): W {
  const value = textIn(inputs, key);
  const word = words.find((w) => w === value);
  if (word === undefined) throw new RowInputError(key, `one of ${words.join(', ')}`);
  return word;
}

export function booleanIn(inputs: RowInputs, key: string): boolean {
  const value = inputs[key];
  if (typeof value !== 'boolean') throw new RowInputError(key, 'true or false');
  return value;
}

/** A list of numbers, of this length if one is given. */
export function numbersIn(inputs: RowInputs, key: string, length?: number): number[] {
  const value = inputs[key];
  const fits = Array.isArray(value) && value.every(isNumber) && (length === undefined || value.length === length);
  if (!fits) throw new RowInputError(key, length === undefined ? 'a list of numbers' : `a list of ${length} numbers`);
  return value;
}
