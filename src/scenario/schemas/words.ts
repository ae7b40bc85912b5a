/**
 * Building blocks of the file schemas. Every block carries, as its error text, a noun phrase that says what was
 * expected; `sentences.ts` puts file, path and the value found around it.
 */
import * as z from 'zod/mini';

/** A number with both ends included. `unit` is a word for the reader ('m', 'degrees', 'lx'). */
export function between(min: number, max: number, unit: string) {
  const error = `a number from ${min} to ${max}${unit === '' ? '' : ` ${unit}`}`;
  return z.number({ error }).check(z.gte(min, { error }), z.lte(max, { error }));
}

export function wholeBetween(min: number, max: number) {
  const error = `a whole number from ${min} to ${max}`;
  return z.number({ error }).check(z.multipleOf(1, { error }), z.gte(min, { error }), z.lte(max, { error }));
}

export function text(minLength: number, maxLength: number) {
  const error = `text of ${minLength} to ${maxLength} characters`;
  return z.string({ error }).check(z.minLength(minLength, { error }), z.maxLength(maxLength, { error }));
}

export function matching(pattern: RegExp, expected: string) {
  return z.string({ error: expected }).check(z.regex(pattern, { error: expected }));
}

/** Small letters, digits and hyphens: ids of files, furniture, windows. */
export function slug() {
  return matching(/^[a-z0-9][a-z0-9-]{0,39}$/, 'an id of small letters, digits and hyphens');
}

export function oneOf<const T extends readonly [string, ...string[]]>(values: T) {
  return z.enum(values, { error: `one of ${values.join(', ')}` });
}

export function yesNo() {
  return z.boolean({ error: 'true or false' });
}

export function orNull<T extends z.ZodMiniType>(schema: T, meaning: string) {
  return z.union([schema, z.null()], { error: `${meaning}, or null` });
}

export function list<T extends z.ZodMiniType>(item: T, what: string, max: number, min = 0) {
  const error = min === 0 ? `a list of at most ${max} ${what}` : `a list of ${min} to ${max} ${what}`;
  return z.array(item, { error }).check(z.minLength(min, { error }), z.maxLength(max, { error }));
}

/** [x, y] in room metres; that it lies inside the room is a cross-check, not a matter of shape. */
export function point() {
  const coordinate = between(-100, 100, 'm');
  return z.tuple([coordinate, coordinate], { error: 'a point [x, y] in metres' });
}

/** An object in which unknown keys are errors. */
export function shape<T extends z.core.$ZodLooseShape>(keys: T, what: string) {
  const known = Object.keys(keys).join(', ');
  return z.strictObject(keys, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? `one of ${known}` : what),
  });
}

export const optional = z.exactOptional;

/** Newest file format this program reads. Source: our own; raised when a key changes its meaning. */
export const FORMAT = 1;

export function format() {
  return z.literal(FORMAT, { error: `${FORMAT}` });
}

/** Editors put a `$schema` address into JSON files to complete them; it is allowed and ignored. */
export function schemaAddress() {
  return optional(z.string({ error: 'the address of a JSON Schema' }));
}
