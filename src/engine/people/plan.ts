/** Plans and walks: what a Stand-in does next, decided once a tick. */
import { atan2, hypot2, log } from '../math.ts';
import type { RandomStream } from '../random.ts';
import type { Activity, PlanStep, Tick } from '../types.ts';
import { radToDeg, secondsToTicks, shortestTurnDeg, TICK_S, TICKS_PER_S, wrapDeg } from '../units.ts';
import { gaitOf, gaitPhaseAt, strideAtM } from './gait.ts';
import { GESTURES, gestureOf } from './gestures.ts';
import { restingHands, seatShareAt } from './pose.ts';
import { headingAtDeg, ramp } from './timing.ts';
import type { ArmRest, PersonState } from './types.ts';

/** Sitting down or standing up, ticks. Assumed: 1.5 s, unhurried. */
export const SEAT_TICKS = 15;
/** Turning: a base and a share of a half turn, ticks. Assumed: 180 degrees on the spot in 1.2 s. */
const TURN_BASE_TICKS = 4;
const TURN_HALF_TICKS = 8;
/** Below this a walk is no walk, m. Assumed: rounding of drawn waypoints. */
const NO_WALK_M = 1e-6;
/** Slowest walk accepted, m/s. Assumed: a zero in a file would never arrive. */
const SLOWEST_MPS = 0.02;

/** Climbing the ladder or coming down, ticks. Assumed: 4 s for three treads. */
export const LADDER_TICKS = 40;

/** Seated acts; all others stand or are up the ladder. */
export function isSeated(act: Activity): boolean {
  return act === 'sit' || act === 'sitStill' || act === 'type' || act === 'read' || act === 'reach' || act === 'lean';
}

function armRestOf(act: Activity): ArmRest {
  switch (act) {
    case 'type':
    case 'reach':
    case 'lean':
      return 'desk';
    case 'read':
      return 'book';
    case 'sit':
    case 'sitStill':
      return 'lap';
    case 'ladder':
      return 'tool';
    default:
      return 'hang';
  }
}

/** Turns to a bearing from wherever the turn before has come to. */
export function startTurn(person: PersonState, tick: Tick, toDeg: number): void {
  person.turnFromDeg = headingAtDeg(person, tick);
  person.turnToDeg = wrapDeg(toDeg);
  const turn = Math.abs(shortestTurnDeg(person.turnFromDeg, person.turnToDeg));
  person.turnStartTick = tick;
  person.turnTicks = turn < 1e-9 ? 0 : TURN_BASE_TICKS + Math.round((TURN_HALF_TICKS * turn) / 180);
}

function startSeat(person: PersonState, tick: Tick, seated: 0 | 1): void {
  const share = seatShareAt(person, tick);
  person.seatFrom = share;
  person.seatTo = seated;
  person.seatStartTick = tick;
  const wholeTicks = person.perch === 'ladder' ? LADDER_TICKS : SEAT_TICKS;
  person.seatTicks = Math.ceil(wholeTicks * Math.abs(seated - share));
}

function startArms(person: PersonState, tick: Tick, rest: ArmRest): void {
  if (rest === person.armRest) return;
  const hands = new Float64Array(6);
  restingHands(person, tick, hands, 0);
  person.handsFromM = [...hands];
  person.armRest = rest;
  person.armsStartTick = tick;
}

function startStride(person: PersonState, tick: Tick, strideM: number, cycleHz: number, endTick: Tick | null): void {
  const phase = gaitPhaseAt(person, tick);
  const stride = strideAtM(person, tick);
  // Out of standing the first step starts as the left foot lands.
  person.gaitPhase = stride > 0 ? phase : 0;
  person.strideFromM = stride;
  person.strideToM = strideM;
  person.strideStartTick = tick;
  person.strideEndTick = endTick;
  person.gaitHz = cycleHz;
}

/** Stops where the person is at `tick`; legs settle within a stride's fade. */
export function stopWalk(person: PersonState, tick: Tick): void {
  if (person.walkTicks > 0) {
    const share = ramp(tick, person.walkStartTick, person.walkTicks);
    person.atM = [
      person.fromM[0] + (person.toM[0] - person.fromM[0]) * share,
      person.fromM[1] + (person.toM[1] - person.fromM[1]) * share,
    ];
    person.walkTicks = 0;
  }
  if (person.strideToM !== 0 || strideAtM(person, tick) > 0) startStride(person, tick, 0, person.gaitHz, null);
}

