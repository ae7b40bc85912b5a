/** A ray inside the meshed room: which element it meets. Boxes by slabs, room faces by the nearest exit plane. */
import type { Mesh } from './mesh.ts';
import { elementAt } from './surfaces.ts';

/** A hit nearer than this is the surface the ray starts on, m. Assumed: a tenth of a millimetre. */
const SELF_M = 1e-4;
/** Components smaller than this count as this, so that a slab test never divides 0 by 0. Bends a ray by 1e-9. */
const SMALLEST = 1e-9;

/** Where the last ray ended; scratch, valid until the next ray. */
export const hit = { distance: 0, x: 0, y: 0, z: 0, surface: 0 };

export function steady(d: number): number {
  return d < SMALLEST && d > -SMALLEST ? (d < 0 ? -SMALLEST : SMALLEST) : d;
}

/** Axis of the side that `meetBox` met; scratch. */
export const met = { axis: 0 };

/**
 * Where a ray (start, 1 / direction) enters the box whose six bounds begin at `b[k]`, in lengths of its direction; -1 if
 * it does not, or not before `far`.
 */
export function meetBox(
  b: Float64Array,
  k: number,
  ox: number,
  oy: number,
  oz: number,
  ix: number,
  iy: number,
  iz: number,
  far: number,
): number {
  const za = (b[k + 2]! - oz) * iz;
  const zb = (b[k + 5]! - oz) * iz;
  let near = Math.min(za, zb);
  let out = Math.max(za, zb);
  if (near >= far || out <= SELF_M) return -1;
  let axis = 2;
  const xa = (b[k]! - ox) * ix;
  const xb = (b[k + 3]! - ox) * ix;
  const xn = Math.min(xa, xb);
  if (xn > near) {
    near = xn;
    axis = 0;
  }
  out = Math.min(out, Math.max(xa, xb));
  if (near > out) return -1;
  const ya = (b[k + 1]! - oy) * iy;
  const yb = (b[k + 4]! - oy) * iy;
  const yn = Math.min(ya, yb);
  if (yn > near) {
    near = yn;
    axis = 1;
  }
  out = Math.min(out, Math.max(ya, yb));
  if (near > out || near <= SELF_M || near >= far) return -1;
  met.axis = axis;
  return near;
}

/** Nearest box on the ray before `far`, or -1; `slab` tells distance and side that was met. */
const slab = { t: 0, axis: 0 };

function nearestBoxSide(
  mesh: Mesh,
  ox: number,
  oy: number,
  oz: number,
  ix: number,
  iy: number,
  iz: number,
  far: number,
): number {
  const { hulls, from, bounds: b, box, count } = mesh.groups;
  let best = -1;
  let bestT = far;
  let bestAxis = 0;
  for (let g = 0; g < count; g++) {
    const h = g * 6;
    const hza = (hulls[h + 2]! - oz) * iz;
    const hzb = (hulls[h + 5]! - oz) * iz;
    let hullNear = Math.min(hza, hzb);
    let hullFar = Math.max(hza, hzb);
    if (hullNear >= bestT || hullFar <= SELF_M) continue;
    const hxa = (hulls[h]! - ox) * ix;
    const hxb = (hulls[h + 3]! - ox) * ix;
    hullNear = Math.max(hullNear, Math.min(hxa, hxb));
    hullFar = Math.min(hullFar, Math.max(hxa, hxb));
    if (hullNear > hullFar || hullNear >= bestT) continue;
    const hya = (hulls[h + 1]! - oy) * iy;
    const hyb = (hulls[h + 4]! - oy) * iy;
    hullNear = Math.max(hullNear, Math.min(hya, hyb));
    hullFar = Math.min(hullFar, Math.max(hya, hyb));
    if (hullNear > hullFar || hullNear >= bestT || hullFar <= SELF_M) continue;
    const end = from[g + 1]! * 6;
    for (let k = from[g]! * 6; k < end; k += 6) {
      const t = meetBox(b, k, ox, oy, oz, ix, iy, iz, bestT);
      if (t < 0) continue;
      bestT = t;
      best = k / 6;
      bestAxis = met.axis;
    }
  }
  slab.t = bestT;
  slab.axis = bestAxis;
  return best < 0 ? -1 : box[best]!;
}

/** Element met by a ray from a point inside the room (or on its faces). Direction need not be a unit vector. */
export function traceElement(
  mesh: Mesh,
  ox: number,
  oy: number,
  oz: number,
  rx: number,
  ry: number,
  rz: number,
): number {
  const dx = steady(rx);
  const dy = steady(ry);
  const dz = steady(rz);
  const ix = 1 / dx;
  const iy = 1 / dy;
  const iz = 1 / dz;
  const size = mesh.sizeM;
  const tx = ((dx > 0 ? size[0] : 0) - ox) * ix;
  const ty = ((dy > 0 ? size[1] : 0) - oy) * iy;
  const tz = ((dz > 0 ? size[2] : 0) - oz) * iz;
  let t = tx;
  let surface = dx > 0 ? 1 : 0;
  if (ty < t) {
    t = ty;
    surface = dy > 0 ? 3 : 2;
  }
  if (tz < t) {
    t = tz;
    surface = dz > 0 ? 5 : 4;
  }
  if (oz < mesh.boxTopM || oz + t * dz < mesh.boxTopM) {
    const box = nearestBoxSide(mesh, ox, oy, oz, ix, iy, iz, t);
    if (box >= 0) {
      t = slab.t;
      const positive = slab.axis === 0 ? dx > 0 : slab.axis === 1 ? dy > 0 : dz > 0;
      surface = 6 + box * 6 + slab.axis * 2 + (positive ? 0 : 1);
    }
  }
  const x = ox + t * dx;
  const y = oy + t * dy;
  const z = oz + t * dz;
  hit.distance = t;
  hit.x = x;
  hit.y = y;
  hit.z = z;
  hit.surface = surface;
  const s = mesh.surfaces[surface]!;
  return elementAt(s, s.uAxis === 0 ? x : y, s.vAxis === 1 ? y : z);
}

/** Whether furniture stands between two points of the room. */
export function isBlocked(mesh: Mesh, ax: number, ay: number, az: number, bx: number, by: number, bz: number): boolean {
  if (mesh.boxCount === 0 || (az >= mesh.boxTopM && bz >= mesh.boxTopM)) return false;
  const dx = steady(bx - ax);
  const dy = steady(by - ay);
  const dz = steady(bz - az);
  return nearestBoxSide(mesh, ax, ay, az, 1 / dx, 1 / dy, 1 / dz, 1 - 1e-5) >= 0;
}
