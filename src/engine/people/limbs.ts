/**
 * Arms and legs of the figure: two bones solved with square roots alone; only a sweeping forearm needs sine and cosine.
 * All lengths in metres in the body frame (x right, y forward, z up) until `turn` brings them into the room.
 */
import { cos, sin, sqrt } from '../math.ts';
import { NUMBERS_PER_PART } from '../types.ts';
import { FOREARM_M, HAND_OFFSET_M, HIP_HALF_M, REACH_SHARE, SHANK_M, THIGH_M, UPPER_ARM_M } from './anatomy.ts';
import { GIRTH as G, PART } from './girth.ts';
import { HANDS, HIP, LEFT_FOOT, type Pose, RIGHT_FOOT, SWEEP } from './slots.ts';

/** Scratch of one call: the body's frame in the room, and the joint found by `solveJoint`. Meaningless between calls. */
export const frame = new Float64Array(4);
const joint = new Float64Array(6);

/** Writes a vector of the body frame, turned into the room. */
export function turn(out: Float64Array, o: number, x: number, y: number, z: number): void {
  const s = frame[2]!;
  const c = frame[3]!;
  out[o] = c * x + s * y;
  out[o + 1] = c * y - s * x;
  out[o + 2] = z;
}

/** Writes a place of the body frame, turned and moved into the room. */
export function centre(out: Float64Array, o: number, x: number, y: number, z: number): void {
  turn(out, o, x, y, z);
  out[o] = out[o]! + frame[0]!;
  out[o + 1] = out[o + 1]! + frame[1]!;
}

/** A limb between two points: round, `radius` thick, its tips `over` beyond the joints. */
function limb(
  out: Float64Array,
  o: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  radius: number,
  over: number,
): void {
  centre(out, o, (ax + bx) / 2, (ay + by) / 2, (az + bz) / 2);
  let x = bx - ax;
  let y = by - ay;
  let z = bz - az;
  const length = sqrt(x * x + y * y + z * z);
  x /= length;
  y /= length;
  z /= length;
  const half = length / 2 + over;
  turn(out, o + 3, x * half, y * half, z * half);
  // Any pair across will do, the section is round: start from the axis least along the limb.
  let px: number;
  let py: number;
  let pz: number;
  if (x * x < 0.5) {
    const n = radius / sqrt(y * y + z * z);
    px = 0;
    py = z * n;
    pz = -y * n;
  } else {
    const n = radius / sqrt(x * x + z * z);
    px = -z * n;
    py = 0;
    pz = x * n;
  }
  turn(out, o + 6, px, py, pz);
  turn(out, o + 9, y * pz - z * py, z * px - x * pz, x * py - y * px);
}

/**
 * Joint between two bones from `a` towards `t`, bent towards the pole p. Leaves the joint and the end reached in `joint`.
 * Targets out of reach are brought in along the same line.
 */
function solveJoint(
  ax: number,
  ay: number,
  az: number,
  tx: number,
  ty: number,
  tz: number,
  upper: number,
  lower: number,
  px: number,
  py: number,
  pz: number,
): void {
  let x = tx - ax;
  let y = ty - ay;
  let z = tz - az;
  const far = sqrt(x * x + y * y + z * z);
  x /= far;
  y /= far;
  z /= far;
  const most = (upper + lower) * REACH_SHARE;
  const d = Math.min(far, most);
  const along = (upper * upper - lower * lower + d * d) / (2 * d);
  const across = sqrt(Math.max(upper * upper - along * along, 0));
  const dot = px * x + py * y + pz * z;
  const qx = px - dot * x;
  const qy = py - dot * y;
  const qz = pz - dot * z;
  const n = across / sqrt(qx * qx + qy * qy + qz * qz);
  joint[0] = ax + along * x + n * qx;
  joint[1] = ay + along * y + n * qy;
  joint[2] = az + along * z + n * qz;
  joint[3] = ax + d * x;
  joint[4] = ay + d * y;
  joint[5] = az + d * z;
}

