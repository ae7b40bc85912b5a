/**
 * Shape of the sky: the fifteen standard skies of ISO 15469:2004 / CIE S 011 and the traditional overcast sky
 * (type 16, Moon and Spencer 1942), as luminance relative to the zenith.
 */
import { acos, clamp, cos, exp, PI, sin } from '../../math.ts';

/** Gradation (a, b) and indicatrix (c, d, e) of types 1 to 15. Source: ISO 15469:2004 table 1. */
export const GRADATION: readonly (readonly [a: number, b: number])[] = [
  [4, -0.7],
  [4, -0.7],
  [1.1, -0.8],
  [1.1, -0.8],
  [0, -1],
  [0, -1],
  [0, -1],
  [0, -1],
  [-1, -0.55],
  [-1, -0.55],
  [-1, -0.55],
  [-1, -0.32],
  [-1, -0.32],
  [-1, -0.15],
  [-1, -0.15],
];
export const INDICATRIX_GROUPS: readonly (readonly [c: number, d: number, e: number])[] = [
  [0, -1, 0],
  [2, -1.5, 0.15],
  [5, -2.5, 0.3],
  [10, -3, 0.45],
  [16, -3, 0.3],
  [24, -2.8, 0.15],
];
export const INDICATRIX_OF_TYPE: readonly number[] = [0, 1, 0, 1, 0, 1, 2, 3, 1, 2, 3, 3, 4, 4, 5];
/** Number that stands for the traditional overcast sky. Source: ISO 15469:2004, where it is type 16. */
export const TRADITIONAL_OVERCAST = 16;

/** Gradation function of the zenith angle, relative to nothing; at the horizon the exponential is 0. */
export function skyGradation(a: number, b: number, cosZenith: number): number {
  return cosZenith <= 0 ? 1 : 1 + a * exp(b / cosZenith);
}

/** Scattering indicatrix of the angle to the sun. */
export function skyIndicatrix(c: number, d: number, e: number, angleToSunRad: number): number {
  const cosAngle = cos(angleToSunRad);
  return 1 + c * (exp(d * angleToSunRad) - exp((d * PI) / 2)) + e * cosAngle * cosAngle;
}

export function checkSkyType(cieType: number): void {
  if (!Number.isInteger(cieType) || cieType < 1 || cieType > 16) {
    throw new RangeError(`a sky type is a whole number from 1 to 16, got ${cieType}`);
  }
}

/**
 * Luminance of a point of the sky relative to the zenith. Angles in rad; `azimuthDifferenceRad` between point and sun.
 * Throws a RangeError for a type outside 1 to 16.
 */
export function skyLuminanceRatio(
  cieType: number,
  zenithAngleRad: number,
  sunZenithAngleRad: number,
  azimuthDifferenceRad: number,
): number {
  checkSkyType(cieType);
  const cosZenith = cos(zenithAngleRad);
  if (cieType === TRADITIONAL_OVERCAST) return (1 + 2 * clamp(cosZenith, 0, 1)) / 3;
  const [a, b] = GRADATION[cieType - 1]!;
  const [c, d, e] = INDICATRIX_GROUPS[INDICATRIX_OF_TYPE[cieType - 1]!]!;
  const cosToSun =
    cosZenith * cos(sunZenithAngleRad) + sin(zenithAngleRad) * sin(sunZenithAngleRad) * cos(azimuthDifferenceRad);
  const here = skyGradation(a, b, cosZenith) * skyIndicatrix(c, d, e, acos(clamp(cosToSun, -1, 1)));
  return here / (skyGradation(a, b, 1) * skyIndicatrix(c, d, e, sunZenithAngleRad));
}
