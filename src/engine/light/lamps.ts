/** Light distributions of lamps, made by formula. What a lamp gives at a point: lampLight.ts. */
import { PI } from '../math.ts';
import type { LampDistribution } from '../types.ts';

/**
 * Strength of the wings of 'batwing', dimensionless: intensity ~ cos + k cos sin^2.
 * Assumed: 1.5, which peaks at 42 degrees from straight down at 1.24 times the axial value; 0 would be a Lambert lamp,
 * 3 would peak at 48 degrees and leave a dark spot under the lamp.
 */
export const BATWING_STRENGTH = 1.5;

/** Luminous flux of I = axial cd x cos^power over the lower hemisphere, lm. Source: integral, 2 pi I / (power + 1). */
export function cosinePowerFluxLm(axialCd: number, power: number): number {
  return (2 * PI * axialCd) / (power + 1);
}

const LAMBERT_AXIAL_CD = 1 / cosinePowerFluxLm(1, 1);
const COSINE3_AXIAL_CD = 1 / cosinePowerFluxLm(1, 3);
// (1 + k) cos - k cos^3, so the flux is a difference of two powers.
const BATWING_AXIAL_CD =
  1 / ((1 + BATWING_STRENGTH) * cosinePowerFluxLm(1, 1) - BATWING_STRENGTH * cosinePowerFluxLm(1, 3));

/**
 * Candela per lumen of downward flux in the direction whose cosine from straight down is given; 0 at and above the
 * horizontal. Every distribution gives 1 lm over the lower hemisphere.
 */
export function lampIntensity(distribution: LampDistribution, cosFromDown: number): number {
  if (cosFromDown <= 0) return 0;
  const c = cosFromDown;
  if (distribution === 'lambert') return LAMBERT_AXIAL_CD * c;
  if (distribution === 'cosine3') return COSINE3_AXIAL_CD * c * c * c;
  return BATWING_AXIAL_CD * c * (1 + BATWING_STRENGTH * (1 - c * c));
}
