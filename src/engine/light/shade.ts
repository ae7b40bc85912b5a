/**
 * Somebody on a ladder before the photometers. People are otherwise taken for too low and too far to matter; who works
 * at the detector takes away much of what its photometers see, and a reading taken then is wrong.
 *
 * The body is an upright cylinder that gives no light back. What is lost is its share of the photometer's own weighting:
 * that the room behind it may be brighter or darker than the mean is neglected, so over a bright desk too little is lost,
 * over a dark floor too much.
 */
import { sqrt } from '../math.ts';
import type { UprightBody } from '../types.ts';
import { coneOf, coneRay } from './coneRays.ts';
import type { SceneSensor } from './scene.ts';
import type { LightTables } from './types.ts';

/** Radius of the cylinder, m. Assumed: a clothed adult's mean over breadth and depth, arms raised. */
const BODY_RADIUS_M = 0.22;
/** Rays through a photometer's cone. Assumed: 512; twice as many change a shade of a half by under 1 %. */
const RAYS = 512;

/** Whether a ray from `p` along `d` (unit) meets the cylinder. */
function meets(p: readonly number[], dx: number, dy: number, dz: number, { atM, fromM, toM }: UprightBody): boolean {
  const x = p[0]! - atM[0];
  const y = p[1]! - atM[1];
  const a = dx * dx + dy * dy;
  const b = x * dx + y * dy;
  const c = x * x + y * y - BODY_RADIUS_M * BODY_RADIUS_M;
  let enter = 0;
  let leave = Number.POSITIVE_INFINITY;
  if (a > 0) {
    const root = b * b - a * c;
    if (root <= 0) return false;
    enter = Math.max(0, (-b - sqrt(root)) / a);
    leave = (-b + sqrt(root)) / a;
    if (leave <= 0) return false;
  } else if (c >= 0) return false;
  const high = Math.max(p[2]! + dz * enter, p[2]! + dz * leave);
  const low = Math.min(p[2]! + dz * enter, p[2]! + dz * leave);
  return high >= fromM && low <= toM;
}

/** Scratch: one direction. */
const ray = new Float64Array(3);

/** Share of what a photometer sees that no body stands in, 0-1. */
export function clearShare({ positionM, normal, halfAngleDeg }: SceneSensor, bodies: readonly UprightBody[]): number {
  if (bodies.length === 0 || halfAngleDeg === null) return 1;
  const cone = coneOf(normal, halfAngleDeg);
  let clear = 0;
  for (let r = 0; r < RAYS; r++) {
    coneRay(cone, r, ray);
    if (!bodies.some((body) => meets(positionM, ray[0]!, ray[1]!, ray[2]!, body))) clear++;
  }
  return clear / RAYS;
}

/** Both photometers, [inner, window]. */
export function photometersClear({ scene }: LightTables, bodies: readonly UprightBody[]): readonly [number, number] {
  if (bodies.length === 0) return ALL_CLEAR;
  return [clearShare(scene.sensors[0]!, bodies), clearShare(scene.sensors[1]!, bodies)];
}

export const ALL_CLEAR: readonly [number, number] = [1, 1];
