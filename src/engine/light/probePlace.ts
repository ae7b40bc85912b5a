/** Where a lux meter is and what it read: plain, small, shared with the page, which does not load the calculation. */
import { cos, sin } from '../math.ts';
import type { Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';

/** Where a lux meter lies or is held, room metres, and which way its receiver looks (unit vector). */
export interface ProbePlace {
  id: string;
  positionM: Vector3;
  normal: Vector3;
}

/** Illuminance at a place, lx, split by where it comes from. Lamps at their levels of the instant. */
export interface ProbeReading {
  id: string;
  daylightLx: number;
  /** The part of the daylight that is the sun itself, through a window and straight onto the receiver. */
  sunLx: number;
  innerRowLx: number;
  windowRowLx: number;
  doorLx: number;
  /** The place is inside a piece of furniture or outside the room: nothing can be measured there, all parts are 0. */
  covered: boolean;
}

/** Everything of a reading together, lx. */
export function probeTotalLx(r: ProbeReading): number {
  return r.daylightLx + r.innerRowLx + r.windowRowLx + r.doorLx;
}

/** Unit vector of a receiver tilted from straight up towards a heading (clockwise from the room's +y), degrees. */
export function probeNormal(tiltDeg: number, headingDeg: number): Vector3 {
  const tilt = degToRad(tiltDeg);
  const heading = degToRad(headingDeg);
  return [sin(tilt) * sin(heading), sin(tilt) * cos(heading), cos(tilt)];
}

/** Tops above this are out of reach of a meter laid down, m. Assumed: a standing person's shoulder; lower misses cabinets. */
const HIGHEST_TOP_M = 1.4;

/** Height of the highest top under a hand at a place, m: a desk, a table, a cabinet; 0 on bare floor. */
export function restingHeightM(boxes: readonly { minM: Vector3; maxM: Vector3 }[], atM: readonly number[]): number {
  let height = 0;
  for (const { minM, maxM } of boxes) {
    const over = atM[0]! >= minM[0] && atM[0]! <= maxM[0] && atM[1]! >= minM[1] && atM[1]! <= maxM[1];
    if (over && maxM[2] > height && maxM[2] <= HIGHEST_TOP_M) height = maxM[2];
  }
  return height;
}