function startsAtOnce(step: PlanStep | undefined, tick: Tick): boolean {
  return step !== undefined && step.act === 'walk' && (step.fromS === undefined || secondsToTicks(step.fromS) <= tick);
}

function startWalk(person: PersonState, tick: Tick, step: PlanStep & { act: 'walk' }, chained: boolean): void {
  const dx = step.toM[0] - person.atM[0];
  const dy = step.toM[1] - person.atM[1];
  const distanceM = hypot2(dx, dy);
  if (distanceM < NO_WALK_M) {
    person.walkTicks = 0;
    return;
  }
  const speedMps = Math.max(step.speedMps, SLOWEST_MPS);
  // Each leg lasts whole ticks; what rounding took is given back on the next leg of the chain.
  const exactTicks = (distanceM / speedMps) * TICKS_PER_S + (chained ? person.walkLagTicks : 0);
  const ticks = Math.max(1, Math.round(exactTicks));
  person.walkLagTicks = exactTicks - ticks;
  person.fromM = [person.atM[0], person.atM[1]];
  person.toM = [step.toM[0], step.toM[1]];
  person.walkStartTick = tick;
  person.walkTicks = ticks;
  const { cycleHz, strideM } = gaitOf(distanceM / (ticks * TICK_S), person.spec.heightM);
  const goesOn = startsAtOnce(person.plan[person.stepIndex + 1], tick + ticks);
  startStride(person, tick, strideM, cycleHz, goesOn ? null : tick + ticks);
  startTurn(person, tick, radToDeg(atan2(dx, dy)));
  startArms(person, tick, 'hang');
  person.act = 'walk';
}

/** Draws the next gesture's start: exponential gaps after the one before. Always one draw. */
function drawNextGesture(person: PersonState, tick: Tick, step: PlanStep, stream: RandomStream): void {
  if (step.act === 'walk' || step.act === 'leave') return;
  const kind = gestureOf(step.act);
  if (kind === null) return;
  const meanS = step.gestureEveryS ?? GESTURES[kind].everyS;
  person.nextGestureTick = tick + Math.max(1, Math.round(-meanS * TICKS_PER_S * log(1 - stream.next())));
}

function advanceGesture(person: PersonState, tick: Tick, stream: RandomStream): void {
  const gesture = person.gesture;
  if (gesture !== null) {
    if (tick < gesture.startTick + gesture.ticks) return;
    person.gesture = null;
  }
  const step = person.plan[person.stepIndex];
  if (step === undefined || person.stepPhase !== 'doing' || step.act === 'walk' || step.act === 'leave') return;
  if (person.nextGestureTick === null) {
    drawNextGesture(person, tick, step, stream);
    return;
  }
  if (tick < person.nextGestureTick) return;
  const kind = gestureOf(step.act);
  person.nextGestureTick = null;
  if (kind === null) return;
  person.gesture = { kind, startTick: tick, ticks: GESTURES[kind].ticks, side: stream.next() < 0.3 ? -1 : 1 };
}

function beginActivity(person: PersonState, tick: Tick, step: PlanStep & { act: Activity }): void {
  stopWalk(person, tick);
  if (!person.present) {
    person.stepPhase = 'doing';
    return;
  }
  person.act = step.act;
  person.stepPhase = 'turning';
  if (step.headingDeg !== undefined) startTurn(person, tick, step.headingDeg);
  person.readyTick = step.headingDeg === undefined ? tick : tick + person.turnTicks;
}

function beginStep(person: PersonState, tick: Tick, step: PlanStep, chained: boolean): void {
  person.stepStartTick = tick;
  person.nextGestureTick = null;
  if (step.act === 'leave') {
    stopWalk(person, tick);
    person.present = false;
    person.act = 'outside';
    person.gesture = null;
    person.stepPhase = 'doing';
  } else if (step.act === 'walk') {
    person.present = true;
    if (person.seatTo > 0 || seatShareAt(person, tick) > 0) {
      startSeat(person, tick, 0);
      startArms(person, tick, 'hang');
      person.stepPhase = 'rising';
      person.readyTick = tick + person.seatTicks;
    } else {
      startWalk(person, tick, step, chained);
      person.stepPhase = 'doing';
    }
  } else beginActivity(person, tick, step);
}

