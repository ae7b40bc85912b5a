/** Contrast as a thermal camera would tell it: kelvin against a mean background; and what sun and frost do to still surfaces. */
import { bandRadiance8to14, bandRadianceSlope } from './planck.ts';

/**
 * Difference of temperature, K, that a black surface near `backgroundC` would need to differ by `deltaRadiance`
 * (W m-2 sr-1) in the band: delta L / (dL/dT). Linear on purpose: the detector too adds up radiance, not kelvin.
 */
export function equivalentK(deltaRadiance: number, backgroundC: number): number {
  return deltaRadiance / bandRadianceSlope(backgroundC);
}

/** Radiance of a black surface `excessK` from the background, less the background's own, W m-2 sr-1. */
export function excessRadiance(excessK: number, backgroundC: number): number {
  return bandRadiance8to14(backgroundC + excessK) - bandRadiance8to14(backgroundC);
}

/** Internal surface resistance, heat flow across, m2 K W-1. Source: ISO 6946 table of surface resistances, from memory. */
export const INNER_SURFACE_M2K_PER_W = 0.13;
/** Transmittance of a window, W m-2 K-1. Assumed: double glazing with a coating, common practice; old double glazing
 *  (2.8) is twice as far from the room's temperature. */
export const WINDOW_U_W_PER_M2K = 1.4;

/** Glass on the side of the room, °C, in steady state: inside - U R_si (inside - outside). Source: definition of the U-value. */
export function glassInsideC(insideC: number, outsideC: number, uWPerM2K = WINDOW_U_W_PER_M2K): number {
  return insideC - uWPerM2K * INNER_SURFACE_M2K_PER_W * (insideC - outsideC);
}

/** Lumens of a watt of the sun's own beam, lm W-1. Source: measured values of 95-110 in daylighting handbooks, from memory. */
export const SUNLIGHT_LM_PER_W = 105;
/** Heat leaving a warmed floor or desk top upwards, W m-2 K-1. Source: 1 / R_si for flow upwards, 0.10 m2 K W-1, from memory. */
export const SUNNY_SURFACE_W_PER_M2K = 10;
/** Of what a sunny surface absorbs this goes down into it, share. Assumed: a covered screed; bare stone takes more and
 *  stays cooler, a carpet less. */
export const INTO_THE_FLOOR_SHARE = 0.35;

/**
 * How far a surface settles above the room in the sun, K: absorbed power over what carries it away. `lx` is the sun's
 * own illuminance on it; the patch is taken to have lain there for some minutes. Source: steady heat balance.
 */
export function sunWarmedK(lx: number, reflectance: number): number {
  const absorbedWPerM2 = (lx / SUNLIGHT_LM_PER_W) * (1 - reflectance);
  return (absorbedWPerM2 * (1 - INTO_THE_FLOOR_SHARE)) / SUNNY_SURFACE_W_PER_M2K;
}