/** Thigh, shank and foot; `right` 0 or 1. */
export function leg(pose: Pose, out: Float64Array, base: number, scale: number, right: 0 | 1): void {
  const foot = right === 1 ? RIGHT_FOOT : LEFT_FOOT;
  const hx = pose[HIP]! + (right === 1 ? HIP_HALF_M : -HIP_HALF_M) * scale;
  const hy = pose[HIP + 1]!;
  const hz = pose[HIP + 2]!;
  const outward = right === 1 ? 0.12 : -0.12;
  solveJoint(
    hx,
    hy,
    hz,
    pose[foot]!,
    pose[foot + 1]!,
    pose[foot + 2]!,
    THIGH_M * scale,
    SHANK_M * scale,
    outward,
    1,
    0.25,
  );
  const kx = joint[0]!;
  const ky = joint[1]!;
  const kz = joint[2]!;
  const ex = joint[3]!;
  const ey = joint[4]!;
  const ez = joint[5]!;
  limb(
    out,
    base + (PART.leftThigh + right) * NUMBERS_PER_PART,
    hx,
    hy,
    hz,
    kx,
    ky,
    kz,
    G.thigh * scale,
    G.thighOver * scale,
  );
  limb(
    out,
    base + (PART.leftShank + right) * NUMBERS_PER_PART,
    kx,
    ky,
    kz,
    ex,
    ey,
    ez,
    G.shank * scale,
    G.shankOver * scale,
  );
  const down = pose[foot + 3]!;
  const level = sqrt(1 - down * down);
  const o = base + (PART.leftFoot + right) * NUMBERS_PER_PART;
  const ahead = G.footAhead * scale;
  const drop = G.footDrop * scale;
  centre(out, o, ex, ey + ahead * level - drop * down, ez - ahead * down - drop * level);
  turn(out, o + 3, 0, G.footLong * scale * level, -G.footLong * scale * down);
  turn(out, o + 6, G.footWide * scale, 0, 0);
  turn(out, o + 9, 0, G.footHigh * scale * down, G.footHigh * scale * level);
}

/** Upper arm, forearm and hand from the shoulder joint (sx, sy, sz). */
export function arm(
  pose: Pose,
  out: Float64Array,
  base: number,
  scale: number,
  right: 0 | 1,
  sx: number,
  sy: number,
  sz: number,
): void {
  const hand = HANDS + right * 3;
  const outward = right === 1 ? 0.45 : -0.45;
  solveJoint(
    sx,
    sy,
    sz,
    pose[hand]!,
    pose[hand + 1]!,
    pose[hand + 2]!,
    UPPER_ARM_M * scale,
    FOREARM_M * scale,
    outward,
    -1,
    -0.3,
  );
  const ex = joint[0]!;
  const ey = joint[1]!;
  const ez = joint[2]!;
  let fx = joint[3]! - ex;
  let fy = joint[4]! - ey;
  const fz = joint[5]! - ez;
  const sweep = pose[SWEEP + right]!;
  if (sweep !== 0) {
    const angle = right === 1 ? sweep : -sweep;
    const c = cos(angle);
    const s = sin(angle);
    const x = fx;
    fx = c * x + s * fy;
    fy = c * fy - s * x;
  }
  const over = G.armOver * scale;
  limb(out, base + (PART.leftUpperArm + right) * NUMBERS_PER_PART, sx, sy, sz, ex, ey, ez, G.upperArm * scale, over);
  const wx = ex + fx;
  const wy = ey + fy;
  const wz = ez + fz;
  limb(
    out,
    base + (PART.leftForearm + right) * NUMBERS_PER_PART,
    ex,
    ey,
    ez,
    wx,
    wy,
    wz,
    G.forearm * scale,
    G.forearmOver * scale,
  );
  const k = HAND_OFFSET_M / FOREARM_M;
  const reach = G.handHalf / FOREARM_M;
  const o = base + (PART.leftHand + right) * NUMBERS_PER_PART;
  limb(
    out,
    o,
    wx + fx * (k - reach),
    wy + fy * (k - reach),
    wz + fz * (k - reach),
    wx + fx * (k + reach),
    wy + fy * (k + reach),
    wz + fz * (k + reach),
    G.hand * scale,
    0,
  );
}
