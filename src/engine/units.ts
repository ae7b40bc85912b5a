import { PI } from './math.ts';

/** One engine step, s. Source: the controller's order of work is defined per 0.1 s tick. */
export const TICK_S = 0.1;
/** One engine step, ms. Source: 0.1 s. */
export const TICK_MS = 100;
/** Ticks in a second, 1/s. Source: 0.1 s a tick. */
export const TICKS_PER_S = 10;
/**
 * Sub-steps in a tick. Source: decision of the product, 20 ms each; the chain's low-pass corners lie at 8 Hz, so 50 Hz
 * keeps its error at 5 Hz near 5 %.
 */
export const SUB_STEPS = 5;
/** Length of a sub-step, s. Source: a fifth of a tick. */
export const SUB_STEP_S = 0.02;
/** 0 °C in kelvin. Source: SI. */
export const CELSIUS_ZERO_K = 273.15;

export function degToRad(deg: number): number {
  return (deg * PI) / 180;
}

export function radToDeg(rad: number): number {
  return (rad * 180) / PI;
}

/** First tick at or after the time (times are exact to 1 ms, so a hundredth of a ms is rounding). */
export function secondsToTicks(s: number): number {
  return Math.ceil(s * TICKS_PER_S - 1e-4);
}

export function ticksToSeconds(ticks: number): number {
  return ticks / TICKS_PER_S;
}

export function celsiusToKelvin(tC: number): number {
  return tC + CELSIUS_ZERO_K;
}

/** Angle brought into [0, 360); never -0, which saving as JSON would turn into 0 and an arctangent into half a turn. */
export function wrapDeg(deg: number): number {
  const wrapped = deg % 360;
  const inTurn = wrapped < 0 ? wrapped + 360 : wrapped + 0;
  return inTurn === 360 ? 0 : inTurn;
}

/** Signed shortest turn, degrees in (-180, 180]. */
export function shortestTurnDeg(fromDeg: number, toDeg: number): number {
  const turn = wrapDeg(toDeg - fromDeg);
  return turn > 180 ? turn - 360 : turn;
}
