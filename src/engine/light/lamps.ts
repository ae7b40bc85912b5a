/** Light distributions of lamps, made by formula, and the illuminance that small and large sources give. */
import { PI, sqrt } from '../math.ts';
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

/** Illuminance of a point source on a surface, lx; `cosAtSurface` <= 0 (behind it) gives 0. Inverse-square law. */
export function pointIlluminanceLx(intensityCd: number, distanceM: number, cosAtSurface: number): number {
  return cosAtSurface <= 0 ? 0 : (intensityCd * cosAtSurface) / (distanceM * distanceM);
}

/** Sub-sources along each side of a luminaire, far and near. Source: computed for a 0.6 m square Lambert lamp: 4 x 4
 *  errs by 0.14 % at 2.25 m and 1.2 % at 0.6 m, one point by 33 % at 0.6 m. */
export const SUB_SOURCES_PER_SIDE = 4;
/** The same for a point nearer than two sides. Source: computed, 8 x 8 errs by 0.3 % at one side's distance. */
export const SUB_SOURCES_PER_SIDE_NEAR = 8;

/** How many sub-sources a side needs when the nearest point that counts is `distanceM` away. */
export function subSourcesPerSide(distanceM: number, longerSideM: number): number {
  return distanceM < 2 * longerSideM ? SUB_SOURCES_PER_SIDE_NEAR : SUB_SOURCES_PER_SIDE;
}

/**
 * Horizontal illuminance, lx, at a point facing up, below a downward rectangle (sides along x and y) that is
 * `distanceM` above it with its centre at the offset. `perSide` x `perSide` sub-sources at the centres of equal parts.
 */
export function rectangleLampLx(
  distribution: LampDistribution,
  fluxLm: number,
  sizeXM: number,
  sizeYM: number,
  distanceM: number,
  offsetXM: number,
  offsetYM: number,
  perSide = subSourcesPerSide(distanceM, Math.max(sizeXM, sizeYM)),
): number {
  let sumLx = 0;
  for (let i = 0; i < perSide; i++) {
    const x = offsetXM + ((i + 0.5) / perSide - 0.5) * sizeXM;
    for (let j = 0; j < perSide; j++) {
      const y = offsetYM + ((j + 0.5) / perSide - 0.5) * sizeYM;
      const r = sqrt(x * x + y * y + distanceM * distanceM);
      const c = distanceM / r;
      sumLx += pointIlluminanceLx(lampIntensity(distribution, c), r, c);
    }
  }
  return (sumLx * fluxLm) / (perSide * perSide);
}
