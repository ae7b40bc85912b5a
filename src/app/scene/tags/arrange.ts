/** Where tags stand on the stage: fixed ones first, then each roaming one at the offset that covers least. Pure, px. */

export interface Rect {
  x: number;
  y: number;
  w: number;
  h: number;
}

export function overlapPx2(a: Rect, b: Rect): number {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

/** Cost of covering a point that should stay clear, px². Assumed: as bad as a quarter of a tag over another. */
const POINT_COST = 500;
/** Half size of the square around such a point, px. Assumed: a head seen from the corner. */
const POINT_HALF_PX = 14;

function cost(rect: Rect, taken: readonly Rect[], points: readonly [number, number][]): number {
  let sum = 0;
  for (const other of taken) sum += overlapPx2(rect, other);
  for (const [x, y] of points) {
    const near = { x: x - POINT_HALF_PX, y: y - POINT_HALF_PX, w: 2 * POINT_HALF_PX, h: 2 * POINT_HALF_PX };
    if (overlapPx2(rect, near) > 0) sum += POINT_COST;
  }
  return sum;
}

/** A place is kept while no other is better by this much, px²: tags that hop would draw the eye. Assumed: a tenth of a tag. */
const KEEP = 250;

export interface Place {
  index: number;
  rect: Rect;
  cost: number;
}

/**
 * The best of `offsets` for a tag of size (w, h) whose point `hold` (shares of its size) stands there. Earlier offsets win
 * ties; the place taken before (`held`) is kept while it is nearly as good.
 */
export function bestOffset(
  at: [number, number],
  size: [number, number],
  offsets: readonly [number, number][],
  taken: readonly Rect[],
  points: readonly [number, number][],
  { hold = [0.5, 0.5], held = -1 }: { hold?: [number, number]; held?: number } = {},
): Place {
  let best: Place | null = null;
  let kept: Place | null = null;
  offsets.forEach(([dx, dy], index) => {
    const rect = { x: at[0] + dx - size[0] * hold[0], y: at[1] + dy - size[1] * hold[1], w: size[0], h: size[1] };
    const place = { index, rect, cost: cost(rect, taken, points) + index };
    if (!best || place.cost < best.cost) best = place;
    if (index === held) kept = place;
  });
  const nothing: Place = { index: 0, rect: { x: at[0], y: at[1], w: size[0], h: size[1] }, cost: 0 };
  if (kept && best && (kept as Place).cost <= (best as Place).cost + KEEP) return kept;
  return best ?? nothing;
}

/** Least gap between a tag on a line and anything else, px. Assumed: touching frames read as one. */
const GAP_PX = 3;

/** Whether a tag of size (w, h) about (x, y) lies on the stage, touches nothing taken and covers none of the points. */
export function isFree(
  [x, y]: [number, number],
  [w, h]: [number, number],
  stage: { w: number; h: number },
  taken: readonly Rect[],
  points: readonly [number, number][],
): boolean {
  const rect = { x: x - w / 2 - GAP_PX, y: y - h / 2 - GAP_PX, w: w + 2 * GAP_PX, h: h + 2 * GAP_PX };
  const within = rect.x >= 0 && rect.y >= 0 && rect.x + rect.w <= stage.w && rect.y + rect.h <= stage.h;
  return within && cost(rect, taken, points) === 0;
}
