/** Heat balance of a clothed person at rest or at light work, as ISO 7730:2005 writes it. No external work. */
import { exp, pow, sqrt } from '../math.ts';
import { CELSIUS_ZERO_K } from '../units.ts';

/** Metabolic rate of one met, W m-2. Source: ISO 7730:2005. */
export const WATTS_PER_MET = 58.15;
/** Insulation of one clo, m2 K W-1. Source: ISO 7730:2005. */
export const CLO_M2K_PER_W = 0.155;
/** Radiative exchange per area of clothing over K^4, W m-2 K-4 (emissivity and effective area in it). Source: ISO 7730:2005. */
export const CLOTHED_RADIATION = 3.96e-8;

export interface Climate {
  airC: number;
  radiantC: number;
  airSpeedMps: number;
}

/** Ratio of clothed to bare surface, by insulation in m2 K W-1. Source: ISO 7730:2005. */
export function clothingAreaFactor(insulationM2KPerW: number): number {
  return insulationM2KPerW <= 0.078 ? 1 + 1.29 * insulationM2KPerW : 1.05 + 0.645 * insulationM2KPerW;
}

/** Convection from clothing, W m-2 K-1: the larger of free and forced. Source: ISO 7730:2005. */
export function convectionWPerM2K(surfaceC: number, airC: number, airSpeedMps: number): number {
  const free = 2.38 * pow(Math.abs(surfaceC - airC), 0.25);
  const forced = 12.1 * sqrt(airSpeedMps);
  return Math.max(free, forced);
}

/** Heat lost by clothing of area factor `areaFactor`, W per m2 of body. */
export function clothingLossWPerM2(surfaceC: number, climate: Climate, areaFactor: number): number {
  const s = surfaceC + CELSIUS_ZERO_K;
  const r = climate.radiantC + CELSIUS_ZERO_K;
  const radiation = CLOTHED_RADIATION * (s * s * s * s - r * r * r * r);
  const convection = convectionWPerM2K(surfaceC, climate.airC, climate.airSpeedMps) * (surfaceC - climate.airC);
  return areaFactor * (radiation + convection);
}

/** Bisection steps of the surface balance. Assumed: 2^-45 of 120 K is far below anything seen. */
const BISECTIONS = 45;

/** Surface temperature, °C, at which what passes the clothing from skin at `skinC` equals what the surface loses. */
export function balanceSurfaceC(skinC: number, insulationM2KPerW: number, climate: Climate): number {
  const areaFactor = clothingAreaFactor(insulationM2KPerW);
  let low = Math.min(climate.airC, climate.radiantC, skinC) - 10;
  let high = Math.max(climate.airC, climate.radiantC, skinC) + 10;
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2;
    // In the form skin = surface + I x loss there is nothing to divide by when there are no clothes.
    const skinNeeded = middle + insulationM2KPerW * clothingLossWPerM2(middle, climate, areaFactor);
    if (skinNeeded > skinC) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** Mean clothed-surface temperature, °C, with the comfort skin temperature 35.7 - 0.028 M. Source: ISO 7730:2005. */
export function clothingSurfaceC(climate: Climate, metabolicMet: number, clothingClo: number): number {
  const skinC = 35.7 - 0.028 * metabolicMet * WATTS_PER_MET;
  return balanceSurfaceC(skinC, clothingClo * CLO_M2K_PER_W, climate);
}

/** Saturated vapour pressure, Pa, times relative humidity. Source: ISO 7730:2005, Annex D (Antoine form). */
function vapourPressurePa(airC: number, relativeHumidityPct: number): number {
  return relativeHumidityPct * 10 * exp(16.6536 - 4030.183 / (airC + 235));
}

/** Predicted mean vote on the seven-step scale. Source: ISO 7730:2005, equation for PMV. */
export function predictedMeanVote(
  climate: Climate,
  relativeHumidityPct: number,
  metabolicMet: number,
  clothingClo: number,
): number {
  const m = metabolicMet * WATTS_PER_MET; // W m-2
  const p = vapourPressurePa(climate.airC, relativeHumidityPct); // Pa
  const insulation = clothingClo * CLO_M2K_PER_W;
  const surfaceC = clothingSurfaceC(climate, metabolicMet, clothingClo);
  const diffusion = 3.05e-3 * (5733 - 6.99 * m - p);
  const sweat = m > WATTS_PER_MET ? 0.42 * (m - WATTS_PER_MET) : 0;
  const wetBreath = 1.7e-5 * m * (5867 - p);
  const dryBreath = 0.0014 * m * (34 - climate.airC);
  const surface = clothingLossWPerM2(surfaceC, climate, clothingAreaFactor(insulation));
  return (0.303 * exp(-0.036 * m) + 0.028) * (m - diffusion - sweat - wetBreath - dryBreath - surface);
}
