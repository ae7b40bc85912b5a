/** Gestures: bounded movements on top of a pose. Each starts and ends at rest. */
import { PI, sin } from '../math.ts';
import type { Activity } from '../types.ts';
import { SHOULDER_UP_M } from './anatomy.ts';
import { HANDS, HIP, LEAN, type Pose, SWEEP } from './slots.ts';
import { bump, plateau, ramp } from './timing.ts';
import type { Gesture, GestureKind } from './types.ts';

/** Amplitude of hands while typing, m. Source: the movement that seated ranges are stated for. */
const TYPE_M = 0.05;
/** Forearm sweep of a reach, rad. Source: 90 degrees at about 90 degrees a second, as NEMA WD 7 tests minor motion (trade press). */
const REACH_RAD = PI / 2;
/** Shoulders go this far forward in a lean, m. Source: the movement that seated ranges are stated for. */
const LEAN_M = 0.18;
/** A seated person shifting their weight, m at the shoulders. Assumed: smaller and the shift is never seen at all. */
const SHIFT_M = 0.06;
/** Page turn: the hand's way across the sheet, m. Assumed: width of a page. */
const PAGE_M = 0.22;
/** Peak of sin x - sin 2x / 2, which starts and ends without speed. Source: at x = 120 degrees, 3 sqrt(3)/4. */
const WAVE_PEAK = 1.299038105676658;

/** Ticks a gesture lasts and the mean gap, s, to the next one of an activity that does not say. Assumed: office pace;
 *  shorter gaps make every detector look better. Reach and lean: one movement in about 45 s. */
export const GESTURES: Record<GestureKind, { ticks: number; everyS: number }> = {
  type: { ticks: 14, everyS: 8 },
  pageTurn: { ticks: 14, everyS: 40 },
  reach: { ticks: 20, everyS: 45 },
  lean: { ticks: 30, everyS: 45 },
  stretch: { ticks: 40, everyS: 30 },
  shift: { ticks: 20, everyS: 120 },
};

/** The gesture of an activity, null for the rigid ones. */
export function gestureOf(act: Activity): GestureKind | null {
  switch (act) {
    case 'type':
      return 'type';
    case 'read':
      return 'pageTurn';
    case 'reach':
      return 'reach';
    case 'lean':
      return 'lean';
    case 'stretch':
      return 'stretch';
    case 'sit':
      return 'shift';
    case 'stand':
    case 'sway':
    case 'sitStill':
    case 'standStill':
    case 'ladder':
      return null;
  }
}

function moveHand(out: Pose, hand: 0 | 1, x: number, y: number, z: number): void {
  const i = HANDS + hand * 3;
  out[i] = out[i]! + x;
  out[i + 1] = out[i + 1]! + y;
  out[i + 2] = out[i + 2]! + z;
}

/** Adds the gesture at instant `t` (ticks); before and after it, nothing. */
export function addGesture(gesture: Gesture, t: number, scale: number, out: Pose): void {
  const u = ramp(t, gesture.startTick, gesture.ticks);
  if (u <= 0 || u >= 1) return;
  const side = gesture.side;
  const active = side > 0 ? 1 : 0;
  switch (gesture.kind) {
    case 'type': {
      const wave = (TYPE_M * (sin(2 * PI * u) - sin(4 * PI * u) / 2)) / WAVE_PEAK;
      moveHand(out, 0, side * wave, 0, 0);
      moveHand(out, 1, side * wave, 0, 0);
      break;
    }
    case 'pageTurn':
      moveHand(out, active, -side * PAGE_M * bump(u), 0.03 * bump(u), 0.05 * bump(u));
      break;
    case 'reach':
      out[SWEEP + active] = REACH_RAD * bump(u);
      break;
    case 'lean':
      out[LEAN + 1] = out[LEAN + 1]! + (LEAN_M / (SHOULDER_UP_M * scale)) * plateau(u, 1 / 3);
      break;
    case 'stretch':
      raiseArms(plateau(u, 0.35), scale, out);
      break;
    case 'shift':
      out[LEAN] = out[LEAN]! + ((side * SHIFT_M) / (SHOULDER_UP_M * scale)) * bump(u);
      out[HIP] = out[HIP]! + side * 0.25 * SHIFT_M * bump(u);
      break;
  }
}

/** Both hands up and out in an arc before the body. */
function raiseArms(share: number, scale: number, out: Pose): void {
  const arc = share * (1 - share);
  for (let hand = 0; hand < 2; hand++) {
    const outward = hand === 0 ? -1 : 1;
    const i = HANDS + hand * 3;
    out[i] = out[i]! + outward * (0.08 * share + 0.9 * arc) * scale;
    out[i + 1] = out[i + 1]! + 0.9 * arc * scale;
    out[i + 2] = out[i + 2]! + 1.07 * share * scale;
  }
}
