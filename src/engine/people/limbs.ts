/**
 * Arms and legs of the figure: two bones each, solved with square roots alone; only a sweeping forearm needs sine and
 * cosine. Numbers travel between the steps in small arrays, not as arguments: the host would box each one.
 * Lengths in metres in the body frame (x right, y forward, z up) until `writeLimbs` turns them into the room.
 */
import { cos, sin, sqrt } from '../math.ts';
import { NUMBERS_PER_PART } from '../types.ts';
import { FOREARM_M, HAND_OFFSET_M, HIP_HALF_M, REACH_SHARE, SHANK_M, THIGH_M, UPPER_ARM_M } from './anatomy.ts';
import { GIRTH as G, PART } from './girth.ts';
import { HANDS, HIP, LEFT_FOOT, type Pose, RIGHT_FOOT, SWEEP } from './slots.ts';

/** Scratch of one figure: floor place x, y, sine and cosine of the bearing, scale. Meaningless between figures. */
export const frame = new Float64Array(5);

/** Points of the skeleton, three numbers each; left then right. */
const POINT = { hip: 0, knee: 2, ankle: 4, shoulder: 6, elbow: 8, wrist: 10, palm: 12, tip: 14 } as const;
/** Scratch of one figure. */
export const points = new Float64Array(16 * 3);
/** Where the shoulder joints go in `points`. */
export const SHOULDERS: number = POINT.shoulder * 3;

/** Two bones between a root and a target; the joint between is bent towards a pole. */
interface Chain {
  root: number;
  joint: number;
  target: number;
  upper: number;
  lower: number;
  pole: readonly [number, number, number];
}

const chains: Chain[] = [0, 1].flatMap((side) => {
  const outward = side === 0 ? -1 : 1;
  const leg: Chain = {
    root: POINT.hip + side,
    joint: POINT.knee + side,
    target: POINT.ankle + side,
    upper: THIGH_M,
    lower: SHANK_M,
    pole: [0.12 * outward, 1, 0.25],
  };
  const arm: Chain = {
    root: POINT.shoulder + side,
    joint: POINT.elbow + side,
    target: POINT.wrist + side,
    upper: UPPER_ARM_M,
    lower: FOREARM_M,
    pole: [0.45 * outward, -1, -0.3],
  };
  return [leg, arm];
});
const CHAINS = chains.length;
const chainPoints = Int32Array.from(chains.flatMap((c) => [c.root * 3, c.joint * 3, c.target * 3]));
const chainNumbers = Float64Array.from(chains.flatMap((c) => [c.upper, c.lower, ...c.pole]));

/** Round parts between two points: radius, and how far the tips lie beyond. */
const limbs = [0, 1].flatMap((side) =>
  (
    [
      [PART.leftUpperArm, POINT.shoulder, POINT.elbow, G.upperArm, G.armOver],
      [PART.leftForearm, POINT.elbow, POINT.wrist, G.forearm, G.forearmOver],
      [PART.leftHand, POINT.palm, POINT.tip, G.hand, 0],
      [PART.leftThigh, POINT.hip, POINT.knee, G.thigh, G.thighOver],
      [PART.leftShank, POINT.knee, POINT.ankle, G.shank, G.shankOver],
    ] as const
  ).map(([slot, from, to, radius, over]) => ({ slot: slot + side, from: from + side, to: to + side, radius, over })),
);
const LIMBS = limbs.length;
const limbPlaces = Int32Array.from(limbs.flatMap((l) => [l.slot * NUMBERS_PER_PART, l.from * 3, l.to * 3]));
const limbNumbers = Float64Array.from(limbs.flatMap((l) => [l.radius, l.over]));

/** Hips, ankles and wrists of a pose into `points`; shoulders are the trunk's. */
export function placeRoots(pose: Pose): void {
  const scale = frame[4]!;
  for (let side = 0; side < 2; side++) {
    const hip = (POINT.hip + side) * 3;
    points[hip] = pose[HIP]! + (side === 0 ? -HIP_HALF_M : HIP_HALF_M) * scale;
    points[hip + 1] = pose[HIP + 1]!;
    points[hip + 2] = pose[HIP + 2]!;
    const ankle = (POINT.ankle + side) * 3;
    const foot = side === 0 ? LEFT_FOOT : RIGHT_FOOT;
    const wrist = (POINT.wrist + side) * 3;
    const hand = HANDS + side * 3;
    for (let axis = 0; axis < 3; axis++) {
      points[ankle + axis] = pose[foot + axis]!;
      points[wrist + axis] = pose[hand + axis]!;
    }
  }
}

/** Knees and elbows. Targets out of reach are brought in along the same line. */
export function solveChains(): void {
  const scale = frame[4]!;
  for (let i = 0; i < CHAINS; i++) {
    const a = chainPoints[i * 3]!;
    const j = chainPoints[i * 3 + 1]!;
    const t = chainPoints[i * 3 + 2]!;
    const upper = chainNumbers[i * 5]! * scale;
    const lower = chainNumbers[i * 5 + 1]! * scale;
    const px = chainNumbers[i * 5 + 2]!;
    const py = chainNumbers[i * 5 + 3]!;
    const pz = chainNumbers[i * 5 + 4]!;
    const ax = points[a]!;
    const ay = points[a + 1]!;
    const az = points[a + 2]!;
    let x = points[t]! - ax;
    let y = points[t + 1]! - ay;
    let z = points[t + 2]! - az;
    const far = sqrt(x * x + y * y + z * z);
    x /= far;
    y /= far;
    z /= far;
    const d = Math.min(far, (upper + lower) * REACH_SHARE);
    const along = (upper * upper - lower * lower + d * d) / (2 * d);
    const dot = px * x + py * y + pz * z;
    const qx = px - dot * x;
    const qy = py - dot * y;
    const qz = pz - dot * z;
    const n = sqrt(Math.max(upper * upper - along * along, 0) / (qx * qx + qy * qy + qz * qz));
    points[j] = ax + along * x + n * qx;
    points[j + 1] = ay + along * y + n * qy;
    points[j + 2] = az + along * z + n * qz;
    points[t] = ax + d * x;
    points[t + 1] = ay + d * y;
    points[t + 2] = az + d * z;
  }
}

