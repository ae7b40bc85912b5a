/** Shapes of movement over time. Pure. */
import { shortestTurnDeg } from '../units.ts';
import type { PersonState } from './types.ts';

/** 0 before `start`, 1 from `start + length` on; a length of 0 is over at once. */
export function ramp(t: number, start: number, length: number): number {
  if (t >= start + length) return 1;
  return t <= start ? 0 : (t - start) / length;
}

/** 0 to 1 with no speed at either end. */
export function smooth(u: number): number {
  return u * u * (3 - 2 * u);
}

/** 0, up to 1 at the middle, 0; no speed at either end. */
export function bump(u: number): number {
  const w = 4 * u * (1 - u);
  return w * w * (1.5 - 0.5 * w);
}

/** Up during the first `edge` of the way, held, down during the last. */
export function plateau(u: number, edge: number): number {
  return smooth(u < edge ? u / edge : u > 1 - edge ? (1 - u) / edge : 1);
}

/** Bearing at an instant in ticks. */
export function headingAtDeg(person: PersonState, t: number): number {
  const u = ramp(t, person.turnStartTick, person.turnTicks);
  if (u >= 1) return person.turnToDeg;
  return person.turnFromDeg + shortestTurnDeg(person.turnFromDeg, person.turnToDeg) * smooth(u);
}
