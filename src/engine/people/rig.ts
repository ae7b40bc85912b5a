/**
 * Sixteen ellipsoids of one clothed figure from the numbers of a pose: drawn by the renderer and seen by the detector.
 */
import { sqrt } from '../math.ts';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import { NECK_UP_M, REFERENCE_HEIGHT_M, SHOULDER_HALF_M, SHOULDER_UP_M } from './anatomy.ts';
import { GIRTH as G, PART } from './girth.ts';
import { arm, centre, frame, leg, turn } from './limbs.ts';
import { HIP, LEAN, POSE_NUMBERS, type Pose, TWIST } from './slots.ts';

/** Unit axes of the trunk: right 0-2, forward 3-5, up 6-8. Scratch of one call. */
const trunk = new Float64Array(9);

function solveTrunk(pose: Pose): void {
  const lx = pose[LEAN]!;
  const ly = pose[LEAN + 1]!;
  const uz = sqrt(Math.max(1 - lx * lx - ly * ly, 0.01));
  // Forward and right across the trunk, then turned by the twist.
  const fn = 1 / sqrt(uz * uz + ly * ly);
  const fy = uz * fn;
  const fz = -ly * fn;
  const rx = fy * uz - fz * ly;
  const ry = fz * lx;
  const rz = -fy * lx;
  const twist = pose[TWIST]!;
  const n = 1 / sqrt(1 + twist * twist);
  trunk[0] = rx * n;
  trunk[1] = (ry + fy * twist) * n;
  trunk[2] = (rz + fz * twist) * n;
  trunk[3] = -rx * twist * n;
  trunk[4] = (fy - ry * twist) * n;
  trunk[5] = (fz - rz * twist) * n;
  trunk[6] = lx;
  trunk[7] = ly;
  trunk[8] = uz;
}

/** Ellipsoid at (x, y, z) with its half axes along right, forward and up of `trunk`. */
function block(
  out: Float64Array,
  o: number,
  x: number,
  y: number,
  z: number,
  wide: number,
  deep: number,
  high: number,
): void {
  centre(out, o, x, y, z);
  turn(out, o + 3, trunk[6]! * high, trunk[7]! * high, trunk[8]! * high);
  turn(out, o + 6, trunk[0]! * wide, trunk[1]! * wide, trunk[2]! * wide);
  turn(out, o + 9, trunk[3]! * deep, trunk[4]! * deep, trunk[5]! * deep);
}

/** The head stays half as bent as the trunk. */
function head(pose: Pose, out: Float64Array, base: number, scale: number, nx: number, ny: number, nz: number): void {
  let ux = pose[LEAN]! / 2;
  let uy = pose[LEAN + 1]! / 2;
  let uz = sqrt(1 - ux * ux - uy * uy);
  trunk[6] = ux;
  trunk[7] = uy;
  trunk[8] = uz;
  const fn = 1 / sqrt(uz * uz + uy * uy);
  trunk[3] = 0;
  trunk[4] = uz * fn;
  trunk[5] = -uy * fn;
  trunk[0] = trunk[4]! * uz - trunk[5]! * uy;
  trunk[1] = trunk[5]! * ux;
  trunk[2] = -trunk[4]! * ux;
  const fy = trunk[4]! * G.faceAhead * scale;
  const fz = trunk[5]! * G.faceAhead * scale;
  ux *= scale;
  uy *= scale;
  uz *= scale;
  const h = G.hairUp;
  const f = G.faceUp;
  block(out, base, nx + ux * h, ny + uy * h, nz + uz * h, G.hairWide * scale, G.hairDeep * scale, G.hairHigh * scale);
  const o = base + PART.face * NUMBERS_PER_PART;
  block(
    out,
    o,
    nx + ux * f,
    ny + uy * f + fy,
    nz + uz * f + fz,
    G.faceWide * scale,
    G.faceDeep * scale,
    G.faceHigh * scale,
  );
}

/** Writes PARTS_PER_BODY ellipsoids of a figure of `heightM` at `base` in `out`. */
export function writeRig(pose: Pose, heightM: number, out: Float64Array, base: number): void {
  const scale = heightM / REFERENCE_HEIGHT_M;
  frame[0] = pose[0]!;
  frame[1] = pose[1]!;
  frame[2] = pose[2]!;
  frame[3] = pose[3]!;
  leg(pose, out, base, scale, 0);
  leg(pose, out, base, scale, 1);
  solveTrunk(pose);
  const hx = pose[HIP]!;
  const hy = pose[HIP + 1]!;
  const hz = pose[HIP + 2]!;
  const ux = trunk[6]! * scale;
  const uy = trunk[7]! * scale;
  const uz = trunk[8]! * scale;
  let k: number = G.chestUp;
  block(
    out,
    base + PART.chest * NUMBERS_PER_PART,
    hx + ux * k,
    hy + uy * k,
    hz + uz * k,
    G.chestWide * scale,
    G.chestDeep * scale,
    G.chestHigh * scale,
  );
  k = G.pelvisUp;
  block(
    out,
    base + PART.pelvis * NUMBERS_PER_PART,
    hx + ux * k,
    hy + uy * k,
    hz + uz * k,
    G.pelvisWide * scale,
    G.pelvisDeep * scale,
    G.pelvisHigh * scale,
  );
  const mx = hx + ux * SHOULDER_UP_M;
  const my = hy + uy * SHOULDER_UP_M;
  const mz = hz + uz * SHOULDER_UP_M;
  const wx = trunk[0]! * SHOULDER_HALF_M * scale;
  const wy = trunk[1]! * SHOULDER_HALF_M * scale;
  const wz = trunk[2]! * SHOULDER_HALF_M * scale;
  head(pose, out, base, scale, hx + ux * NECK_UP_M, hy + uy * NECK_UP_M, hz + uz * NECK_UP_M);
  arm(pose, out, base, scale, 0, mx - wx, my - wy, mz - wz);
  arm(pose, out, base, scale, 1, mx + wx, my + wy, mz + wz);
}

/** Irrational weights that tell poses apart; equal sums of different poses would need a coincidence of one in 10^13. */
const KEY_WEIGHTS = new Float64Array(POSE_NUMBERS);
for (let i = 0; i < POSE_NUMBERS; i++) KEY_WEIGHTS[i] = sqrt(2 + 3 * i * i + 7 * i) * (1 + i / 13);

/** One number that stays the same exactly while the pose does. */
export function poseKeyOf(pose: Pose, heightM: number): number {
  let key = 10 + heightM;
  for (let i = 0; i < POSE_NUMBERS; i++) key += KEY_WEIGHTS[i]! * pose[i]!;
  return key;
}

/** Length of a body in BodyBuffer.parts. */
export const BODY_STRIDE = PARTS_PER_BODY * NUMBERS_PER_PART;
