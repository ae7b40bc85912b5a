/**
 * Blinds: a closed blind as a diffusing screen, and open slats as plane geometry (thin, flat slats seen in the plane
 * across them). In a room the blind is the diffusing screen; slats are not yet part of the interreflection.
 */
import { atan2, cos, sin, sqrt } from '../math.ts';

/**
 * Share of the light on the window that a closed blind passes on, spread evenly over the room side.
 * Assumed: 0.05, a light-coloured closed blind; at 0.20 a closed blind would leave a window desk as bright as an
 * overcast day, at 0.01 the room would need its lamps at noon.
 */
export const CLOSED_BLIND_TRANSMITTANCE = 0.05;

/**
 * Sun height as the slats see it: the sun's direction projected on the vertical plane across the window, rad.
 * `azimuthFromNormalRad`: between the sun's azimuth and the outward normal of the window. Source: plane geometry.
 */
export function profileAngleRad(sunAltitudeRad: number, azimuthFromNormalRad: number): number {
  return atan2(sin(sunAltitudeRad), cos(sunAltitudeRad) * cos(azimuthFromNormalRad));
}

/**
 * Share of a sunbeam that passes between slats without touching one. `slatTiltRad`: outer edge down is positive.
 * Source: the shadow of a slat of width w on the pitch s, seen along the profile angle.
 */
export function slatBeamFraction(slatWidthToSpacing: number, slatTiltRad: number, profileRad: number): number {
  const cosProfile = cos(profileRad);
  if (cosProfile <= 0) return 0;
  const shadow = (slatWidthToSpacing * Math.abs(sin(profileRad + slatTiltRad))) / cosProfile;
  return shadow >= 1 ? 0 : 1 - shadow;
}

/**
 * Share of evenly diffuse light (in the plane across the slats) that passes black slats without touching them.
 * Source: crossed-string rule (Hottel) for the gap between two neighbouring slats.
 */
export function slatDiffuseOpenness(slatWidthToSpacing: number, slatTiltRad: number): number {
  const w = slatWidthToSpacing;
  const product = 2 * w * sin(slatTiltRad);
  return (sqrt(1 + w * w - product) + sqrt(1 + w * w + product) - 2 * w) / 2;
}
