/**
 * A smooth body from the engine's ellipsoids: the points of each ellipsoid are moved onto the blended surface of all,
 * and take their normals from it, so that joints close and limbs taper. Drawing only; sensing uses the ellipsoids.
 */
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../../../engine/types.ts';

/** Blend width, m. Assumed: 2 cm closes joints; much more would melt an arm into the trunk. */
const BLEND_M = 0.02;
/** Farthest a point is moved, m. Assumed: points that would go farther lie inside the body and are not seen. */
const MOST_M = 0.05;

/** Unit sphere by rows and columns: few points, even enough for limbs. */
function unitSphere(columns: number, rows: number): { points: Float32Array; triangles: number[] } {
  const points: number[] = [];
  for (let r = 0; r <= rows; r++) {
    const polar = (r / rows) * Math.PI;
    for (let c = 0; c < columns; c++) {
      const a = (c / columns) * 2 * Math.PI;
      points.push(Math.sin(polar) * Math.cos(a), Math.sin(polar) * Math.sin(a), Math.cos(polar));
    }
  }
  const triangles: number[] = [];
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const d = (c + 1) % columns;
      const [p, q, s, t] = [r * columns + c, r * columns + d, (r + 1) * columns + c, (r + 1) * columns + d];
      triangles.push(p, s, q, q, s, t);
    }
  }
  return { points: new Float32Array(points), triangles };
}

const SPHERE = unitSphere(14, 10);
const POINTS = SPHERE.points.length / 3;

/** Points of one body mesh, and its triangles. */
export const BODY_POINTS = POINTS * PARTS_PER_BODY;
export const BODY_TRIANGLES = Array.from({ length: PARTS_PER_BODY }, (_, part) =>
  SPHERE.triangles.map((k) => k + part * POINTS),
).flat();

/** Per part: centre, then each semi-axis divided by its squared length (world to unit sphere), and a bounding radius. */
const frames = new Float64Array(PARTS_PER_BODY * 13);
const near = new Int32Array(PARTS_PER_BODY);
const sample = new Float64Array(4);

function readFrames(parts: ArrayLike<number>, at: number): void {
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const from = at + part * NUMBERS_PER_PART;
    const to = part * 13;
    for (let k = 0; k < 3; k++) frames[to + k] = parts[from + k]!;
    let reach = 0;
    for (let axis = 0; axis < 3; axis++) {
      const f = from + 3 + axis * 3;
      const square = parts[f]! * parts[f]! + parts[f + 1]! * parts[f + 1]! + parts[f + 2]! * parts[f + 2]!;
      for (let k = 0; k < 3; k++) frames[to + 3 + axis * 3 + k] = square > 0 ? parts[f + k]! / square : 0;
      reach = Math.max(reach, square);
    }
    frames[to + 12] = Math.sqrt(reach);
  }
}

/** Parts whose spheres come near this one's, itself first. Returns how many. */
function findNear(part: number): number {
  let count = 0;
  near[count++] = part;
  const p = part * 13;
  for (let other = 0; other < PARTS_PER_BODY; other++) {
    const o = other * 13;
    if (other === part || frames[o + 12] === 0) continue;
    const dx = frames[o]! - frames[p]!;
    const dy = frames[o + 1]! - frames[p + 1]!;
    const dz = frames[o + 2]! - frames[p + 2]!;
    const reach = frames[o + 12]! + frames[p + 12]! + 3 * BLEND_M;
    if (dx * dx + dy * dy + dz * dz < reach * reach) near[count++] = other;
  }
  return count;
}

/** Blended distance and its gradient at a point, into `sample` as (d, gx, gy, gz). */
function measure(x: number, y: number, z: number, count: number): void {
  let sum = 0;
  let gx = 0;
  let gy = 0;
  let gz = 0;
  for (let i = 0; i < count; i++) {
    const f = near[i]! * 13;
    const dx = x - frames[f]!;
    const dy = y - frames[f + 1]!;
    const dz = z - frames[f + 2]!;
    const q0 = dx * frames[f + 3]! + dy * frames[f + 4]! + dz * frames[f + 5]!;
    const q1 = dx * frames[f + 6]! + dy * frames[f + 7]! + dz * frames[f + 8]!;
    const q2 = dx * frames[f + 9]! + dy * frames[f + 10]! + dz * frames[f + 11]!;
    const k0 = Math.sqrt(q0 * q0 + q1 * q1 + q2 * q2) || 1e-6;
    const nx = (q0 * frames[f + 3]! + q1 * frames[f + 6]! + q2 * frames[f + 9]!) / k0;
    const ny = (q0 * frames[f + 4]! + q1 * frames[f + 7]! + q2 * frames[f + 10]!) / k0;
    const nz = (q0 * frames[f + 5]! + q1 * frames[f + 8]! + q2 * frames[f + 11]!) / k0;
    const slope = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1e-6;
    const d = (k0 - 1) / slope;
    const w = Math.exp(-Math.min(Math.max(d, -0.3), 0.3) / BLEND_M);
    sum += w;
    gx += (w * nx) / slope;
    gy += (w * ny) / slope;
    gz += (w * nz) / slope;
  }
  const length = Math.sqrt(gx * gx + gy * gy + gz * gz) || 1e-6;
  sample[0] = -BLEND_M * Math.log(sum);
  sample[1] = gx / length;
  sample[2] = gy / length;
  sample[3] = gz / length;
}

/**
 * Writes one body (parts at `at`, room metres) as points and normals from index `first` on (in points).
 * Unused parts (zero axes) collapse to a point.
 */
export function blendBody(
  parts: ArrayLike<number>,
  at: number,
  positions: Float32Array,
  normals: Float32Array,
  first: number,
): void {
  readFrames(parts, at);
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const from = at + part * NUMBERS_PER_PART;
    const used = frames[part * 13 + 12]! > 0;
    const count = used ? findNear(part) : 0;
    for (let k = 0; k < POINTS; k++) {
      const to = (first + part * POINTS + k) * 3;
      const [a, b, c] = [SPHERE.points[k * 3]!, SPHERE.points[k * 3 + 1]!, SPHERE.points[k * 3 + 2]!];
      let x = parts[from]! + parts[from + 3]! * a + parts[from + 6]! * b + parts[from + 9]! * c;
      let y = parts[from + 1]! + parts[from + 4]! * a + parts[from + 7]! * b + parts[from + 10]! * c;
      let z = parts[from + 2]! + parts[from + 5]! * a + parts[from + 8]! * b + parts[from + 11]! * c;
      if (used) {
        measure(x, y, z, count);
        const push = Math.min(Math.max(-sample[0]!, 0), MOST_M);
        x += sample[1]! * push;
        y += sample[2]! * push;
        z += sample[3]! * push;
        if (push > 0.004) measure(x, y, z, count);
        normals[to] = sample[1]!;
        normals[to + 1] = sample[2]!;
        normals[to + 2] = sample[3]!;
      }
      positions[to] = x;
      positions[to + 1] = y;
      positions[to + 2] = z;
    }
  }
}

/** Highest point of a body's ellipsoids, m (0 when it has none). */
export function bodyTopM(parts: ArrayLike<number>, at: number): number {
  let top = 0;
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const f = at + part * NUMBERS_PER_PART;
    const [a, b, c] = [parts[f + 5]!, parts[f + 8]!, parts[f + 11]!];
    if (a === 0 && b === 0 && c === 0) continue;
    top = Math.max(top, parts[f + 2]! + Math.sqrt(a * a + b * b + c * c));
  }
  return top;
}
