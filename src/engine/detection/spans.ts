/**
 * A body's silhouette as spans of rows of a channel's map. Parts of the commonest kind (clothing) fill what is still
 * empty, nearest first; the few others wait at each row and are settled by depth in `visible.ts`.
 */
import { asin, PI, sqrt } from '../math.ts';
import { outlines } from './silhouette.ts';
import { MOST_ROWS, rows, spans } from './spanRows.ts';

const { middleX, middleY, halfHeight, halfChord, slant } = outlines;
const { fromPx, toPx, upPx, slot: slotOf, next } = spans;

const DISC_STEPS = 1024;
/** Area of a unit disc's right half below y, y from -1 to 1, and its moment. Source: closed forms
 *  (y sqrt(1 - y2) + asin y + pi / 2) / 2 and -(1 - y2)^3/2 / 3; read linearly, off by under 1e-4. */
const AREA = new Float64Array(DISC_STEPS + 2);
const MOMENT = new Float64Array(DISC_STEPS + 2);
for (let i = 0; i < DISC_STEPS + 2; i++) {
  const y = Math.min(1, (2 * i) / DISC_STEPS - 1);
  const x = sqrt(1 - y * y);
  AREA[i] = (y * x + asin(y) + PI / 2) / 2;
  MOMENT[i] = (-x * x * x) / 3;
}

/** Area below a place, in steps of the table. */
function areaAt(at: number): number {
  const i = at | 0;
  return AREA[i]! + (AREA[i + 1]! - AREA[i]!) * (at - i);
}

/** Moment below it. */
function momentAt(at: number): number {
  const i = at | 0;
  return MOMENT[i]! + (MOMENT[i + 1]! - MOMENT[i]!) * (at - i);
}

/** Of one part, by row from its first on: ends of the span and how far the part lies above the row's middle, px; scratch. */
const drawnFrom = new Float64Array(MOST_ROWS);
const drawnTo = new Float64Array(MOST_ROWS);
const drawnUp = new Float64Array(MOST_ROWS);

/**
 * Draws rows j0 to j1 of the part in a slot, which covers rows `low` to `high` or more. Each row gets the part's exact share
 * of area, as a span about the middle of what the part covers: the sum over the rows is the ellipse's area however few
 * rows it covers.
 */
function drawRows(slot: number, low: number, high: number, j0: number, j1: number): void {
  const { rowPx, widthPx } = rows;
  const middle = middleY[slot]!;
  const half = halfHeight[slot]!;
  const centre = middleX[slot]!;
  const lean = slant[slot]! * half;
  const wide = halfChord[slot]! * half * (1 / rowPx);
  const perHeight = 1 / half;
  const step = rowPx * perHeight;
  const halfStep = step / 2;
  const upTo = middle - 0.5 * rowPx;
  let top = (j0 * rowPx - middle) * perHeight;
  let at = (top > -1 ? top + 1 : 0) * (DISC_STEPS / 2);
  let below = areaAt(at);
  for (let j = j0; j <= j1; j++) {
    const bottom = at;
    top += step;
    at = (top < 1 ? top + 1 : 2) * (DISC_STEPS / 2);
    const above = areaAt(at);
    const area = above - below;
    below = above;
    // Between its ends a part fills its row from edge to edge: the middle of what it covers is the row's.
    const raised = j > low && j < high ? top - halfStep : (momentAt(at) - momentAt(bottom)) / area;
    const a = centre + lean * raised - wide * area;
    const b = centre + lean * raised + wide * area;
    drawnFrom[j - j0] = Math.max(a, 0);
    drawnTo[j - j0] = Math.min(b, widthPx);
    drawnUp[j - j0] = upTo + half * raised - j * rowPx;
  }
}

/** Puts a span before span or row `after` of a chain; returns its number. */
function insert(before: number, after: number, slot: number, from: number, to: number, up: number): number {
  const n = rows.free;
  rows.free = n + 1;
  fromPx[n] = from;
  toPx[n] = to;
  upPx[n] = up;
  slotOf[n] = slot;
  next[before] = n;
  next[n] = after;
  return n;
}

/** Fills what is empty in row k over row number `at` of what is drawn. */
function fillGaps(k: number, at: number, slot: number): void {
  const b = drawnTo[at]!;
  let left = drawnFrom[at]!;
  let before = k;
  let after = next[k]!;
  while (after !== 0 && toPx[after]! <= left) {
    before = after;
    after = next[after]!;
  }
  while (after !== 0) {
    const right = fromPx[after]!;
    if (right >= b) break;
    if (right > left) insert(before, after, slot, left, right, drawnUp[at]!);
    left = toPx[after]!;
    if (left >= b) return;
    before = after;
    after = next[after]!;
  }
  if (b > left) insert(before, after, slot, left, b, drawnUp[at]!);
}

/** Lays one part into the rows: of the common kind it fills what is still empty, of others it waits beside it. */
export function layPart(slot: number, common: boolean): void {
  const { rowPx, first, count } = rows;
  const perRow = 1 / rowPx;
  const lowest = (middleY[slot]! - halfHeight[slot]!) * perRow;
  const highest = (middleY[slot]! + halfHeight[slot]!) * perRow;
  // A part may end far beyond the map.
  const low = Math.max(Math.floor(lowest), first - 1) | 0;
  const high = Math.min(Math.floor(highest), first + count) | 0;
  const j0 = Math.max(low, first);
  const j1 = high < first + count ? high : first + count - 1;
  drawRows(slot, low, high, j0, j1);
  for (let at = 0; at <= j1 - j0; at++) {
    if (!(drawnTo[at]! > drawnFrom[at]!)) continue;
    const k = at + j0 - first;
    if (common) fillGaps(k, at, slot);
    else insert(count + k, next[count + k]!, slot, drawnFrom[at]!, drawnTo[at]!, drawnUp[at]!);
  }
}
