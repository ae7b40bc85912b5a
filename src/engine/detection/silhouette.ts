/**
 * Ellipsoids as a point sees them. With the eye at the origin an ellipsoid with centre X and semi-axes a_k is outlined
 * by the dual conic K = X X' - sum a_k a_k': a plane through the eye with normal l touches it when l' K l = 0.
 * Everything is in the frame of a channel's plane: two directions across, the third away from the eye; a ray is (x, y, 1).
 * There the outline is an ellipse with centre k / k33 and spread C = (k k' / k33 - K) / k33, k the third column of K.
 * Source: projective geometry of quadrics, e.g. Hartley and Zisserman, Multiple View Geometry, chapter 8 (from memory).
 */

import { MOST_BODIES, NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import type { AngularMap } from './types.ts';

export const MOST_PARTS = MOST_BODIES * PARTS_PER_BODY;
/** Numbers kept of each part. Source: the offsets below. */
const STRIDE = 20;
/** Centre (3), shape sum a a' (6: 11 12 13 22 23 33). */
const CENTRE = 0;
const SHAPE = 3;
/** 1 once the inverse below is there: inverse of the shape (6), inverse times centre (3), X' inverse X - 1. */
const READY = 9;
const INVERSE = 10;
const PUSHED = 16;
const BEYOND = 19;

/** Scratch: parts of the body at hand, meaningless before `outlinePart`. */
const slots = new Float64Array((MOST_PARTS + 1) * STRIDE);

const oneEach = () => new Float64Array(MOST_PARTS + 1);
/** Scratch: outlines by slot, on the map; arrays of their own, see `spanRows.ts`. */
export const outlines = {
  /** Middle and half measures, px. */
  middleX: oneEach(),
  middleY: oneEach(),
  halfWidth: oneEach(),
  halfHeight: oneEach(),
  /** Half the longest chord along a row, px. */
  halfChord: oneEach(),
  /** How x of the chords' middles runs with y; no unit. */
  slant: oneEach(),
  /** Along `away`, nothing of the part is nearer, nothing further than this, m. */
  nearestM: oneEach(),
  furthestM: oneEach(),
  /** Distance of its centre, m. */
  distanceM: oneEach(),
};
const { middleX, middleY, halfWidth, halfHeight, halfChord, slant, nearestM, furthestM, distanceM } = outlines;

/** Writes the shape sum a a' of part `from`, turned into `frame`, to the slot at `o`. Returns its trace; 0: unused. */
function writeShape(parts: Float64Array, from: number, frame: Float64Array, o: number): number {
  const f0 = frame[0]!;
  const f1 = frame[1]!;
  const f2 = frame[2]!;
  const f3 = frame[3]!;
  const f4 = frame[4]!;
  const f5 = frame[5]!;
  const f6 = frame[6]!;
  const f7 = frame[7]!;
  const f8 = frame[8]!;
  let s11 = 0;
  let s12 = 0;
  let s13 = 0;
  let s22 = 0;
  let s23 = 0;
  let s33 = 0;
  for (let k = from + 3; k < from + NUMBERS_PER_PART; k += 3) {
    const ax = parts[k]!;
    const ay = parts[k + 1]!;
    const az = parts[k + 2]!;
    const x = f0 * ax + f1 * ay + f2 * az;
    const y = f3 * ax + f4 * ay + f5 * az;
    const z = f6 * ax + f7 * ay + f8 * az;
    s11 += x * x;
    s12 += x * y;
    s13 += x * z;
    s22 += y * y;
    s23 += y * z;
    s33 += z * z;
  }
  slots[o + SHAPE] = s11;
  slots[o + SHAPE + 1] = s12;
  slots[o + SHAPE + 2] = s13;
  slots[o + SHAPE + 3] = s22;
  slots[o + SHAPE + 4] = s23;
  slots[o + SHAPE + 5] = s33;
  return s11 + s22 + s33;
}

/**
 * Outlines part `from` (offset into `parts`, room metres) into slot `slot`.
 * `frame`: nine numbers, rows across, up, away (room frame). Returns false when the part is unused, not wholly ahead of
 * the plane, or beside the map. Not wholly ahead and yet on the map would need a part that fills 30 degrees: a head
 * within a hand's breadth of the lens.
 */
export function outlinePart(
  map: AngularMap,
  parts: Float64Array,
  from: number,
  eye: ArrayLike<number>,
  frame: Float64Array,
  slot: number,
): boolean {
  const o = slot * STRIDE;
  const cx = parts[from]! - eye[0]!;
  const cy = parts[from + 1]! - eye[1]!;
  const cz = parts[from + 2]! - eye[2]!;
  const z = frame[6]! * cx + frame[7]! * cy + frame[8]! * cz;
  if (z <= 0 || writeShape(parts, from, frame, o) === 0) return false;
  const s33 = slots[o + SHAPE + 5]!;
  const k33 = z * z - s33;
  if (k33 <= 0) return false;
  const x = frame[0]! * cx + frame[1]! * cy + frame[2]! * cz;
  const y = frame[3]! * cx + frame[4]! * cy + frame[5]! * cz;
  const per = 1 / k33;
  const mx = (x * z - slots[o + SHAPE + 2]!) * per;
  const my = (y * z - slots[o + SHAPE + 4]!) * per;
  const cyy = my * my - (y * y - slots[o + SHAPE + 3]!) * per;
  const cxx = mx * mx - (x * x - slots[o + SHAPE]!) * per;
  if (cyy <= 0 || cxx <= 0) return false;
  const px = map.pxPerUnit;
  const atX = (mx - map.leftX) * px;
  const atY = (my - map.lowY) * px;
  const halfX = Math.sqrt(cxx) * px;
  const halfY = Math.sqrt(cyy) * px;
  if (atX + halfX <= 0 || atX - halfX >= map.widthPx) return false;
  if (atY + halfY <= 0 || atY - halfY >= map.heightPx) return false;
  const leans = (mx * my - (x * y - slots[o + SHAPE + 1]!) * per) / cyy;
  const chord = cxx - leans * leans * cyy;
  const deep = Math.sqrt(s33);
  slots[o + CENTRE] = x;
  slots[o + CENTRE + 1] = y;
  slots[o + CENTRE + 2] = z;
  middleY[slot] = atY;
  halfHeight[slot] = halfY;
  middleX[slot] = atX;
  slant[slot] = leans;
  halfChord[slot] = chord > 0 ? Math.sqrt(chord) * px : 0;
  halfWidth[slot] = halfX;
  nearestM[slot] = z - deep;
  furthestM[slot] = z + deep;
  distanceM[slot] = Math.sqrt(cx * cx + cy * cy + cz * cz);
  slots[o + READY] = 0;
  return true;
}

function prepareDepth(o: number): void {
  const s11 = slots[o + SHAPE]!;
  const s12 = slots[o + SHAPE + 1]!;
  const s13 = slots[o + SHAPE + 2]!;
  const s22 = slots[o + SHAPE + 3]!;
  const s23 = slots[o + SHAPE + 4]!;
  const s33 = slots[o + SHAPE + 5]!;
  const x = slots[o + CENTRE]!;
  const y = slots[o + CENTRE + 1]!;
  const z = slots[o + CENTRE + 2]!;
  let m11 = s22 * s33 - s23 * s23;
  let m12 = s13 * s23 - s12 * s33;
  let m13 = s12 * s23 - s13 * s22;
  const per = 1 / (s11 * m11 + s12 * m12 + s13 * m13);
  m11 *= per;
  m12 *= per;
  m13 *= per;
  const m22 = (s11 * s33 - s13 * s13) * per;
  const m23 = (s12 * s13 - s11 * s23) * per;
  const m33 = (s11 * s22 - s12 * s12) * per;
  slots[o + INVERSE] = m11;
  slots[o + INVERSE + 1] = m12;
  slots[o + INVERSE + 2] = m13;
  slots[o + INVERSE + 3] = m22;
  slots[o + INVERSE + 4] = m23;
  slots[o + INVERSE + 5] = m33;
  const px = m11 * x + m12 * y + m13 * z;
  const py = m12 * x + m22 * y + m23 * z;
  const pz = m13 * x + m23 * y + m33 * z;
  slots[o + PUSHED] = px;
  slots[o + PUSHED + 1] = py;
  slots[o + PUSHED + 2] = pz;
  slots[o + BEYOND] = px * x + py * y + pz * z - 1;
  slots[o + READY] = 1;
}

/** Where depths are asked for: three places on a row, tangents, and the row's own y. Numbers passed one by one would be
 *  boxed. */
export const probes = new Float64Array(4);

/**
 * How far along the rays (x, y, 1) through `probes` the front of the part lies, in lengths of those rays; beside it,
 * where it is nearest. `sign` -1: `out` becomes that; 1: that is taken off `out` reversed, so that it holds first minus
 * second.
 */
export function frontDepths(slot: number, out: Float64Array, sign: 1 | -1): void {
  const o = slot * STRIDE;
  if (slots[o + READY] === 0) prepareDepth(o);
  const y = probes[3]!;
  const a2 = slots[o + INVERSE]!;
  const a1 = 2 * (slots[o + INVERSE + 1]! * y + slots[o + INVERSE + 2]!);
  const a0 = y * (slots[o + INVERSE + 3]! * y + 2 * slots[o + INVERSE + 4]!) + slots[o + INVERSE + 5]!;
  const b1 = slots[o + PUSHED]!;
  const b0 = slots[o + PUSHED + 1]! * y + slots[o + PUSHED + 2]!;
  const beyond = slots[o + BEYOND]!;
  for (let i = 0; i < 3; i++) {
    const x = probes[i]!;
    const a = x * (a2 * x + a1) + a0;
    const b = b1 * x + b0;
    const under = b * b - a * beyond;
    const depth = (b - Math.sqrt(Math.max(under, 0))) / a;
    out[i] = sign < 0 ? depth : depth - out[i]!;
  }
}
