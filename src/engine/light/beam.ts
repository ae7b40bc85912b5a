/**
 * Parallel rays from one plane into the room, such as the sun through a window. They meet what single rays meet, to the
 * last bit; but all they share is worked out once, and a ray is tried only against boxes whose shadow, cast back along
 * the beam on the plane, holds its start.
 */
import type { Mesh } from './mesh.ts';
import type { PlaneGrid } from './polygon.ts';
import { elementAt } from './surfaces.ts';
import { meetBox, met, steady } from './trace.ts';

/** Shadows are drawn this much larger, m: rounding never loses a box. Assumed: a millionth; larger only costs time. */
const MARGIN_M = 1e-6;

export interface Beam {
  mesh: Mesh;
  direction: Float64Array;
  inverse: Float64Array;
  /** Room face met by a ray that misses all boxes, by axis, and where that face is. */
  exitSurface: Int32Array;
  exitM: Float64Array;
  /** Boxes whose shadow falls on the plane's rectangle: place in `mesh.groups`, and shadow as u from, to, v from, to. */
  count: number;
  box: Int32Array;
  shadow: Float64Array;
  /** Those among them whose shadow reaches the strip chosen last. */
  stripCount: number;
  strip: Int32Array;
}

export function makeBeam(mesh: Mesh): Beam {
  return {
    mesh,
    direction: new Float64Array(3),
    inverse: new Float64Array(3),
    exitSurface: new Int32Array(3),
    exitM: new Float64Array(3),
    count: 0,
    box: new Int32Array(mesh.boxCount),
    shadow: new Float64Array(mesh.boxCount * 4),
    stripCount: 0,
    strip: new Int32Array(mesh.boxCount),
  };
}

/** Turns the beam to start on the rectangle of `plane` and run along (dx, dy, dz), which must lead away from it. */
export function aimBeam(beam: Beam, plane: PlaneGrid, dx: number, dy: number, dz: number): void {
  const { mesh, direction, inverse, shadow } = beam;
  direction[0] = steady(dx);
  direction[1] = steady(dy);
  direction[2] = steady(dz);
  for (let axis = 0; axis < 3; axis++) {
    const positive = direction[axis]! > 0;
    inverse[axis] = 1 / direction[axis]!;
    beam.exitSurface[axis] = 2 * axis + (positive ? 1 : 0);
    beam.exitM[axis] = positive ? mesh.sizeM[axis]! : 0;
  }
  const { fixedAxis: f, fixedM, uAxis, vAxis, us, vs, nu, nv } = plane;
  const { bounds } = mesh.groups;
  beam.count = 0;
  for (let k = 0; k < mesh.boxCount; k++) {
    const at = beam.count * 4;
    castBack(bounds, k * 6, uAxis, f, fixedM, direction[uAxis]! * inverse[f]!, shadow, at);
    castBack(bounds, k * 6, vAxis, f, fixedM, direction[vAxis]! * inverse[f]!, shadow, at + 2);
    const missesU = shadow[at]! > us[nu]! || shadow[at + 1]! < us[0]!;
    if (missesU || shadow[at + 2]! > vs[nv]! || shadow[at + 3]! < vs[0]!) continue;
    beam.box[beam.count++] = k * 6;
  }
}

/** Extent of a box's shadow along one axis of the plane. `slope`: metres along that axis per metre away from the plane. */
function castBack(
  bounds: Float64Array,
  box: number,
  axis: number,
  fixedAxis: number,
  fixedM: number,
  slope: number,
  out: Float64Array,
  at: number,
): void {
  const a = slope * (bounds[box + fixedAxis]! - fixedM);
  const b = slope * (bounds[box + 3 + fixedAxis]! - fixedM);
  out[at] = bounds[box + axis]! - Math.max(a, b) - MARGIN_M;
  out[at + 1] = bounds[box + 3 + axis]! - Math.min(a, b) + MARGIN_M;
}

/** Chooses the boxes for rays that start between two values of v. */
export function chooseStrip(beam: Beam, fromV: number, toV: number): void {
  const { shadow, strip, count } = beam;
  let n = 0;
  for (let i = 0; i < count; i++) {
    if (shadow[i * 4 + 2]! <= toV && shadow[i * 4 + 3]! >= fromV) strip[n++] = i;
  }
  beam.stripCount = n;
}

/** Element met by the ray from a point of the plane, inside the chosen strip; `u` is the point's place along the plane. */
export function beamElement(beam: Beam, u: number, x: number, y: number, z: number): number {
  const { mesh, direction, inverse, exitM, exitSurface, shadow, strip, stripCount } = beam;
  const ix = inverse[0]!;
  const iy = inverse[1]!;
  const iz = inverse[2]!;
  let t = (exitM[0]! - x) * ix;
  let surface = exitSurface[0]!;
  const ty = (exitM[1]! - y) * iy;
  if (ty < t) {
    t = ty;
    surface = exitSurface[1]!;
  }
  const tz = (exitM[2]! - z) * iz;
  if (tz < t) {
    t = tz;
    surface = exitSurface[2]!;
  }
  let nearest = -1;
  let side = 0;
  for (let i = 0; i < stripCount; i++) {
    const at = strip[i]!;
    if (u < shadow[at * 4]! || u > shadow[at * 4 + 1]!) continue;
    const k = beam.box[at]!;
    const enters = meetBox(mesh.groups.bounds, k, x, y, z, ix, iy, iz, t);
    if (enters < 0) continue;
    t = enters;
    nearest = k;
    side = met.axis;
  }
  if (nearest >= 0) surface = 6 + mesh.groups.box[nearest / 6]! * 6 + side * 2 + (direction[side]! > 0 ? 0 : 1);
  const s = mesh.surfaces[surface]!;
  const hitX = x + t * direction[0]!;
  const hitY = y + t * direction[1]!;
  const hitZ = z + t * direction[2]!;
  return elementAt(s, s.uAxis === 0 ? hitX : hitY, s.vAxis === 1 ? hitY : hitZ);
}
