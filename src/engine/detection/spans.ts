/**
 * A body's silhouette as spans of rows of a channel's map. Parts of the commonest kind (clothing) fill what is still
 * empty, nearest first; the few others wait at each row and are settled by depth in `visible.ts`.
 */
import { asin, PI, sqrt } from '../math.ts';
import {
  HALF_CHORD,
  HALF_HEIGHT,
  MIDDLE_X,
  MIDDLE_Y,
  MOST_PARTS,
  outlined,
  SLANT,
  STRIDE,
} from './silhouette.ts';

/** Spans of the common kind in one row. Source: sixteen parts of one body leave at most 31 pieces. */
export const MOST_SPANS = 32;

/** Rows at hand; scratch. Spans are in pixels of the map, row k is `first` + k of height `rowPx`. */
export const rows = {
  rowPx: 1,
  first: 0,
  count: 0,
  widthPx: 0,
  /** Spans of the common kind: [k * MOST_SPANS + n], disjoint, in order. */
  spans: new Uint8Array(64),
  from: new Float64Array(64 * MOST_SPANS),
  to: new Float64Array(64 * MOST_SPANS),
  slot: new Int32Array(64 * MOST_SPANS),
  /** Spans of all other kinds: [k * MOST_PARTS + n], as they lie. */
  others: new Uint16Array(64),
  otherFrom: new Float64Array(64 * MOST_PARTS),
  otherTo: new Float64Array(64 * MOST_PARTS),
  otherSlot: new Int32Array(64 * MOST_PARTS),
};

/** Makes room for `count` rows from row `first` on and empties them. */
export function openRows(rowPx: number, first: number, count: number, widthPx: number): void {
  rows.rowPx = rowPx;
  rows.first = first;
  rows.count = count;
  rows.widthPx = widthPx;
  if (count > rows.spans.length) {
    const room = 2 * count;
    rows.spans = new Uint8Array(room);
    rows.from = new Float64Array(room * MOST_SPANS);
    rows.to = new Float64Array(room * MOST_SPANS);
    rows.slot = new Int32Array(room * MOST_SPANS);
    rows.others = new Uint16Array(room);
    rows.otherFrom = new Float64Array(room * MOST_PARTS);
    rows.otherTo = new Float64Array(room * MOST_PARTS);
    rows.otherSlot = new Int32Array(room * MOST_PARTS);
  }
  rows.spans.fill(0, 0, count);
  rows.others.fill(0, 0, count);
}

const DISC_STEPS = 1024;
/** Area of a unit disc's right half below y, y from -1 to 1. Source: closed form (y sqrt(1 - y2) + asin y + pi / 2) / 2;
 *  read linearly, off by under 1e-4. */
const DISC = Float64Array.from({ length: DISC_STEPS + 2 }, (_, i) => {
  const y = Math.min(1, (2 * i) / DISC_STEPS - 1);
  return (y * sqrt(1 - y * y) + asin(y) + PI / 2) / 2;
});

/** Fills what is empty between `a` and `b` in row k with slot `slot`. */
function fillGaps(k: number, a: number, b: number, slot: number): void {
  const { from, to, slot: slots, spans } = rows;
  const base = k * MOST_SPANS;
  let end = base + spans[k]!;
  let at = base;
  let left = a;
  while (at < end && to[at]! <= left) at++;
  for (;;) {
    const right = at < end && from[at]! < b ? from[at]! : b;
    if (right > left && end < base + MOST_SPANS) {
      for (let i = end; i > at; i--) {
        from[i] = from[i - 1]!;
        to[i] = to[i - 1]!;
        slots[i] = slots[i - 1]!;
      }
      from[at] = left;
      to[at] = right;
      slots[at] = slot;
      end++;
      at++;
    }
    if (at >= end || to[at]! >= b || right === b) break;
    left = to[at]!;
    at++;
  }
  spans[k] = end - base;
}

/**
 * Lays one part into the rows. Each row gets the part's exact share of area, as a span about the middle of its chord:
 * the sum over the rows is the ellipse's area however few rows it covers.
 */
export function layPart(slot: number, common: boolean): void {
  const { rowPx, first, count, widthPx, spans, from, to, slot: slots, others, otherFrom, otherTo, otherSlot } = rows;
  const o = slot * STRIDE;
  const middleY = outlined[o + MIDDLE_Y]!;
  const halfHeight = outlined[o + HALF_HEIGHT]!;
  const middleX = outlined[o + MIDDLE_X]!;
  const low = Math.floor((middleY - halfHeight) / rowPx);
  const high = Math.floor((middleY + halfHeight) / rowPx);
  const j0 = low < first ? first : low;
  const j1 = high >= first + count ? first + count - 1 : high;
  const wide = (outlined[o + HALF_CHORD]! * halfHeight) / rowPx;
  const lean = (outlined[o + SLANT]! * halfHeight) / 2;
  const step = rowPx / halfHeight;
  let y = (j0 * rowPx - middleY) / halfHeight;
  if (y < -1) y = -1;
  const at0 = (y + 1) * (DISC_STEPS / 2);
  const i0 = at0 | 0;
  let below = DISC[i0]! + (DISC[i0 + 1]! - DISC[i0]!) * (at0 - i0);
  let top = ((j0 + 1) * rowPx - middleY) / halfHeight;
  for (let j = j0; j <= j1; j++) {
    const upper = top < 1 ? top : 1;
    const at = (upper + 1) * (DISC_STEPS / 2);
    const i = at | 0;
    const above = DISC[i]! + (DISC[i + 1]! - DISC[i]!) * (at - i);
    const half = wide * (above - below);
    const middle = middleX + lean * (y + upper);
    below = above;
    y = upper;
    top += step;
    let a = middle - half;
    let b = middle + half;
    if (a < 0) a = 0;
    if (b > widthPx) b = widthPx;
    if (!(b > a)) continue;
    const k = j - first;
    if (!common) {
      const n = k * MOST_PARTS + others[k]!;
      otherFrom[n] = a;
      otherTo[n] = b;
      otherSlot[n] = slot;
      others[k]!++;
    } else if (spans[k] === 0) {
      const n = k * MOST_SPANS;
      from[n] = a;
      to[n] = b;
      slots[n] = slot;
      spans[k] = 1;
    } else {
      fillGaps(k, a, b, slot);
    }
  }
}
