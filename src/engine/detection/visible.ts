/** Rows of spans to what is seen of them: others against the common kind by depth, then summed over the map. */

import { HIDDEN_BY_M, HIDER, spanSum, stretch, sumStretch, type View, weighed } from './lookup.ts';
import { frontDepths, outlines, probes } from './silhouette.ts';
import { rows, spans } from './spanRows.ts';

const { kinds, sums } = weighed;
const { nearestM, furthestM, distanceM } = outlines;
const { fromPx, toPx, upPx, slot: slotOf, next } = spans;

/** Pieces of one span that are still to be seen: from, to. Source: each cut leaves at most one more; far fewer happen. */
const MOST_PIECES = 256;
const pieces = new Float64Array(2 * MOST_PIECES);
/** Visible pieces of the others of one row. */
const seen = new Float64Array(4 * MOST_PIECES);
/** Stretches that a later span of the row has lost to an earlier one: from, to; and which. */
const lost = new Float64Array(4 * MOST_PIECES);
const lostBy = new Int32Array(2 * MOST_PIECES);
/** How far the three are filled, in numbers. */
const filled = { pieces: 0, seen: 0, lost: 0 };
/** What `cutPieces` takes away. */
const cut = new Float64Array(2);
const depths = new Float64Array(3);
/** Places of two probes, px. */
const places = new Float64Array(2);

/** Takes `cut` out of the pieces. */
function cutPieces(): void {
  const c0 = cut[0]!;
  const c1 = cut[1]!;
  if (!(c1 > c0)) return;
  for (let i = filled.pieces - 2; i >= 0; i -= 2) {
    const a = pieces[i]!;
    const b = pieces[i + 1]!;
    if (b <= c0 || a >= c1) continue;
    if (a < c0) {
      pieces[i + 1] = c0;
      if (b <= c1 || filled.pieces === pieces.length) continue;
      pieces[filled.pieces] = c1;
      pieces[filled.pieces + 1] = b;
      filled.pieces += 2;
    } else if (b > c1) {
      pieces[i] = c1;
    } else {
      filled.pieces -= 2;
      pieces[i] = pieces[filled.pieces]!;
      pieces[i + 1] = pieces[filled.pieces + 1]!;
    }
  }
}

/** Notes that the span at `loser` is hidden over `cut`. */
function loseCut(loser: number): void {
  if (!(cut[1]! > cut[0]!) || filled.lost === lost.length) return;
  lost[filled.lost] = cut[0]!;
  lost[filled.lost + 1] = cut[1]!;
  lostBy[filled.lost >> 1] = loser;
  filled.lost += 2;
}

/** Between probes `i` and `i + 1`, whose places are at hand: leaves in `cut` where the difference of depths has the sign `sign`. */
function cutWhere(i: number, sign: number): void {
  const a = places[0]!;
  const b = places[1]!;
  const da = depths[i]! * sign;
  const db = depths[i + 1]! * sign;
  cut[0] = da > 0 ? a : db > 0 ? a + ((b - a) * da) / (da - db) : b;
  cut[1] = db > 0 ? b : da > 0 ? a + ((b - a) * da) / (da - db) : b;
}

/** Settles span s (its pieces) and span t where both are; `chained`: t will be asked for its losses. */
function settle(view: View, s: number, t: number, chained: boolean): void {
  if (fromPx[t]! >= toPx[s]! || fromPx[s]! >= toPx[t]!) return;
  const a = Math.max(fromPx[t]!, fromPx[s]!);
  const b = Math.min(toPx[t]!, toPx[s]!);
  const slotS = slotOf[s]!;
  const slotT = slotOf[t]!;
  cut[0] = a;
  cut[1] = b;
  if (chained && kinds[slotS] === kinds[slotT]) {
    // Of the same kind it does not matter which is in front; it counts once.
    loseCut(t);
  } else if (nearestM[slotT]! >= furthestM[slotS]!) {
    if (chained) loseCut(t);
  } else if (furthestM[slotT]! <= nearestM[slotS]!) {
    cutPieces();
  } else {
    // Two fronts may cross: looked for in either half, between by the straight line.
    const { leftX, pxPerUnit } = view;
    const middle = (a + b) / 2;
    probes[0] = a / pxPerUnit + leftX;
    probes[1] = middle / pxPerUnit + leftX;
    probes[2] = b / pxPerUnit + leftX;
    frontDepths(slotS, depths, -1);
    frontDepths(slotT, depths, 1);
    for (let half = 0; half < 2; half++) {
      places[0] = half === 0 ? a : middle;
      places[1] = half === 0 ? middle : b;
      cutWhere(half, -1);
      cutPieces();
      if (!chained) continue;
      cutWhere(half, 1);
      loseCut(t);
    }
  }
}

