/** Walking: opposite arms and legs, feet that stay where they stand. */
import { cos, PI, sin, sqrt } from '../math.ts';
import { TICK_S } from '../units.ts';
import { REFERENCE_HEIGHT_M } from './anatomy.ts';
import { HANDS, HIP, LEAN, LEFT_FOOT, type Pose, RIGHT_FOOT, type Slot, TWIST } from './slots.ts';
import { bump, ramp, smooth } from './timing.ts';
import type { PersonState } from './types.ts';

/** Step length over step rate, m per step/min. Source: walk ratio of adults about .0065, nearly independent of speed
 *  (Sekiya and co-workers, 1990s), from memory. A larger ratio means fewer, longer steps. */
const WALK_RATIO = 0.0065;
/** Share of the cycle a foot stands. Source: about 62 % in ordinary walking, gait textbooks, from memory. */
export const STANCE_SHARE = 0.62;
/** Feet cover at most this in a stance, m at the reference height; faster walkers slide. Assumed: leg length. Reached at 1.7 m/s. */
const STANCE_LIMIT_M = 1.0;
/** Strides grow and fade within this many ticks. Assumed: .4 s, less than a step; the place moves evenly meanwhile. */
const STRIDE_TICKS = 4;
/** Middle of double support after the leading foot's landing, cycles. Source: half of (stance - 1/2). */
const DOUBLE_SUPPORT = (STANCE_SHARE - 0.5) / 2;

/** Gait cycles (two steps) per second and half the ground covered in a stance, m. Leg length scales the walk ratio. */
export function gaitOf(speedMps: number, heightM: number): { cycleHz: number; strideM: number } {
  const scale = heightM / REFERENCE_HEIGHT_M;
  const stepsPerMinute = sqrt((60 * speedMps) / (WALK_RATIO * scale));
  const cycleHz = stepsPerMinute / 120;
  const stanceM = (speedMps / cycleHz) * STANCE_SHARE;
  return { cycleHz, strideM: Math.min(stanceM, STANCE_LIMIT_M * scale) / 2 };
}

/** Half stance length at an instant (ticks), m: grown or faded. */
export function strideAtM(person: PersonState, t: number): number {
  const grown = smooth(ramp(t, person.strideStartTick, STRIDE_TICKS));
  const stride = person.strideFromM + (person.strideToM - person.strideFromM) * grown;
  if (person.strideEndTick === null) return stride;
  return stride * smooth(1 - ramp(t, person.strideEndTick - STRIDE_TICKS, STRIDE_TICKS));
}

export function gaitPhaseAt(person: PersonState, t: number): number {
  const phase = person.gaitPhase + person.gaitHz * (t - person.strideStartTick) * TICK_S;
  return phase - Math.floor(phase);
}

/** Foot ahead of the hips in units of half a stance; standing it goes back evenly, swinging it meets that speed again. */
function footAhead(phase: number): number {
  if (phase < STANCE_SHARE) return 1 - (2 * phase) / STANCE_SHARE;
  const u = (phase - STANCE_SHARE) / (1 - STANCE_SHARE);
  const slope = (-2 / STANCE_SHARE) * (1 - STANCE_SHARE);
  const w = 1 - u;
  // Cubic Hermite from -1 to +1 with the standing foot's own speed at both ends.
  return -(1 + 2 * u) * w * w + u * u * (3 - 2 * u) + slope * (u * w * w - u * u * w);
}

/** Scratch of one walker at one instant: phase of the foot at hand, half a stance (m), scale, how far the hips are down (m),
 *  how far the hand at hand is ahead (m in half stances). Passed one by one each number would be boxed. */
const PHASE = 0;
const STRIDE = 1;
const SCALE = 2;
const DROP = 3;
const AHEAD = 4;
const now = new Float64Array(5);

function placeFoot(out: Pose, foot: Slot): void {
  const phase = now[PHASE]!;
  const stride = now[STRIDE]!;
  const scale = now[SCALE]!;
  out[foot + 1] = out[foot + 1]! + stride * footAhead(phase);
  const leaving = ramp(phase, STANCE_SHARE - 0.2, 0.3);
  const heel = phase < STANCE_SHARE + 0.1 ? smooth(leaving) : smooth(1 - ramp(phase, STANCE_SHARE + 0.1, 0.22));
  const swing = bump(ramp(phase, STANCE_SHARE, 1 - STANCE_SHARE));
  const size = stride / (0.39 * scale);
  // The rising heel rolls over the toes and takes the ankle forward.
  out[foot + 1] = out[foot + 1]! + 0.085 * heel * size * scale;
  out[foot + 2] = out[foot + 2]! + (0.075 * heel + 0.035 * swing) * size * scale;
  // Toes down while leaving, up just before landing.
  out[foot + 3] = (0.62 * heel - 0.22 * bump(ramp(phase < 0.5 ? phase + 1 : phase, 0.88, 0.22))) * Math.min(size, 1.2);
}

/** Adds the walk to a standing pose. Nothing when the stride is 0. */
export function addGait(person: PersonState, t: number, scale: number, out: Pose): void {
  const stride = strideAtM(person, t);
  if (stride <= 0) return;
  const phase = gaitPhaseAt(person, t);
  now[STRIDE] = stride;
  now[SCALE] = scale;
  now[PHASE] = phase;
  placeFoot(out, LEFT_FOOT);
  now[PHASE] = phase < 0.5 ? phase + 0.5 : phase - 0.5;
  placeFoot(out, RIGHT_FOOT);
  const sq = (stride * stride) / scale;
  // Hips lowest in double support (legs spread), highest over the standing leg.
  const dropM = sq * (0.33 + 0.19 * cos(4 * PI * (phase - DOUBLE_SUPPORT)));
  out[HIP + 2] = out[HIP + 2]! - dropM;
  const swing = cos(2 * PI * (phase - DOUBLE_SUPPORT));
  out[HIP] = out[HIP]! - 0.05 * stride * sin(2 * PI * (phase - DOUBLE_SUPPORT));
  out[LEAN + 1] = out[LEAN + 1]! + 0.1 * stride;
  // Right arm goes with the left leg.
  out[TWIST] = 0.25 * stride * swing;
  now[DROP] = dropM;
  now[AHEAD] = -swing * stride;
  swingHand(out, HANDS);
  now[AHEAD] = swing * stride;
  swingHand(out, HANDS + 3);
}

/** Moves a wrist on a shallow arc about the shoulder. */
function swingHand(out: Pose, hand: Slot): void {
  const ahead = now[AHEAD]!;
  const dropM = now[DROP]!;
  const scale = now[SCALE]!;
  const forward = ahead * 0.62 + Math.abs(ahead) * 0.08;
  out[hand + 1] = out[hand + 1]! + forward + 0.02 * scale;
  out[hand + 2] = out[hand + 2]! - dropM + (forward * forward * (forward > 0 ? 1.25 : 0.7)) / scale;
}
