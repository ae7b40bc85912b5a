/**
 * A body's silhouette as spans of rows of a channel's map. Parts of the commonest kind (clothing) fill what is still
 * empty, nearest first; the few others wait at each row and are settled by depth in `visible.ts`.
 */
import { asin, PI, sqrt } from '../math.ts';
import { HALF_CHORD, HALF_HEIGHT, MIDDLE_X, MIDDLE_Y, outlined, SLANT, STRIDE } from './silhouette.ts';

/** Numbers of a span in `rows.data`: from, to (px), how far what it stands for lies above the row's middle (px), slot.
 *  Source: these four. */
export const SPAN = 4;
/** Spans of the common kind in one row. Source: sixteen parts of one body leave at most 31 pieces. */
const MOST_SPANS = 31;
/** Numbers of a row: an odd number of cache lines, or rows would drive each other out. */
const ROW = 33 * SPAN + 4;

/** Rows at hand; scratch. Row k is `first` + k of height `rowPx`; its spans begin at k * ROW and are disjoint, in order. */
export const rows = {
  rowPx: 1,
  first: 0,
  count: 0,
  widthPx: 0,
  data: new Float64Array(64 * ROW + 1024 * SPAN),
  /** Where the spans of the common kind of each row end in `data`. */
  ends: new Int32Array(64),
  /** Spans of other kinds are a chain in `data` for each row: first, and next by number; 0 ends it. */
  heads: new Int32Array(64),
  next: new Int32Array(1024),
  others: 0,
  /** Where the chained spans begin in `data`; number n is at othersAt + n * SPAN. */
  othersAt: 64 * ROW,
};

/** Where the spans of row k begin. */
export function rowStart(k: number): number {
  return k * ROW;
}

/** Makes room for `count` rows from row `first` on, with at most `others` spans of other kinds, and empties them. */
export function openRows(rowPx: number, first: number, count: number, widthPx: number, others: number): void {
  rows.rowPx = rowPx;
  rows.first = first;
  rows.count = count;
  rows.widthPx = widthPx;
  if (count > rows.ends.length || others + 1 > rows.next.length) {
    const room = Math.max(2 * count, rows.ends.length);
    const chained = Math.max(2 * others + 2, rows.next.length);
    rows.data = new Float64Array(room * ROW + chained * SPAN);
    rows.ends = new Int32Array(room);
    rows.heads = new Int32Array(room);
    rows.next = new Int32Array(chained);
    rows.othersAt = room * ROW;
  }
  const { ends, heads } = rows;
  for (let k = 0; k < count; k++) {
    ends[k] = k * ROW;
    heads[k] = 0;
  }
  rows.others = 1;
}

const DISC_STEPS = 1024;
/** Area of a unit disc's right half below y, y from -1 to 1, and its moment. Source: closed forms
 *  (y sqrt(1 - y2) + asin y + pi / 2) / 2 and -(1 - y2)^3/2 / 3; read linearly, off by under 1e-4. */
const DISC = new Float64Array(2 * (DISC_STEPS + 2));
for (let i = 0; i < DISC_STEPS + 2; i++) {
  const y = Math.min(1, (2 * i) / DISC_STEPS - 1);
  const x = sqrt(1 - y * y);
  DISC[2 * i] = (y * x + asin(y) + PI / 2) / 2;
  DISC[2 * i + 1] = (-x * x * x) / 3;
}

/** One span to be laid; scratch. */
const span = new Float64Array(SPAN);

/** Fills what is empty between the ends of `span` in row k. */
function fillGaps(k: number): void {
  const { data, ends } = rows;
  const base = k * ROW;
  const b = span[1]!;
  let left = span[0]!;
  let end = ends[k]!;
  let at = base;
  while (at < end && data[at + 1]! <= left) at += SPAN;
  for (;;) {
    const right = at < end && data[at]! < b ? data[at]! : b;
    if (right > left && end < base + MOST_SPANS * SPAN) {
      for (let i = end + SPAN - 1; i >= at + SPAN; i--) data[i] = data[i - SPAN]!;
      data[at] = left;
      data[at + 1] = right;
      data[at + 2] = span[2]!;
      data[at + 3] = span[3]!;
      end += SPAN;
      at += SPAN;
    }
    if (at >= end || data[at + 1]! >= b || right === b) break;
    left = data[at + 1]!;
    at += SPAN;
  }
  ends[k] = end;
}

/**
 * Lays one part into the rows. Each row gets the part's exact share of area, as a span about the middle of what the part
 * covers: the sum over the rows is the ellipse's area however few rows it covers.
 */
export function layPart(slot: number, common: boolean): void {
  const { rowPx, first, count, widthPx, data, ends, heads, next, othersAt } = rows;
  const o = slot * STRIDE;
  const middleY = outlined[o + MIDDLE_Y]!;
  const halfHeight = outlined[o + HALF_HEIGHT]!;
  const middleX = outlined[o + MIDDLE_X]!;
  const slant = outlined[o + SLANT]! * halfHeight;
  const perRow = 1 / rowPx;
  const low = Math.floor((middleY - halfHeight) * perRow);
  const high = Math.floor((middleY + halfHeight) * perRow);
  const j0 = Math.max(low, first);
  const j1 = high >= first + count ? first + count - 1 : high;
  const wide = outlined[o + HALF_CHORD]! * halfHeight * perRow;
  const perHeight = 1 / halfHeight;
  const step = rowPx * perHeight;
  const upTo = middleY - 0.5 * rowPx;
  span[3] = slot;
  let top = (j0 * rowPx - middleY) * perHeight;
  let at = (top > -1 ? top + 1 : 0) * (DISC_STEPS / 2);
  let i = 2 * (at | 0);
  let share = at - (at | 0);
  let below = DISC[i]! + (DISC[i + 2]! - DISC[i]!) * share;
  let belowMoment = DISC[i + 1]! + (DISC[i + 3]! - DISC[i + 1]!) * share;
  for (let j = j0; j <= j1; j++) {
    top += step;
    at = (top < 1 ? top + 1 : 2) * (DISC_STEPS / 2);
    i = 2 * (at | 0);
    share = at - (at | 0);
    const above = DISC[i]! + (DISC[i + 2]! - DISC[i]!) * share;
    const moment = DISC[i + 1]! + (DISC[i + 3]! - DISC[i + 1]!) * share;
    const area = above - below;
    // Between its ends a part fills its row from edge to edge: the middle of what it covers is the row's.
    const raised = j > low && j < high ? top - step / 2 : (moment - belowMoment) / area;
    below = above;
    belowMoment = moment;
    const middle = middleX + slant * raised;
    const half = wide * area;
    const a = Math.max(middle - half, 0);
    const b = Math.min(middle + half, widthPx);
    if (!(b > a)) continue;
    const up = upTo + halfHeight * raised - j * rowPx;
    const k = j - first;
    let n = k * ROW;
    if (!common) {
      n = othersAt + rows.others * SPAN;
      next[rows.others] = heads[k]!;
      heads[k] = rows.others++;
    } else if (ends[k]! > n) {
      if (data[n]! <= a && data[n + 1]! >= b) continue;
      span[0] = a;
      span[1] = b;
      span[2] = up;
      fillGaps(k);
      continue;
    } else {
      ends[k] = n + SPAN;
    }
    data[n] = a;
    data[n + 1] = b;
    data[n + 2] = up;
    data[n + 3] = slot;
  }
}