/** Leaves in `pieces` what is seen of span s of row k, which is none of the common kind. */
function seeOther(view: View, k: number, s: number): void {
  filled.pieces = 2;
  pieces[0] = fromPx[s]!;
  pieces[1] = toPx[s]!;
  for (let i = 0; i < filled.lost; i += 2) {
    if (lostBy[i >> 1] !== s) continue;
    cut[0] = lost[i]!;
    cut[1] = lost[i + 1]!;
    cutPieces();
  }
  for (let t = next[k]!; t !== 0; t = next[t]!) settle(view, s, t, false);
  const hides = kinds[slotOf[s]!] === HIDER;
  for (let t = next[s]!; t !== 0; t = next[t]!) {
    // Which of two that hide is in front does not matter, nor that they hide the same.
    if (hides && kinds[slotOf[t]!] === HIDER) continue;
    settle(view, s, t, true);
  }
}

/** Adds the pieces of span n to the sums of its kind. */
function addPieces(view: View, base: number, n: number): void {
  const slot = slotOf[n]!;
  const kind = kinds[slot]!;
  if (kind === HIDER) return;
  const { rowSums, clear } = view;
  const up = upPx[n]!;
  for (let p = 0; p < filled.pieces; p += 2) {
    if (clear) {
      sums[kind]! += spanSum(rowSums, base, pieces[p]!, pieces[p + 1]!, up);
      continue;
    }
    stretch[0] = pieces[p]!;
    stretch[1] = pieces[p + 1]!;
    stretch[2] = up;
    stretch[3] = distanceM[slot]! - HIDDEN_BY_M;
    sumStretch(view, base, kind);
  }
}

/** A row in which other kinds than the common one appear. */
function sumMixedRow(view: View, k: number, base: number): void {
  filled.seen = 0;
  filled.lost = 0;
  probes[3] = ((view.row + 0.5) * rows.rowPx) / view.pxPerUnit + view.lowY;
  for (let n = next[rows.count + k]!; n !== 0; n = next[n]!) {
    seeOther(view, k, n);
    for (let p = 0; p < filled.pieces && filled.seen < seen.length; p++) seen[filled.seen++] = pieces[p]!;
    addPieces(view, base, n);
  }
  for (let n = next[k]!; n !== 0; n = next[n]!) {
    filled.pieces = 2;
    pieces[0] = fromPx[n]!;
    pieces[1] = toPx[n]!;
    for (let p = 0; p < filled.seen; p += 2) {
      if (seen[p]! >= toPx[n]! || seen[p + 1]! <= fromPx[n]!) continue;
      cut[0] = seen[p]!;
      cut[1] = seen[p + 1]!;
      cutPieces();
    }
    addPieces(view, base, n);
  }
}

/** Adds all rows to `sums`. `common`: the kind whose spans fill the rows. */
export function sumRows(view: View, common: number): void {
  const { rowSums, clear } = view;
  const { count, first, widthPx } = rows;
  const stride = 2 * (widthPx + 2);
  let commonSum = 0;
  for (let k = 0; k < count; k++) {
    const base = (first + k) * stride;
    view.row = first + k;
    if (next[count + k]! !== 0) {
      sumMixedRow(view, k, base);
      continue;
    }
    for (let n = next[k]!; n !== 0; n = next[n]!) {
      if (clear) {
        commonSum += spanSum(rowSums, base, fromPx[n]!, toPx[n]!, upPx[n]!);
        continue;
      }
      filled.pieces = 2;
      pieces[0] = fromPx[n]!;
      pieces[1] = toPx[n]!;
      addPieces(view, base, n);
    }
  }
  sums[common]! += commonSum;
}