/** Sweeps forearms about the upright through the elbow, and lays the hands along them. */
export function placeHands(pose: Pose): void {
  const near = (HAND_OFFSET_M - G.handHalf) / FOREARM_M;
  const far = (HAND_OFFSET_M + G.handHalf) / FOREARM_M;
  for (let side = 0; side < 2; side++) {
    const e = (POINT.elbow + side) * 3;
    const w = (POINT.wrist + side) * 3;
    let x = points[w]! - points[e]!;
    let y = points[w + 1]! - points[e + 1]!;
    const z = points[w + 2]! - points[e + 2]!;
    const sweep = pose[SWEEP + side]!;
    if (sweep !== 0) {
      const angle = side === 0 ? -sweep : sweep;
      const c = cos(angle);
      const s = sin(angle);
      const straight = x;
      x = c * x + s * y;
      y = c * y - s * straight;
      points[w] = points[e]! + x;
      points[w + 1] = points[e + 1]! + y;
    }
    const palm = (POINT.palm + side) * 3;
    const tip = (POINT.tip + side) * 3;
    points[palm] = points[w]! + x * near;
    points[palm + 1] = points[w + 1]! + y * near;
    points[palm + 2] = points[w + 2]! + z * near;
    points[tip] = points[w]! + x * far;
    points[tip + 1] = points[w + 1]! + y * far;
    points[tip + 2] = points[w + 2]! + z * far;
  }
}

/** Round ellipsoids along all limbs, in the room. */
export function writeLimbs(out: Float64Array, base: number): void {
  const s = frame[2]!;
  const c = frame[3]!;
  const scale = frame[4]!;
  for (let i = 0; i < LIMBS; i++) {
    const o = base + limbPlaces[i * 3]!;
    const a = limbPlaces[i * 3 + 1]!;
    const b = limbPlaces[i * 3 + 2]!;
    const mx = (points[a]! + points[b]!) / 2;
    const my = (points[a + 1]! + points[b + 1]!) / 2;
    // Turned into the room at once: what follows works in room axes.
    const bx = points[b]! - points[a]!;
    const by = points[b + 1]! - points[a + 1]!;
    let z = points[b + 2]! - points[a + 2]!;
    const length = sqrt(bx * bx + by * by + z * z);
    const x = (c * bx + s * by) / length;
    const y = (c * by - s * bx) / length;
    z /= length;
    const radius = limbNumbers[i * 2]! * scale;
    const half = length / 2 + limbNumbers[i * 2 + 1]! * scale;
    out[o] = frame[0]! + c * mx + s * my;
    out[o + 1] = frame[1]! + c * my - s * mx;
    out[o + 2] = (points[a + 2]! + points[b + 2]!) / 2;
    out[o + 3] = x * half;
    out[o + 4] = y * half;
    out[o + 5] = z * half;
    // Any pair across will do, the section is round: one level, one square to both.
    let px = 1;
    let py = 0;
    const level = x * x + y * y;
    if (level > 1e-12) {
      const n = 1 / sqrt(level);
      px = y * n;
      py = -x * n;
    }
    px *= radius;
    py *= radius;
    out[o + 6] = px;
    out[o + 7] = py;
    out[o + 8] = 0;
    out[o + 9] = -z * py;
    out[o + 10] = z * px;
    out[o + 11] = x * py - y * px;
  }
}

/** Feet from the ankles, pitched by the rising heel. */
export function writeFeet(pose: Pose, out: Float64Array, base: number): void {
  const s = frame[2]!;
  const c = frame[3]!;
  const scale = frame[4]!;
  for (let side = 0; side < 2; side++) {
    const down = pose[(side === 0 ? LEFT_FOOT : RIGHT_FOOT) + 3]!;
    const level = sqrt(1 - down * down);
    const ankle = (POINT.ankle + side) * 3;
    const o = base + (PART.leftFoot + side) * NUMBERS_PER_PART;
    const ahead = G.footAhead * scale;
    const drop = G.footDrop * scale;
    const x = points[ankle]!;
    const y = points[ankle + 1]! + ahead * level - drop * down;
    out[o] = frame[0]! + c * x + s * y;
    out[o + 1] = frame[1]! + c * y - s * x;
    out[o + 2] = points[ankle + 2]! - ahead * down - drop * level;
    const long = G.footLong * scale;
    out[o + 3] = s * long * level;
    out[o + 4] = c * long * level;
    out[o + 5] = -long * down;
    const wide = G.footWide * scale;
    out[o + 6] = c * wide;
    out[o + 7] = -s * wide;
    out[o + 8] = 0;
    const high = G.footHigh * scale;
    out[o + 9] = s * high * down;
    out[o + 10] = c * high * down;
    out[o + 11] = high * level;
  }
}
