/** Exact factors between diffuse surfaces: polygon seen from a point, rectangle to rectangle. */
import { atan, atan2, log, PI, sqrt } from '../math.ts';

/** Clipping may add one corner to each polygon that straddles the horizon. */
const MAX_CORNERS = 64;
/** Work space of one call; holds nothing between calls. */
const clipped = new Float64Array(3 * (MAX_CORNERS + 2));

/**
 * Copies the polygon, moved so that the point is the origin, into `clipped` without the part below the horizon of
 * `normal`. Returns the number of corners left.
 */
function clipToHorizon(
  corners: ArrayLike<number>,
  count: number,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  let kept = 0;
  const last = 3 * (count - 1);
  let ax = corners[last]! - px;
  let ay = corners[last + 1]! - py;
  let az = corners[last + 2]! - pz;
  let aUp = ax * nx + ay * ny + az * nz;
  for (let i = 0; i < count; i++) {
    const bx = corners[3 * i]! - px;
    const by = corners[3 * i + 1]! - py;
    const bz = corners[3 * i + 2]! - pz;
    const bUp = bx * nx + by * ny + bz * nz;
    if (aUp > 0 !== bUp > 0) {
      const share = aUp / (aUp - bUp);
      clipped[kept++] = ax + (bx - ax) * share;
      clipped[kept++] = ay + (by - ay) * share;
      clipped[kept++] = az + (bz - az) * share;
    }
    if (bUp > 0) {
      clipped[kept++] = bx;
      clipped[kept++] = by;
      clipped[kept++] = bz;
    }
    ax = bx;
    ay = by;
    az = bz;
    aUp = bUp;
  }
  return kept / 3;
}

/**
 * Factor of a flat convex polygon of even luminance L for a point with a unit normal: illuminance / (pi L), 0..1.
 * `corners`: x, y, z of each corner in turn (either sense), at most 64; the part below the point's horizon does not
 * count. Which side of the polygon shines is not asked. A polygon whose plane holds the point gives 0.
 * Source: Lambert 1760; each edge gives its angle times the component of its plane's normal.
 */
export function polygonFactor(
  corners: ArrayLike<number>,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const given = corners.length / 3;
  if (given > MAX_CORNERS) throw new RangeError(`polygonFactor takes at most ${MAX_CORNERS} corners, got ${given}`);
  const count = clipToHorizon(corners, given, px, py, pz, nx, ny, nz);
  if (count < 3) return 0;
  let sum = 0;
  let ax = clipped[3 * count - 3]!;
  let ay = clipped[3 * count - 2]!;
  let az = clipped[3 * count - 1]!;
  for (let i = 0; i < count; i++) {
    const bx = clipped[3 * i]!;
    const by = clipped[3 * i + 1]!;
    const bz = clipped[3 * i + 2]!;
    const cx = ay * bz - az * by;
    const cy = az * bx - ax * bz;
    const cz = ax * by - ay * bx;
    const length = sqrt(cx * cx + cy * cy + cz * cz);
    if (length > 0) {
      sum += (atan2(length, ax * bx + ay * by + az * bz) * (cx * nx + cy * ny + cz * nz)) / length;
    }
    ax = bx;
    ay = by;
    az = bz;
  }
  return Math.abs(sum) / (2 * PI);
}

/**
 * View factor between two equal, opposite, aligned rectangles a x b at distance c.
 * Source: Hottel's closed form, as in the usual view-factor catalogues.
 */
export function viewFactorParallel(aM: number, bM: number, cM: number): number {
  const x = aM / cM;
  const y = bM / cM;
  const rootX = sqrt(1 + x * x);
  const rootY = sqrt(1 + y * y);
  const logPart = log(((1 + x * x) * (1 + y * y)) / (1 + x * x + y * y)) / 2;
  const across = x * rootY * atan(x / rootY) + y * rootX * atan(y / rootX);
  return (2 / (PI * x * y)) * (logPart + across - x * atan(x) - y * atan(y));
}

/**
 * View factor from a rectangle (`emitterM` deep) to a perpendicular one (`receiverM` high); both share the edge.
 * Source: Hottel's closed form, as in the usual view-factor catalogues.
 */
export function viewFactorPerpendicular(commonEdgeM: number, emitterM: number, receiverM: number): number {
  const w = emitterM / commonEdgeM;
  const h = receiverM / commonEdgeM;
  const w2 = w * w;
  const h2 = h * h;
  const both = sqrt(w2 + h2);
  const logPart =
    log(((1 + w2) * (1 + h2)) / (1 + w2 + h2)) +
    w2 * log((w2 * (1 + w2 + h2)) / ((1 + w2) * (w2 + h2))) +
    h2 * log((h2 * (1 + w2 + h2)) / ((1 + h2) * (w2 + h2)));
  return (w * atan(1 / w) + h * atan(1 / h) - both * atan(1 / both) + logPart / 4) / (PI * w);
}
