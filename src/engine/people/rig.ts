/**
 * Sixteen ellipsoids of one clothed figure from the numbers of a pose. Drawn by the renderer and seen by the detector.
 * Two-bone limbs are solved with square roots alone; only a sweeping forearm needs sine and cosine.
 */
import { cos, sin, sqrt } from '../math.ts';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import {
  FOREARM_M,
  HAND_OFFSET_M,
  HIP_HALF_M,
  NECK_UP_M,
  REACH_SHARE,
  REFERENCE_HEIGHT_M,
  SHANK_M,
  SHOULDER_HALF_M,
  SHOULDER_UP_M,
  THIGH_M,
  UPPER_ARM_M,
} from './anatomy.ts';
import { GIRTH as G } from './girth.ts';
import { HANDS, HIP, LEAN, LEFT_FOOT, POSE_NUMBERS, type Pose, RIGHT_FOOT, SWEEP, TWIST } from './slots.ts';

/** Slots of the ellipsoids of a person. */
export const PART = {
  hair: 0,
  face: 1,
  chest: 2,
  pelvis: 3,
  leftUpperArm: 4,
  rightUpperArm: 5,
  leftForearm: 6,
  rightForearm: 7,
  leftHand: 8,
  rightHand: 9,
  leftThigh: 10,
  rightThigh: 11,
  leftShank: 12,
  rightShank: 13,
  leftFoot: 14,
  rightFoot: 15,
} as const;

/** Index of each slot's PartKind in KINDS (types.ts order: hair, face, clothing, hand, thing). */
export const PERSON_KINDS = Uint8Array.from([0, 1, 2, 2, 2, 2, 2, 2, 3, 3, 2, 2, 2, 2, 2, 2]);

/** Scratch of one call: the body's frame in the room, and the joint found by `solveJoint`. Meaningless between calls. */
const frame = new Float64Array(4);
const joint = new Float64Array(6);

/** Writes a vector of the body frame, turned into the room. */
function turn(out: Float64Array, o: number, x: number, y: number, z: number): void {
  const s = frame[2]!;
  const c = frame[3]!;
  out[o] = c * x + s * y;
  out[o + 1] = c * y - s * x;
  out[o + 2] = z;
}

function centre(out: Float64Array, o: number, x: number, y: number, z: number): void {
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

function leg(pose: Pose, out: Float64Array, base: number, scale: number, right: 0 | 1): void {
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

function arm(
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
  trunk[0] = (rx - 0 * twist) * n;
  trunk[1] = (ry + fy * twist) * n;
  trunk[2] = (rz + fz * twist) * n;
  trunk[3] = -rx * twist * n;
  trunk[4] = (fy - ry * twist) * n;
  trunk[5] = (fz - rz * twist) * n;
  trunk[6] = lx;
  trunk[7] = ly;
  trunk[8] = uz;
}

/** Ellipsoid at (x, y, z) with its axes along right, forward, up of `trunk` where `upright` turns up half way back. */
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
