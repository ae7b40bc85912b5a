/** What decisions ask, in one place. `conditions.ts` puts the very same questions into what people are told. */
import type { ControllerSettings, RowId, Tick } from '../types.ts';
import { secondsToTicks } from '../units.ts';
import type { ControlState } from './types.ts';

/** Length of a short impulse, ticks (0.5 s). Assumed: shorter may be missed by a staircase timer, longer adds nothing. */
export const IMPULSE_TICKS = 5;
/** From the start of an impulse to the earliest next one, ticks (0.5 s and a pause of 10 s). Assumed: shorter wears the timer's contact, longer leaves walkers dark. */
export const IMPULSE_REPEAT_TICKS = 105;
/** Two movements in an empty room belong together within this time, ticks (5 s). Assumed: longer pairs strangers, shorter misses slow entries. */
export const MOVEMENT_PAIR_TICKS = 50;
/** Two pulses of one channel switch on within this time, sub-steps (4 s). Assumed: longer lets noise pair up, shorter misses slow walkers. */
export const PULSE_PAIR_SUB_STEPS = 200;

/** Off-delay in force for a row, s. The learned delay replaces both; coupled rows share the inner value. */
export function offDelayS(state: ControlState, row: RowId): number {
  const { settings } = state;
  if (settings.adaptiveDelay) return state.adaptive.delayS;
  return row === 'window' && !settings.delaysCoupled ? settings.windowOffDelayS : settings.innerOffDelayS;
}

/** The longer of the two off-delays, s: what "the room is empty" is judged by. */
export function longerOffDelayS(state: ControlState): number {
  return Math.max(offDelayS(state, 'inner'), offDelayS(state, 'window'));
}

function within(sinceTick: Tick | null, tick: Tick, limitS: number): boolean {
  return sinceTick !== null && tick < sinceTick + secondsToTicks(limitS);
}

export function isOccupied(state: ControlState, row: RowId, tick: Tick): boolean {
  return within(state.lastSeenTick, tick, offDelayS(state, row));
}

export function isRoomOccupied(state: ControlState, tick: Tick): boolean {
  return within(state.lastSeenTick, tick, longerOffDelayS(state));
}

export function isAirOccupied(state: ControlState, tick: Tick): boolean {
  return within(state.lastSeenTick, tick, state.settings.airOffDelayS);
}

export function isDark(state: ControlState, row: RowId): boolean {
  return state[row].light.dark;
}

export function brightDwellOver(state: ControlState, row: RowId, tick: Tick): boolean {
  const { bright, brightTurnedTick } = state[row].light;
  return bright && !within(brightTurnedTick, tick, state.settings.brightDwellS);
}

export function darkDwellOver(state: ControlState, row: RowId, tick: Tick): boolean {
  const { dark, darkTurnedTick } = state[row].light;
  return dark && !within(darkTurnedTick, tick, state.settings.darkDwellS);
}

export function isAutoOn(state: ControlState, row: RowId): boolean {
  return state[row].mode === 'autoOn';
}

/** May this row come back by itself when daylight fades in the same visit? */
export function mayReturn(state: ControlState, row: RowId): boolean {
  return isAutoOn(state, row) || state[row].lightRequested;
}

/** Exactly the grace after an automatic off is still within it. */
export function inReentryGrace(state: ControlState, row: RowId, tick: Tick): boolean {
  const offTick = state[row].automaticOffTick;
  return offTick !== null && tick <= offTick + secondsToTicks(state.settings.reentryGraceS);
}

export function isImpulseRunning(state: ControlState, row: RowId, tick: Tick): boolean {
  const started = state[row].impulseTick;
  return started !== null && tick < started + IMPULSE_TICKS;
}

export function isImpulsePaused(state: ControlState, row: RowId, tick: Tick): boolean {
  const started = state[row].impulseTick;
  return started !== null && tick < started + IMPULSE_REPEAT_TICKS;
}

/** The external timer that the last impulse started is taken to run for one off-delay. */
export function isImpulseRecent(state: ControlState, row: RowId, tick: Tick): boolean {
  return within(state[row].impulseTick, tick, offDelayS(state, row));
}

export function onDelayOver(state: ControlState, tick: Tick): boolean {
  return state.air.watchingTick !== null && !within(state.air.watchingTick, tick, state.settings.airOnDelayS);
}

export function gapReached(state: ControlState, tick: Tick): boolean {
  return !within(state.lastMovementTick, tick, state.settings.airGapLimitS);
}

export function setpointLx(state: ControlState, row: RowId): number | null {
  return row === 'inner' ? state.settings.innerSetpointLx : state.settings.windowSetpointLx;
}

/** Smallest release margin where it is automatic, lx. Assumed: smaller lets a passing cloud hunt the lamps. */
export const LEAST_MARGIN_LX = 40;
/** Automatic release margin as the setpoint over this number, dimensionless. Assumed: a larger divisor hunts sooner, a smaller one burns lamps in daylight. */
export const MARGIN_DIVISOR = 5;

/** Daylight at or above this releases the row, lx (null: brightness ignored). */
export function releaseLx(state: ControlState, row: RowId): number | null {
  const setpoint = setpointLx(state, row);
  return setpoint === null ? null : setpoint + releaseMarginLx(setpoint, state.settings);
}

/** Margin between a setpoint and its release, lx. */
export function releaseMarginLx(setpointLx: number, settings: Pick<ControllerSettings, 'releaseMarginLx'>): number {
  return settings.releaseMarginLx ?? Math.max(LEAST_MARGIN_LX, setpointLx / MARGIN_DIVISOR);
}

/** A pulse of this channel above the switch-on threshold is recent enough to be a first of two. */
export function isPairOpen(state: ControlState, channel: number, subStep: number): boolean {
  const last = state.switchOnSubSteps[channel] ?? null;
  return last !== null && subStep - last <= PULSE_PAIR_SUB_STEPS;
}

/** The latest own movement in an empty room is recent enough to be a first of two (reduced sensitivity). */
export function isMovementPairOpen(state: ControlState, tick: Tick): boolean {
  return state.unpairedTick !== null && tick - state.unpairedTick <= MOVEMENT_PAIR_TICKS;
}
