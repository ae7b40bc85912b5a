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

/** Index of the best offset for a tag of size (w, h) held at its middle; earlier offsets win ties. */
export function bestOffset(
  at: [number, number],
  size: [number, number],
  offsets: readonly [number, number][],
  taken: readonly Rect[],
  points: readonly [number, number][],
): { index: number; rect: Rect } {
  let best = { index: 0, rect: { x: 0, y: 0, w: size[0], h: size[1] } };
  let least = Infinity;
  offsets.forEach(([dx, dy], index) => {
    const rect = { x: at[0] + dx - size[0] / 2, y: at[1] + dy - size[1] / 2, w: size[0], h: size[1] };
    const c = cost(rect, taken, points) + index;
    if (c < least) {
      least = c;
      best = { index, rect };
    }
  });
  return best;
}
