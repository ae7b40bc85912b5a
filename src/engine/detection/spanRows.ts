/**
 * Where spans are kept while one body is weighed in one channel; scratch, filled by `spans.ts`, read by `visible.ts`.
 * Arrays of a fixed size that every module holds under a name of its own: the host then knows where they lie and how long
 * they are, which an array out of a field, or under an imported name, must be asked for at every number.
 */

/** Rows of one body. Assumed: more than any map has: 278 as sensing uses it, three times that where tests look closer. */
export const MOST_ROWS = 2048;
/** Spans of one body, and two for each row where its chains begin. Source: 278 rows of 225 are 63,000 where twelve bodies
 *  stand in a line; memory that is never touched is never taken. */
const MOST_SPANS = 1 << 17;

/** Rows at hand: row k is `first` + k of height `rowPx`. */
export const rows = {
  rowPx: 1,
  first: 0,
  count: 0,
  widthPx: 0,
  /** The next span's number. */
  free: 0,
};

/**
 * Spans by number. Those of row k are two chains in `next`, 0 ends them: at next[k] begins the common kind, disjoint, from
 * left to right, at next[count + k] the others.
 */
export const spans = {
  fromPx: new Float64Array(MOST_SPANS),
  toPx: new Float64Array(MOST_SPANS),
  /** How far what it stands for lies above the row's middle, px. */
  upPx: new Float64Array(MOST_SPANS),
  slot: new Int32Array(MOST_SPANS),
  next: new Int32Array(MOST_SPANS),
};

/** Empties `count` rows from row `first` on; `most`: spans that may come into one row. */
export function openRows(rowPx: number, first: number, count: number, widthPx: number, most: number): void {
  if (count > MOST_ROWS || count * (most + 2) > MOST_SPANS) throw new RangeError(`${count} rows of ${most} spans`);
  rows.rowPx = rowPx;
  rows.first = first;
  rows.count = count;
  rows.widthPx = widthPx;
  rows.free = 2 * count;
  spans.next.fill(0, 0, 2 * count);
}
