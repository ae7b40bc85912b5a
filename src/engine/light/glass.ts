/** How glass dims with the angle of incidence. */
import { sqrt } from '../math.ts';

/** Refractive index of soda-lime window glass. Source: value in common use in solar engineering (Duffie & Beckman,
 *  quoted from memory); 1.50 or 1.60 change the ratio at 60 degrees by less than 0.005. */
export const GLASS_REFRACTIVE_INDEX = 1.526;

/**
 * t(theta) / t(0) of one clear pane: Fresnel reflection at both faces, reflections between the faces added
 * incoherently, both polarisations averaged, no absorption. `cosIncidence` 0..1 (clamped). Source: Fresnel equations.
 */
export function glazingRatio(cosIncidence: number, refractiveIndex = GLASS_REFRACTIVE_INDEX): number {
  if (cosIncidence <= 0) return 0;
  const c = Math.min(cosIncidence, 1);
  const n = refractiveIndex;
  // Snell: n cos(t) of the refracted ray.
  const nCosInside = sqrt(n * n - 1 + c * c);
  const rootS = (c - nCosInside) / (c + nCosInside);
  const rootP = (n * n * c - nCosInside) / (n * n * c + nCosInside);
  const s = rootS * rootS;
  const p = rootP * rootP;
  // Sum over all internal reflections, (1 - r)^2 / (1 - r^2) = (1 - r) / (1 + r).
  const transmitted = ((1 - s) / (1 + s) + (1 - p) / (1 + p)) / 2;
  // At normal incidence the same sum is 2n / (n^2 + 1).
  return (transmitted * (n * n + 1)) / (2 * n);
}

/** Steps of the mean below. Assumed: 400; 100 would move the fifth digit. */
const DIFFUSE_STEPS = 400;

/** Cosine-weighted hemispherical mean of `glazingRatio`: for evenly diffuse light. 0.922 for window glass. */
export function glazingDiffuseRatio(refractiveIndex = GLASS_REFRACTIVE_INDEX): number {
  let sum = 0;
  for (let i = 0; i < DIFFUSE_STEPS; i++) {
    // Equal steps of cos^2 are equal shares of a cosine-weighted hemisphere.
    sum += glazingRatio(sqrt((i + 0.5) / DIFFUSE_STEPS), refractiveIndex);
  }
  return sum / DIFFUSE_STEPS;
}
