/** Rows of spans to what is seen of them: others against the common kind by depth, then summed over the map. */

import { HIDER, HIDDEN_BY_M, sumCells, type View } from './lookup.ts';
import { DISTANCE, FURTHEST, frontDepth, MOST_PARTS, NEAREST, outlined, STRIDE } from './silhouette.ts';
import { MOST_SPANS, rows } from './spans.ts';

/** Pieces of one span that are still to be seen. Source: each cut leaves at most one more; far fewer happen. */
const MOST_PIECES = 64;
const pieces = { count: 0, from: new Float64Array(MOST_PIECES), to: new Float64Array(MOST_PIECES) };
/** What `cutPieces` takes away; what depth is asked at: x, y. */
const cut = new Float64Array(2);
const probe = new Float64Array(2);

/** Visible pieces of the others of one row. */
const MOST_SEEN = 4 * MOST_PARTS;
const seen = { count: 0, from: new Float64Array(MOST_SEEN), to: new Float64Array(MOST_SEEN) };

/** Takes `cut` out of the pieces. */
function cutPieces(): void {
  const { from, to } = pieces;
  const c0 = cut[0]!;
  const c1 = cut[1]!;
  if (!(c1 > c0)) return;
  for (let i = pieces.count - 1; i >= 0; i--) {
    const a = from[i]!;
    const b = to[i]!;
    if (b <= c0 || a >= c1) continue;
    if (a < c0) {
      to[i] = c0;
      if (b <= c1 || pieces.count === MOST_PIECES) continue;
      from[pieces.count] = c1;
      to[pieces.count] = b;
      pieces.count++;
    } else if (b > c1) {
      from[i] = c1;
    } else {
      pieces.count--;
      from[i] = from[pieces.count]!;
      to[i] = to[pieces.count]!;
    }
  }
}

/** How much nearer part `t` is than part `s` on the ray through `probe`; negative: nearer. */
function nearerBy(view: View, t: number, s: number): number {
  const x = probe[0]! / view.pxPerUnit + view.leftX;
  return frontDepth(t, x, probe[1]!) - frontDepth(s, x, probe[1]!);
}

/** Cuts the stretch from `a` to `b` as far as the difference of depths, `da` to `db` at its ends, is negative. */
function cutNearer(a: number, da: number, b: number, db: number): void {
  cut[0] = da < 0 ? a : db < 0 ? a + ((b - a) * da) / (da - db) : a;
  cut[1] = db < 0 ? b : da < 0 ? a + ((b - a) * da) / (da - db) : a;
  cutPieces();
}

/** Takes from the pieces of part `s` what part `t`, which spans from `t0` to `t1`, hides of it. */
function hideBehind(view: View, s: number, s0: number, s1: number, t: number, t0: number, t1: number): void {
  const a = t0 > s0 ? t0 : s0;
  const b = t1 < s1 ? t1 : s1;
  if (!(b > a) || outlined[t * STRIDE + NEAREST]! >= outlined[s * STRIDE + FURTHEST]!) return;
  if (outlined[t * STRIDE + FURTHEST]! <= outlined[s * STRIDE + NEAREST]!) {
    cut[0] = a;
    cut[1] = b;
    cutPieces();
    return;
  }
  // Two fronts may cross: looked for in either half, between by the straight line.
  const m = (a + b) / 2;
  probe[0] = a;
  const da = nearerBy(view, t, s);
  probe[0] = m;
  const dm = nearerBy(view, t, s);
  probe[0] = b;
  const db = nearerBy(view, t, s);
  cutNearer(a, da, m, dm);
  cutNearer(m, dm, b, db);
}

