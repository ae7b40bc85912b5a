/** From a person's state and an instant to the numbers that decide the pose. No allocation, no drawing of chance. */
import { cos, PI, sin } from '../math.ts';
import type { Tick } from '../types.ts';
import { degToRad, SUB_STEPS, TICK_S } from '../units.ts';
import {
  ANKLE_M,
  BOOK_M,
  DESK_M,
  FOOT_AHEAD_M,
  HANG_M,
  HIP_BACK_M,
  HIP_HALF_M,
  HIP_SEATED_M,
  HIP_STANDING_M,
  LADDER_RISE_M,
  LAP_M,
  REFERENCE_HEIGHT_M,
  TOOL_M,
} from './anatomy.ts';
import { addGait } from './gait.ts';
import { addGesture } from './gestures.ts';
import { HANDS, HIP, LEAN, LEFT_FOOT, type Pose, RIGHT_FOOT, SWEEP, TWIST } from './slots.ts';
import { bump, headingAtDeg, ramp, smooth } from './timing.ts';
import type { ArmRest, PersonState } from './types.ts';

/** Standing up or sitting down bends the trunk forward to this sine. Assumed: 33 degrees; less looks stiff. */
const RISE_LEAN = 0.55;
/** Seated trunk, sine of its forward lean. Assumed: at work, slightly forward. */
const SEATED_LEAN = 0.06;
/** Arms change their resting place in this many ticks. Assumed: .8 s, an unhurried hand. */
const ARMS_TICKS = 8;
/** Feet lift this far while turning on the spot, m. Assumed: two small steps. */
const TURN_LIFT_M = 0.05;
/** Postural sway as an act of its own: sideways and forward lean (sine) and their rates. Assumed: shifting weight from
 *  foot to foot about 4 cm at the head; real quiet standing sways a tenth of that. */
const SWAY_SIDE = 0.035;
const SWAY_FORWARD = 0.02;
const SWAY_SIDE_HZ = 0.27;
const SWAY_FORWARD_HZ = 0.41;

function restOf(rest: ArmRest): readonly number[] {
  switch (rest) {
    case 'hang':
      return HANG_M;
    case 'lap':
      return LAP_M;
    case 'desk':
      return DESK_M;
    case 'book':
      return BOOK_M;
    case 'tool':
      return TOOL_M;
  }
}

/** Hands between gestures at an instant, into `out` at `offset`: left x y z, right x y z. `t` in ticks. */
export function restingHands(person: PersonState, t: number, out: Pose, offset: number): void {
  const scale = person.spec.heightM / REFERENCE_HEIGHT_M;
  const rest = restOf(person.armRest);
  // Desk and chair do not grow with the person; a hanging arm does.
  const up = person.armRest === 'hang' || person.armRest === 'tool' ? scale : 1;
  const share = smooth(ramp(t, person.armsStartTick, ARMS_TICKS));
  for (let hand = 0; hand < 2; hand++) {
    for (let axis = 0; axis < 3; axis++) {
      const i = hand * 3 + axis;
      const target = axis === 0 ? (hand === 0 ? -1 : 1) * rest[0]! * scale : rest[axis]! * (axis === 1 ? scale : up);
      const from = person.handsFromM[i]!;
      out[offset + i] = share >= 1 ? target : from + (target - from) * share;
    }
  }
}

/** 0 standing to 1 seated at an instant (ticks). */
export function seatShareAt(person: PersonState, t: number): number {
  const u = ramp(t, person.seatStartTick, person.seatTicks);
  return u >= 1 ? person.seatTo : person.seatFrom + (person.seatTo - person.seatFrom) * smooth(u);
}

function addSeat(person: PersonState, t: number, scale: number, out: Pose): number {
  const seat = person.perch === 'ladder' ? 0 : seatShareAt(person, t);
  out[HIP] = 0;
  out[HIP + 1] = -HIP_BACK_M * seat;
  out[HIP + 2] = HIP_STANDING_M * scale * (1 - seat) + HIP_SEATED_M * seat;
  out[LEAN] = 0;
  out[LEAN + 1] = SEATED_LEAN * seat + RISE_LEAN * bump(seat);
  out[TWIST] = 0;
  out[SWEEP] = 0;
  out[SWEEP + 1] = 0;
  // One foot after the other slides under the desk or back.
  const left = smooth(seat < 0.5 ? 2 * seat : 1);
  const right = smooth(seat < 0.5 ? 0 : 2 * seat - 1);
  setFoot(out, 0, -HIP_HALF_M * scale, FOOT_AHEAD_M * scale * left, ANKLE_M * scale);
  setFoot(out, 1, HIP_HALF_M * scale, FOOT_AHEAD_M * scale * right, ANKLE_M * scale);
  return seat;
}