/** Whether the step under way is over at `tick`. */
function stepIsOver(person: PersonState, tick: Tick, step: PlanStep): boolean {
  if (step.act === 'leave') return true;
  if (step.act === 'walk') return person.walkTicks === 0 || tick >= person.walkStartTick + person.walkTicks;
  if (step.forS !== undefined) return tick >= person.stepStartTick + secondsToTicks(step.forS);
  const next = person.plan[person.stepIndex + 1];
  return next?.fromS !== undefined && tick >= secondsToTicks(next.fromS);
}

/** One move of the step machine; true when something changed and it should look again. */
function moveOn(person: PersonState, tick: Tick, step: PlanStep): boolean {
  switch (person.stepPhase) {
    case 'waiting':
      if (step.fromS !== undefined && tick < secondsToTicks(step.fromS)) return false;
      beginStep(person, tick, step, false);
      return true;
    case 'rising':
      if (tick < person.readyTick || step.act !== 'walk') return false;
      startWalk(person, tick, step, false);
      person.stepPhase = 'doing';
      return true;
    case 'turning': {
      if (tick < person.readyTick || step.act === 'walk' || step.act === 'leave') return false;
      const onLadder = step.act === 'ladder';
      if (seatShareAt(person, tick) > 0 && onLadder !== (person.perch === 'ladder')) {
        // From the chair to the ladder, or back, the way leads over the floor.
        if (person.seatTo > 0) startSeat(person, tick, 0);
        person.readyTick = person.seatStartTick + person.seatTicks;
        return false;
      }
      if (onLadder) person.perch = 'ladder';
      else delete person.perch;
      const seated = onLadder || isSeated(step.act) ? 1 : 0;
      if (person.seatTo !== seated) startSeat(person, tick, seated);
      startArms(person, tick, armRestOf(step.act));
      person.stepPhase = 'settling';
      person.readyTick = Math.max(tick, person.seatStartTick + person.seatTicks);
      return true;
    }
    case 'settling':
      if (tick < person.readyTick) return false;
      person.stepPhase = 'doing';
      return true;
    case 'doing':
      if (!stepIsOver(person, tick, step)) return false;
      finishStep(person, tick, step);
      return true;
  }
}

/** What somebody does who has nothing to do. */
export function restingAct(person: PersonState): Activity {
  if (person.seatTo === 0) return 'standStill';
  return person.perch === 'ladder' ? 'ladder' : 'sitStill';
}

/** Arrives, stops, rests; a walk that goes on at once keeps its stride. */
function finishStep(person: PersonState, tick: Tick, step: PlanStep): void {
  person.nextGestureTick = null;
  person.stepIndex += 1;
  const next = person.plan[person.stepIndex];
  if (step.act === 'walk') {
    if (person.walkTicks > 0) person.atM = [person.toM[0], person.toM[1]];
    person.walkTicks = 0;
    if (next !== undefined && startsAtOnce(next, tick)) {
      beginStep(person, tick, next, true);
      return;
    }
    stopWalk(person, tick);
  }
  if (person.present) person.act = restingAct(person);
  person.stepPhase = 'waiting';
}

/** Brings one person to the start of `tick`. */
export function advancePerson(person: PersonState, tick: Tick, stream: RandomStream): void {
  // A plan has few steps; every pass uses up a step or a phase, so this ends.
  for (;;) {
    const step = person.plan[person.stepIndex];
    if (step === undefined || !moveOn(person, tick, step)) break;
  }
  if (person.walkTicks > 0) {
    const share = ramp(tick, person.walkStartTick, person.walkTicks);
    person.atM = [
      person.fromM[0] + (person.toM[0] - person.fromM[0]) * share,
      person.fromM[1] + (person.toM[1] - person.fromM[1]) * share,
    ];
  }
  if (person.headingDeg !== person.turnToDeg) person.headingDeg = wrapDeg(headingAtDeg(person, tick));
  advanceGesture(person, tick, stream);
}