/** Leaves in `pieces` what is seen of the n-th other span of row k. */
function seeOther(view: View, k: number, n: number): void {
  const { others, otherFrom, otherTo, otherSlot, spans, from, to, slot } = rows;
  const at = k * MOST_PARTS + n;
  const s = otherSlot[at]!;
  const s0 = otherFrom[at]!;
  const s1 = otherTo[at]!;
  const kind = view.kinds[s]!;
  pieces.count = 1;
  pieces.from[0] = s0;
  pieces.to[0] = s1;
  for (let i = k * MOST_SPANS; i < k * MOST_SPANS + spans[k]!; i++) {
    if (to[i]! > s0 && from[i]! < s1) hideBehind(view, s, s0, s1, slot[i]!, from[i]!, to[i]!);
  }
  for (let i = k * MOST_PARTS; i < k * MOST_PARTS + others[k]!; i++) {
    if (i === at || !(otherTo[i]! > s0 && otherFrom[i]! < s1)) continue;
    const t = otherSlot[i]!;
    if (view.kinds[t]! !== kind) {
      hideBehind(view, s, s0, s1, t, otherFrom[i]!, otherTo[i]!);
    } else if (i < at) {
      // Of the same kind it does not matter which is in front; it counts once.
      cut[0] = otherFrom[i]!;
      cut[1] = otherTo[i]!;
      cutPieces();
    }
  }
}

/** Integral over a span of a row without anything in the way. */
function spanSum(sums: Float32Array, base: number, a: number, b: number): number {
  const i = a | 0;
  const j = b | 0;
  const p = sums[base + i]!;
  const q = sums[base + j]!;
  return q + (sums[base + j + 1]! - q) * (b - j) - p - (sums[base + i + 1]! - p) * (a - i);
}

/** Adds the pieces to the sums of their kind. */
function addPieces(view: View, base: number, slot: number): void {
  const kind = view.kinds[slot]!;
  if (kind === HIDER) return;
  const limitM = outlined[slot * STRIDE + DISTANCE]! - HIDDEN_BY_M;
  for (let p = 0; p < pieces.count; p++) {
    const a = pieces.from[p]!;
    const b = pieces.to[p]!;
    if (view.clear) view.sums[kind]! += spanSum(view.rowSums, base, a, b);
    else sumCells(view, base, a, b, kind, limitM);
  }
}

/** A row in which other kinds than the common one appear. */
function sumMixedRow(view: View, k: number, base: number): void {
  const { others, otherSlot, spans, from, to, slot } = rows;
  seen.count = 0;
  for (let n = 0; n < others[k]!; n++) {
    seeOther(view, k, n);
    for (let p = 0; p < pieces.count && seen.count < MOST_SEEN; p++) {
      seen.from[seen.count] = pieces.from[p]!;
      seen.to[seen.count] = pieces.to[p]!;
      seen.count++;
    }
    addPieces(view, base, otherSlot[k * MOST_PARTS + n]!);
  }
  for (let i = k * MOST_SPANS; i < k * MOST_SPANS + spans[k]!; i++) {
    pieces.count = 1;
    pieces.from[0] = from[i]!;
    pieces.to[0] = to[i]!;
    for (let p = 0; p < seen.count; p++) {
      cut[0] = seen.from[p]!;
      cut[1] = seen.to[p]!;
      cutPieces();
    }
    addPieces(view, base, slot[i]!);
  }
}

/** Adds all rows to `view.sums`. `common`: the kind whose spans fill the rows. */
export function sumRows(view: View, common: number): void {
  const { spans, others, from, to, slot } = rows;
  const { rowSums, clear } = view;
  const stride = rows.widthPx + 2;
  let commonSum = 0;
  for (let k = 0; k < rows.count; k++) {
    const base = (rows.first + k) * stride;
    view.rowMiddlePx = (rows.first + k + 0.5) * rows.rowPx;
    if (others[k]! > 0) {
      probe[1] = view.rowMiddlePx / view.pxPerUnit + view.lowY;
      sumMixedRow(view, k, base);
      continue;
    }
    const end = k * MOST_SPANS + spans[k]!;
    for (let i = k * MOST_SPANS; i < end; i++) {
      const a = from[i]!;
      const b = to[i]!;
      if (clear) commonSum += spanSum(rowSums, base, a, b);
      else sumCells(view, base, a, b, common, outlined[slot[i]! * STRIDE + DISTANCE]! - HIDDEN_BY_M);
    }
  }
  view.sums[common]! += commonSum;
}