/** Height of the feet above the floor, m: 0 but for somebody on the ladder. */
export function riseAtM(person: PersonState, t: number): number {
  return person.perch === 'ladder' ? LADDER_RISE_M * seatShareAt(person, t) : 0;
}

/** Lifts a standing pose by `riseM`. The treads are not acted out: the whole body goes up evenly. */
function lift(out: Pose, riseM: number): void {
  for (const slot of [HIP, LEFT_FOOT, RIGHT_FOOT, HANDS, HANDS + 3]) out[slot + 2] = out[slot + 2]! + riseM;
}

function setFoot(out: Pose, side: 0 | 1, x: number, y: number, z: number): void {
  const i = side === 0 ? LEFT_FOOT : RIGHT_FOOT;
  out[i] = x;
  out[i + 1] = y;
  out[i + 2] = z;
  out[i + 3] = 0;
}

/** Whether the pose stays as it is at `tick` until the person is advanced again. */
export function isAtRest(person: PersonState, tick: Tick): boolean {
  if (person.walkTicks > 0 || person.gesture !== null || person.act === 'sway') return false;
  if (tick < person.turnStartTick + person.turnTicks) return false;
  return tick >= person.seatStartTick + person.seatTicks && tick >= person.armsStartTick + ARMS_TICKS;
}

/** Writes the pose of a present person as of sub-step 0-4 of the tick into `out` (see slots.ts). */
export function posePerson(person: PersonState, tick: Tick, subStep: number, out: Pose): void {
  const t = tick + subStep / SUB_STEPS;
  const scale = person.spec.heightM / REFERENCE_HEIGHT_M;
  if (person.walkTicks > 0) {
    const share = ramp(t, person.walkStartTick, person.walkTicks);
    out[0] = person.fromM[0] + (person.toM[0] - person.fromM[0]) * share;
    out[1] = person.fromM[1] + (person.toM[1] - person.fromM[1]) * share;
  } else {
    out[0] = person.atM[0];
    out[1] = person.atM[1];
  }
  const bearing = degToRad(headingAtDeg(person, t));
  out[2] = sin(bearing);
  out[3] = cos(bearing);
  const rise = riseAtM(person, t);
  const seat = addSeat(person, t, scale, out);
  restingHands(person, t, out, HANDS);
  addTurnSteps(person, t, seat, out);
  addGait(person, t, scale, out);
  if (person.act === 'sway') addSway(person, t, scale, out);
  if (person.gesture !== null) addGesture(person.gesture, t, scale, out);
  if (rise > 0) lift(out, rise);
}

function addTurnSteps(person: PersonState, t: number, seat: number, out: Pose): void {
  const u = ramp(t, person.turnStartTick, person.turnTicks);
  if (u >= 1 || seat > 0 || person.walkTicks > 0) return;
  out[LEFT_FOOT + 2] = out[LEFT_FOOT + 2]! + TURN_LIFT_M * bump(ramp(u, 0, 0.5));
  out[RIGHT_FOOT + 2] = out[RIGHT_FOOT + 2]! + TURN_LIFT_M * bump(ramp(u, 0.5, 0.5));
}

/** Sway grows out of stillness over a few seconds, so that it never starts with a jump. */
function addSway(person: PersonState, t: number, scale: number, out: Pose): void {
  const s = (t - person.stepStartTick) * TICK_S;
  const grown = smooth(ramp(s, 0, 3));
  const side = SWAY_SIDE * grown * sin(2 * PI * SWAY_SIDE_HZ * s);
  const forward = SWAY_FORWARD * grown * sin(2 * PI * SWAY_FORWARD_HZ * s);
  out[LEAN] = out[LEAN]! + side;
  out[LEAN + 1] = out[LEAN + 1]! + forward;
  out[HIP] = out[HIP]! + 0.6 * side * scale;
  for (let hand = 0; hand < 2; hand++) {
    const i = HANDS + hand * 3;
    out[i] = out[i]! + side * scale;
    out[i + 1] = out[i + 1]! + 0.45 * forward * scale;
  }
}
