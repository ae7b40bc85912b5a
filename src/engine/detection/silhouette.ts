/**
 * Ellipsoids as a point sees them. With the eye at the origin an ellipsoid with centre X and semi-axes a_k is outlined
 * by the dual conic K = X X' - sum a_k a_k': a plane through the eye with normal l touches it when l' K l = 0.
 * Everything is in the frame of the viewing grid: two directions across, the third away from the eye; a ray is (x, y, 1).
 * Source: projective geometry of quadrics, e.g. Hartley and Zisserman, Multiple View Geometry, chapter 8 (from memory).
 */

import { MOST_BODIES, NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';

export const MOST_PARTS = MOST_BODIES * PARTS_PER_BODY;
/** Numbers per outlined part. Source: the offsets below. */
export const STRIDE = 36;
/** Centre (3), shape sum a a' (6: 11 12 13 22 23 33). */
const CENTRE = 0;
const SHAPE = 3;
/** Place of the outline, adj K (6). Source: layout of a slot. */
export const OUTLINE = 9;
/** Place of the box around the outline, x0 x1 y0 y1. Source: layout of a slot. */
export const BOX = 15;
/** Place of the centre's distance, m. Source: layout of a slot. */
export const DISTANCE = 19;
/** 1 once the inverse below is there: inverse of the shape (6), inverse times centre (3), X' inverse X - 1. */
const READY = 20;
const INVERSE = 21;
const PUSHED = 27;
const BEYOND = 30;

/** Scratch: outlined parts of the body at hand, meaningless before `outlinePart`. */
export const outlined = new Float64Array((MOST_PARTS + 1) * STRIDE);

/** Writes the shape sum a a' of part `from`, turned into `frame`, to the slot at `o`. Returns its trace; 0: unused. */
function writeShape(parts: Float64Array, from: number, frame: Float64Array, o: number): number {
  const slots = outlined;
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
 * `frame`: nine numbers, rows across, up, away (room frame). Returns false when the part is unused, or not wholly ahead.
 */
export function outlinePart(
  parts: Float64Array,
  from: number,
  eye: ArrayLike<number>,
  frame: Float64Array,
  slot: number,
): boolean {
  const slots = outlined;
  const o = slot * STRIDE;
  if (writeShape(parts, from, frame, o) === 0) return false;
  const cx = parts[from]! - eye[0]!;
  const cy = parts[from + 1]! - eye[1]!;
  const cz = parts[from + 2]! - eye[2]!;
  const x = frame[0]! * cx + frame[1]! * cy + frame[2]! * cz;
  const y = frame[3]! * cx + frame[4]! * cy + frame[5]! * cz;
  const z = frame[6]! * cx + frame[7]! * cy + frame[8]! * cz;
  const k33 = z * z - slots[o + SHAPE + 5]!;
  if (z <= 0 || k33 <= 0) return false;
  const k11 = x * x - slots[o + SHAPE]!;
  const k12 = x * y - slots[o + SHAPE + 1]!;
  const k13 = x * z - slots[o + SHAPE + 2]!;
  const k22 = y * y - slots[o + SHAPE + 3]!;
  const k23 = y * z - slots[o + SHAPE + 4]!;
  const a11 = k22 * k33 - k23 * k23;
  const a22 = k11 * k33 - k13 * k13;
  if (a11 >= 0 || a22 >= 0) return false;
  slots[o + CENTRE] = x;
  slots[o + CENTRE + 1] = y;
  slots[o + CENTRE + 2] = z;
  slots[o + OUTLINE] = a11;
  slots[o + OUTLINE + 1] = k13 * k23 - k12 * k33;
  slots[o + OUTLINE + 2] = k12 * k23 - k13 * k22;
  slots[o + OUTLINE + 3] = a22;
  slots[o + OUTLINE + 4] = k12 * k13 - k11 * k23;
  slots[o + OUTLINE + 5] = k11 * k22 - k12 * k12;
  const halfX = Math.sqrt(-a22) / k33;
  const halfY = Math.sqrt(-a11) / k33;
  slots[o + BOX] = k13 / k33 - halfX;
  slots[o + BOX + 1] = k13 / k33 + halfX;
  slots[o + BOX + 2] = k23 / k33 - halfY;
  slots[o + BOX + 3] = k23 / k33 + halfY;
  slots[o + DISTANCE] = Math.sqrt(cx * cx + cy * cy + cz * cz);
  slots[o + READY] = 0;
  return true;
}

function prepareDepth(o: number): void {
  const s11 = outlined[o + SHAPE]!;
  const s12 = outlined[o + SHAPE + 1]!;
  const s13 = outlined[o + SHAPE + 2]!;
  const s22 = outlined[o + SHAPE + 3]!;
  const s23 = outlined[o + SHAPE + 4]!;
  const s33 = outlined[o + SHAPE + 5]!;
  const m11 = s22 * s33 - s23 * s23;
  const m12 = s13 * s23 - s12 * s33;
  const m13 = s12 * s23 - s13 * s22;
  const det = s11 * m11 + s12 * m12 + s13 * m13;
  const m = [m11, m12, m13, s11 * s33 - s13 * s13, s12 * s13 - s11 * s23, s11 * s22 - s12 * s12];
  for (let k = 0; k < 6; k++) outlined[o + INVERSE + k] = m[k]! / det;
  const x = outlined[o + CENTRE]!;
  const y = outlined[o + CENTRE + 1]!;
  const z = outlined[o + CENTRE + 2]!;
  const px = (m[0]! * x + m[1]! * y + m[2]! * z) / det;
  const py = (m[1]! * x + m[3]! * y + m[4]! * z) / det;
  const pz = (m[2]! * x + m[4]! * y + m[5]! * z) / det;
  outlined[o + PUSHED] = px;
  outlined[o + PUSHED + 1] = py;
  outlined[o + PUSHED + 2] = pz;
  outlined[o + BEYOND] = px * x + py * y + pz * z - 1;
  outlined[o + READY] = 1;
}

/** How far along the ray (x, y, 1) the front of the part lies, in lengths of that ray; the ray hits it. */
export function frontDepth(slot: number, x: number, y: number): number {
  const o = slot * STRIDE;
  if (outlined[o + READY] === 0) prepareDepth(o);
  const a =
    x * (outlined[o + INVERSE]! * x + 2 * outlined[o + INVERSE + 1]! * y + 2 * outlined[o + INVERSE + 2]!) +
    y * (outlined[o + INVERSE + 3]! * y + 2 * outlined[o + INVERSE + 4]!) +
    outlined[o + INVERSE + 5]!;
  const b = outlined[o + PUSHED]! * x + outlined[o + PUSHED + 1]! * y + outlined[o + PUSHED + 2]!;
  const under = b * b - a * outlined[o + BEYOND]!;
  return (b - Math.sqrt(Math.max(under, 0))) / a;
}
