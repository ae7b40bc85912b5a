/**
 * Sixteen ellipsoids of one clothed figure from the numbers of a pose: drawn by the renderer and seen by the detector.
 */
import { sqrt } from '../math.ts';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import { NECK_UP_M, REFERENCE_HEIGHT_M, SHOULDER_HALF_M, SHOULDER_UP_M } from './anatomy.ts';
import { GIRTH as G, PART } from './girth.ts';
import { frame, placeHands, placeRoots, points, SHOULDERS, solveChains, writeFeet, writeLimbs } from './limbs.ts';
import { BEARING, HIP, LEAN, PLACE, POSE_NUMBERS, type Pose, TWIST } from './slots.ts';

/** Length of a body in BodyBuffer.parts. */
export const BODY_STRIDE = PARTS_PER_BODY * NUMBERS_PER_PART;

/** Scratch of one figure: unit axes right, forward, up of the trunk (0-8) and of the head (9-17), body frame. */
const axes = new Float64Array(18);

/** Axes of a trunk whose up leans by (lx, ly), its right and forward turned by the twist, at `a` in `axes`. */
function solveAxes(pose: Pose, a: number, share: number, twisted: number): void {
  const lx = pose[LEAN]! * share;
  const ly = pose[LEAN + 1]! * share;
  const uz = sqrt(Math.max(1 - lx * lx - ly * ly, 0.01));
  const fn = 1 / sqrt(uz * uz + ly * ly);
  const fy = uz * fn;
  const fz = -ly * fn;
  const rx = fy * uz - fz * ly;
  const ry = fz * lx;
  const rz = -fy * lx;
  const twist = pose[TWIST]! * twisted;
  const n = 1 / sqrt(1 + twist * twist);
  axes[a] = rx * n;
  axes[a + 1] = (ry + fy * twist) * n;
  axes[a + 2] = (rz + fz * twist) * n;
  axes[a + 3] = -rx * twist * n;
  axes[a + 4] = (fy - ry * twist) * n;
  axes[a + 5] = (fz - rz * twist) * n;
  axes[a + 6] = lx;
  axes[a + 7] = ly;
  axes[a + 8] = uz;
}

function placeShoulders(pose: Pose): void {
  const scale = frame[4]!;
  for (let axis = 0; axis < 3; axis++) {
    const middle = pose[HIP + axis]! + axes[6 + axis]! * SHOULDER_UP_M * scale;
    const aside = axes[axis]! * SHOULDER_HALF_M * scale;
    points[SHOULDERS + axis] = middle - aside;
    points[SHOULDERS + 3 + axis] = middle + aside;
  }
}

/** Trunk and head: slot, axes, up along the trunk, up and ahead along its own axes, half axes wide, deep, high. */
const blocks = [
  [PART.chest, 0, G.chestUp, 0, 0, G.chestWide, G.chestDeep, G.chestHigh],
  [PART.pelvis, 0, G.pelvisUp, 0, 0, G.pelvisWide, G.pelvisDeep, G.pelvisHigh],
  [PART.hair, 9, NECK_UP_M, G.hairUp, 0, G.hairWide, G.hairDeep, G.hairHigh],
  [PART.face, 9, NECK_UP_M, G.faceUp, G.faceAhead, G.faceWide, G.faceDeep, G.faceHigh],
] as const;
const BLOCKS = blocks.length;
const blockPlaces = Int32Array.from(blocks.flatMap(([slot, a]) => [slot * NUMBERS_PER_PART, a]));
const blockNumbers = Float64Array.from(blocks.flatMap(([, , ...numbers]) => numbers));

function writeBlocks(pose: Pose, out: Float64Array, base: number): void {
  const s = frame[2]!;
  const c = frame[3]!;
  const scale = frame[4]!;
  for (let i = 0; i < BLOCKS; i++) {
    const o = base + blockPlaces[i * 2]!;
    const a = blockPlaces[i * 2 + 1]!;
    const k = i * 6;
    const trunk = blockNumbers[k]! * scale;
    const up = blockNumbers[k + 1]! * scale;
    const ahead = blockNumbers[k + 2]! * scale;
    const x = pose[HIP]! + axes[6]! * trunk + axes[a + 6]! * up + axes[a + 3]! * ahead;
    const y = pose[HIP + 1]! + axes[7]! * trunk + axes[a + 7]! * up + axes[a + 4]! * ahead;
    out[o] = frame[0]! + c * x + s * y;
    out[o + 1] = frame[1]! + c * y - s * x;
    out[o + 2] = pose[HIP + 2]! + axes[8]! * trunk + axes[a + 8]! * up + axes[a + 5]! * ahead;
    for (let v = 0; v < 3; v++) {
      const size = blockNumbers[k + 3 + v]! * scale;
      const ax = axes[a + v * 3]! * size;
      const ay = axes[a + v * 3 + 1]! * size;
      out[o + 3 + v * 3] = c * ax + s * ay;
      out[o + 4 + v * 3] = c * ay - s * ax;
      out[o + 5 + v * 3] = axes[a + v * 3 + 2]! * size;
    }
  }
}

/** Writes PARTS_PER_BODY ellipsoids of a figure of `heightM` at `base` in `out`. */
export function writeRig(pose: Pose, heightM: number, out: Float64Array, base: number): void {
  frame[0] = pose[PLACE]!;
  frame[1] = pose[PLACE + 1]!;
  frame[2] = pose[BEARING]!;
  frame[3] = pose[BEARING + 1]!;
  frame[4] = heightM / REFERENCE_HEIGHT_M;
  solveAxes(pose, 0, 1, 1);
  // The head stays half as bent as the trunk and looks ahead.
  solveAxes(pose, 9, 0.5, 0);
  placeRoots(pose);
  placeShoulders(pose);
  solveChains();
  placeHands(pose);
  writeLimbs(out, base);
  writeFeet(pose, out, base);
  writeBlocks(pose, out, base);
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
