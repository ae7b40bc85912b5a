/** A sky as luminances of its patches, scaled to a horizontal illuminance. */
import { acos, PI, sqrt } from '../../math.ts';
import { degToRad } from '../../units.ts';
import {
  checkSkyType,
  GRADATION,
  INDICATRIX_GROUPS,
  INDICATRIX_OF_TYPE,
  skyGradation,
  skyIndicatrix,
  TRADITIONAL_OVERCAST,
} from './cieSky.ts';
import { type SkyPatches, TREGENZA, TREGENZA_FINE } from './patches.ts';
import { skyDirection } from './sun.ts';

export { skyGradation, skyIndicatrix, skyLuminanceRatio, TRADITIONAL_OVERCAST } from './cieSky.ts';
export {
  patchPlaneWeights,
  SKY_PATCHES,
  type SkyPatches,
  skyPatchOf,
  TREGENZA,
  TREGENZA_BANDS,
  TREGENZA_FINE,
} from './patches.ts';

/**
 * Entries of the indicatrix tables, equal steps of the chord 2 sin(angle / 2), which unlike the cosine is smooth at
 * the sun. Source: computed; the error of linear interpolation is below 1e-5 of the value.
 */
const CHORD_STEPS = 1024;

const INDICATRIX_TABLES: readonly Float64Array[] = INDICATRIX_GROUPS.map(([c, d, e]) =>
  Float64Array.from({ length: CHORD_STEPS + 2 }, (_, i) => {
    const chord = Math.min(2, (2 * i) / CHORD_STEPS);
    return skyIndicatrix(c, d, e, acos(1 - (chord * chord) / 2));
  }),
);

/** Gradation of every row of samples by type (index type - 1; the last is type 16), so a sky costs no exponential. */
function gradationTables(sky: SkyPatches): Float64Array[] {
  const tables = GRADATION.map(([a, b]) => sky.rowSinAltitude.map((z) => skyGradation(a, b, z)));
  return [...tables, sky.rowSinAltitude.map((z) => (1 + 2 * z) / 3)];
}
const GRADATION_COARSE = gradationTables(TREGENZA);
const GRADATION_FINE = gradationTables(TREGENZA_FINE);

/** Indicatrix of skies that the sun does not shape: 1 everywhere. */
const EVEN_INDICATRIX = INDICATRIX_TABLES[0]!;

/** Such a sky has one luminance all round in every row of samples, and so in every band. */
function rowsOnly(
  gradation: Float64Array,
  out: Float64Array,
  sky: SkyPatches,
): { ofPatches: number; ofSamples: number } {
  const { bands, sampleSr, sampleRow, sampleProjectedSr, sampleFrom, solidAngleSr, projectedSr } = sky;
  let ofPatches = 0;
  let ofSamples = 0;
  for (const { first, count } of bands) {
    let sum = 0;
    let projected = 0;
    for (let i = sampleFrom[first]!; i < sampleFrom[first + 1]!; i++) {
      const luminance = gradation[sampleRow[i]!]!;
      sum += luminance * sampleSr[i]!;
      projected += luminance * sampleProjectedSr[i]!;
    }
    const mean = sum / solidAngleSr[first]!;
    out.fill(mean, first, first + count);
    ofSamples += count * projected;
    for (let p = first; p < first + count; p++) ofPatches += mean * projectedSr[p]!;
  }
  return { ofPatches, ofSamples };
}

/**
 * Fills `out` with patch luminances in a common scale (gradation x indicatrix), each the mean over its patch. Returns
 * the horizontal illuminance of that sky in the same scale: `ofPatches` counts every patch as even, `ofSamples` every
 * sample (up to 0.4 % apart with 145 patches, 0.1 % with 577).
 */
function relativePatches(
  cieType: number,
  sunAltitudeDeg: number,
  sunAzimuthDeg: number,
  out: Float64Array,
  sky: SkyPatches,
): { ofPatches: number; ofSamples: number } {
  checkSkyType(cieType);
  const { sample, sampleSr, sampleRow, sampleProjectedSr, sampleFrom, solidAngleSr, projectedSr } = sky;
  const gradation = (sky === TREGENZA ? GRADATION_COARSE : GRADATION_FINE)[cieType - 1]!;
  const overcast = cieType === TRADITIONAL_OVERCAST;
  const table = INDICATRIX_TABLES[overcast ? 0 : INDICATRIX_OF_TYPE[cieType - 1]!]!;
  if (table === EVEN_INDICATRIX) return rowsOnly(gradation, out, sky);
  // Below the horizon the sun still shapes the twilight as if it stood on it.
  const [sx, sy, sz] = skyDirection(Math.max(sunAltitudeDeg, 0), sunAzimuthDeg);
  let ofPatches = 0;
  let ofSamples = 0;
  for (let p = 0; p < sky.count; p++) {
    let sum = 0;
    const end = sampleFrom[p + 1]!;
    for (let i = sampleFrom[p]!; i < end; i++) {
      const cosToSun = sample[3 * i]! * sx + sample[3 * i + 1]! * sy + sample[3 * i + 2]! * sz;
      const chord = cosToSun >= 1 ? 0 : sqrt(2 - 2 * cosToSun) * (CHORD_STEPS / 2);
      const step = chord | 0;
      const low = table[step]!;
      const luminance = gradation[sampleRow[i]!]! * (low + (table[step + 1]! - low) * (chord - step));
      sum += luminance * sampleSr[i]!;
      ofSamples += luminance * sampleProjectedSr[i]!;
    }
    const mean = sum / solidAngleSr[p]!;
    out[p] = mean;
    ofPatches += mean * projectedSr[p]!;
  }
  return { ofPatches, ofSamples };
}

/**
 * Luminance of every patch, cd/m2, so that an unobstructed horizontal plane gets exactly `horizontalSkyLx`.
 * `out` holds one number a patch (145, or 577 with `TREGENZA_FINE`) and is overwritten. Azimuth of the sun from true
 * north, clockwise. Throws a RangeError for a type outside 1 to 16.
 */
export function skyPatchVector(
  cieType: number,
  sunAltitudeDeg: number,
  sunAzimuthDeg: number,
  horizontalSkyLx: number,
  out: Float64Array,
  sky: SkyPatches = TREGENZA,
): void {
  const { ofPatches } = relativePatches(cieType, sunAltitudeDeg, sunAzimuthDeg, out, sky);
  const scale = horizontalSkyLx / ofPatches;
  for (let p = 0; p < sky.count; p++) out[p]! *= scale;
}

/** Zenith luminance / horizontal illuminance of the whole sky, 1/sr. */
export function skyZenithToHorizontal(cieType: number, sunAltitudeDeg: number): number {
  const patches = new Float64Array(TREGENZA_FINE.count);
  const { ofSamples } = relativePatches(cieType, sunAltitudeDeg, 0, patches, TREGENZA_FINE);
  if (cieType === TRADITIONAL_OVERCAST) return 1 / ofSamples;
  const [a, b] = GRADATION[cieType - 1]!;
  const [c, d, e] = INDICATRIX_GROUPS[INDICATRIX_OF_TYPE[cieType - 1]!]!;
  const zenith = skyGradation(a, b, 1) * skyIndicatrix(c, d, e, PI / 2 - degToRad(sunAltitudeDeg));
  return zenith / ofSamples;
}
