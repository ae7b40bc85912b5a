/** Small checks on JSON that somebody wrote. Each names the path in the file and what was expected there. */

export class ShapeError extends Error {
  constructor(
    readonly path: string,
    readonly expectation: string,
  ) {
    super(`${path}: ${expectation}`);
  }
}

export type Json = Record<string, unknown>;

function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

export function refuse(path: string, expected: string, value: unknown): never {
  throw new ShapeError(path, `expected ${expected}, got ${value === undefined ? 'nothing' : shown(value)}`);
}

export function object(value: unknown, path: string): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) refuse(path, 'an object', value);
  return value as Json;
}

/** Every member must be known; `what` names the members in the sentence. */
export function onlyMembers(value: Json, path: string, known: readonly string[], what: string): void {
  for (const key of Object.keys(value)) {
    if (!known.includes(key))
      throw new ShapeError(`${path}.${key}`, `unknown ${what}; expected one of ${known.join(', ')}`);
  }
}

export function array(value: unknown, path: string): unknown[] {
  if (!Array.isArray(value)) refuse(path, 'a list', value);
  return value as unknown[];
}

export function text(value: unknown, path: string): string {
  if (typeof value !== 'string') refuse(path, 'a text', value);
  return value as string;
}

export function truth(value: unknown, path: string): boolean {
  if (typeof value !== 'boolean') refuse(path, 'true or false', value);
  return value as boolean;
}

export function number(value: unknown, path: string, least = 0, most = Number.POSITIVE_INFINITY): number {
  if (typeof value !== 'number' || !Number.isFinite(value) || value < least || value > most) {
    refuse(
      path,
      most === Number.POSITIVE_INFINITY ? `a number >= ${least}` : `a number from ${least} to ${most}`,
      value,
    );
  }
  return value as number;
}

export function integer(value: unknown, path: string, least: number, most: number): number {
  const n = number(value, path, least, most);
  if (!Number.isInteger(n)) refuse(path, `a whole number from ${least} to ${most}`, value);
  return n;
}

/** The value that a written word stands for. */
export function word<T>(value: unknown, path: string, words: ReadonlyMap<string, T>): T {
  const meant = typeof value === 'string' ? words.get(value) : undefined;
  if (meant === undefined) refuse(path, `one of ${[...words.keys()].map((w) => `"${w}"`).join(', ')}`, value);
  return meant as T;
}
