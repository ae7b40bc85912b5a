/** Rays against boxes by slabs, in flat arrays: the inner loop of light and of the detector's view. */
import type { Box } from './boxes.ts';

/** Boxes as numbers: [minX, minY, minZ, maxX, maxY, maxZ] each. */
export interface BoxSoup {
  count: number;
  bounds: Float64Array;
}

export function packBoxes(boxes: Pick<Box, 'minM' | 'maxM'>[]): BoxSoup {
  const bounds = new Float64Array(boxes.length * 6);
  boxes.forEach((box, i) => {
    bounds.set([...box.minM, ...box.maxM], i * 6);
  });
  return { count: boxes.length, bounds };
}

/** A hit nearer than this is the surface the ray starts on, m. Assumed: a tenth of a millimetre; larger would leak light under desks. */
const SELF_M = 1e-4;

/**
 * Nearest box hit by origin + t * direction with SELF_M < t < `farM`.
 * Returns its index, or -1; the distance in units of the direction's length is left in `hitDistance.value`.
 */
export function nearestBox(
  soup: BoxSoup,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  farM: number,
): number {
  const { bounds, count } = soup;
  const ix = 1 / dx;
  const iy = 1 / dy;
  const iz = 1 / dz;
  let best = -1;
  let bestT = farM;
  for (let b = 0; b < count; b++) {
    const k = b * 6;
    let t0 = (bounds[k]! - ox) * ix;
    let t1 = (bounds[k + 3]! - ox) * ix;
    let near = Math.min(t0, t1);
    let far = Math.max(t0, t1);
    t0 = (bounds[k + 1]! - oy) * iy;
    t1 = (bounds[k + 4]! - oy) * iy;
    if (t0 > t1) {
      const swap = t0;
      t0 = t1;
      t1 = swap;
    }
    if (t0 > near) near = t0;
    if (t1 < far) far = t1;
    t0 = (bounds[k + 2]! - oz) * iz;
    t1 = (bounds[k + 5]! - oz) * iz;
    if (t0 > t1) {
      const swap = t0;
      t0 = t1;
      t1 = swap;
    }
    if (t0 > near) near = t0;
    if (t1 < far) far = t1;
    if (near <= far && near > SELF_M && near < bestT) {
      bestT = near;
      best = b;
    }
  }
  hitDistance.value = bestT;
  return best;
}

/** Distance of the last `nearestBox` call; scratch, meaningless before the next call returns. */
export const hitDistance = { value: 0 };

/** Whether anything stands between the points (shares 0 and 1 excluded). */
export function blocked(soup: BoxSoup, from: ArrayLike<number>, to: ArrayLike<number>): boolean {
  const dx = to[0]! - from[0]!;
  const dy = to[1]! - from[1]!;
  const dz = to[2]! - from[2]!;
  return nearestBox(soup, from[0]!, from[1]!, from[2]!, dx, dy, dz, 1 - 1e-6) >= 0;
}
