/**
 * Shape of the sky: the fifteen standard skies of ISO 15469:2004 / CIE S 011 and the traditional overcast sky
 * (type 16), and the sky as 145 patches. Patches: Tregenza 1987, bands of 12 degrees; patch 0 is due north on the
 * horizon, then clockwise by true azimuth, then the next band up; the last one is the zenith.
 */
import { acos, clamp, cos, exp, PI, sin, sqrt } from '../../math.ts';
import { degToRad } from '../../units.ts';
import { skyDirection } from './sun.ts';

/** Patches in each band, from the horizon up. Source: Tregenza 1987, Lighting Research & Technology 19. */
export const TREGENZA_BANDS: readonly number[] = [30, 30, 24, 24, 18, 12, 6, 1];
export const SKY_PATCHES = 145;

/** Gradation (a, b) and indicatrix (c, d, e) of types 1 to 15. Source: ISO 15469:2004 table 1. */
const GRADATION: readonly (readonly [a: number, b: number])[] = [
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
const INDICATRIX_GROUPS: readonly (readonly [c: number, d: number, e: number])[] = [
  [0, -1, 0],
  [2, -1.5, 0.15],
  [5, -2.5, 0.3],
  [10, -3, 0.45],
  [16, -3, 0.3],
  [24, -2.8, 0.15],
];
const INDICATRIX_OF_TYPE: readonly number[] = [0, 1, 0, 1, 0, 1, 2, 3, 1, 2, 3, 3, 4, 4, 5];
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

function checkType(cieType: number): void {
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
  checkType(cieType);
  const cosZenith = cos(zenithAngleRad);
  if (cieType === TRADITIONAL_OVERCAST) return (1 + 2 * clamp(cosZenith, 0, 1)) / 3;
  const [a, b] = GRADATION[cieType - 1]!;
  const [c, d, e] = INDICATRIX_GROUPS[INDICATRIX_OF_TYPE[cieType - 1]!]!;
  const cosToSun =
    cosZenith * cos(sunZenithAngleRad) + sin(zenithAngleRad) * sin(sunZenithAngleRad) * cos(azimuthDifferenceRad);
  const here = skyGradation(a, b, cosZenith) * skyIndicatrix(c, d, e, acos(clamp(cosToSun, -1, 1)));
  return here / (skyGradation(a, b, 1) * skyIndicatrix(c, d, e, sunZenithAngleRad));
}

// --- patches -------------------------------------------------------------------------------------------------------

/** Samples along each side of a patch. Source: computed; 3 x 3 puts every whole-sky integral within 0.3 % (see
 *  tests/light-sky/sky.test.ts), 1 x 1 only within 2 %. */
const SUB = 3;
/** Sectors of the zenith patch, which is a whole circle. Assumed: 12, as dense as the sub-samples of the band below. */
const CAP_SECTORS = 12;
const BAND_RAD = degToRad(12);
const CAP_FROM_RAD = degToRad(84);

export interface SkyPatches {
  /** Unit vectors to the patch centres, x east, y north, z up, 3 numbers each. */
  centre: Float64Array;
  altitudeDeg: Float64Array;
  azimuthDeg: Float64Array;
  solidAngleSr: Float64Array;
  /** Integral of sin(altitude) over the patch, sr; all together pi. */
  projectedSr: Float64Array;
  /** Samples inside the patches: `sampleFrom[p]` to `sampleFrom[p + 1]`; direction and exact solid angle of each. */
  sampleFrom: Int32Array;
  sample: Float64Array;
  sampleSr: Float64Array;
  sampleProjectedSr: Float64Array;
}

interface Sample {
  direction: [number, number, number];
  sr: number;
  projectedSr: number;
}

/** Samples of the piece of sky between two altitudes and two azimuths, with exact solid angles. */
function samplesOf(lowRad: number, highRad: number, fromRad: number, widthRad: number, sectors: number): Sample[] {
  const samples: Sample[] = [];
  for (let row = 0; row < SUB; row++) {
    const low = lowRad + ((highRad - lowRad) * row) / SUB;
    const high = lowRad + ((highRad - lowRad) * (row + 1)) / SUB;
    const sr = ((sin(high) - sin(low)) * widthRad) / sectors;
    const projectedSr = ((sin(high) * sin(high) - sin(low) * sin(low)) * widthRad) / sectors / 2;
    const middle = (low + high) / 2;
    for (let k = 0; k < sectors; k++) {
      const azimuth = fromRad + (widthRad * (k + 0.5)) / sectors;
      samples.push({
        direction: [cos(middle) * sin(azimuth), cos(middle) * cos(azimuth), sin(middle)],
        sr,
        projectedSr,
      });
    }
  }
  return samples;
}

function buildPatches(): SkyPatches {
  const pieces: { altitudeDeg: number; azimuthDeg: number; samples: Sample[] }[] = [];
  TREGENZA_BANDS.forEach((patches, band) => {
    const isCap = patches === 1;
    const low = isCap ? CAP_FROM_RAD : band * BAND_RAD;
    const high = isCap ? PI / 2 : low + BAND_RAD;
    const width = (2 * PI) / patches;
    for (let k = 0; k < patches; k++) {
      pieces.push({
        altitudeDeg: isCap ? 90 : band * 12 + 6,
        azimuthDeg: (360 * k) / patches,
        samples: samplesOf(low, high, (k - 0.5) * width, width, isCap ? CAP_SECTORS : SUB),
      });
    }
  });
  const all = pieces.flatMap((piece) => piece.samples);
  const sampleFrom = new Int32Array(SKY_PATCHES + 1);
  pieces.forEach((piece, p) => {
    sampleFrom[p + 1] = sampleFrom[p]! + piece.samples.length;
  });
  const sum = (samples: Sample[], key: 'sr' | 'projectedSr') => samples.reduce((total, s) => total + s[key], 0);
  return {
    centre: Float64Array.from(pieces.flatMap((p) => skyDirection(p.altitudeDeg, p.azimuthDeg))),
    altitudeDeg: Float64Array.from(pieces, (p) => p.altitudeDeg),
    azimuthDeg: Float64Array.from(pieces, (p) => p.azimuthDeg),
    solidAngleSr: Float64Array.from(pieces, (p) => sum(p.samples, 'sr')),
    projectedSr: Float64Array.from(pieces, (p) => sum(p.samples, 'projectedSr')),
    sampleFrom,
    sample: Float64Array.from(all.flatMap((s) => s.direction)),
    sampleSr: Float64Array.from(all, (s) => s.sr),
    sampleProjectedSr: Float64Array.from(all, (s) => s.projectedSr),
  };
}

/** The 145 patches, in the order told at the top of this file. Never changed after it is made. */
export const TREGENZA: SkyPatches = buildPatches();

/** Patch that holds a direction (unit vector, z up); -1 below the horizon. */
export function skyPatchOf(altitudeDeg: number, azimuthDeg: number): number {
  if (altitudeDeg < 0) return -1;
  if (altitudeDeg >= 84) return SKY_PATCHES - 1;
  const band = Math.floor(altitudeDeg / 12);
  let first = 0;
  for (let b = 0; b < band; b++) first += TREGENZA_BANDS[b]!;
  const patches = TREGENZA_BANDS[band]!;
  const k = Math.round((azimuthDeg * patches) / 360) % patches;
  return first + (k < 0 ? k + patches : k);
}

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

/** Gradation of every sample by type, so that a sky costs no exponential. */
const GRADATION_TABLES: readonly Float64Array[] = GRADATION.map(([a, b]) =>
  Float64Array.from(TREGENZA.sampleSr, (_, i) => skyGradation(a, b, TREGENZA.sample[3 * i + 2]!)),
);
const ALL_EVEN = new Float64Array(TREGENZA.sampleSr.length).fill(1);

/**
 * Fills `out` (145) with patch luminances in any common scale (gradation x indicatrix) and returns the horizontal
 * illuminance of that sky in the same scale.
 */
function relativePatches(cieType: number, sunAltitudeDeg: number, sunAzimuthDeg: number, out: Float64Array): number {
  const { sample, sampleSr, sampleFrom, solidAngleSr, projectedSr } = TREGENZA;
  const overcast = cieType === TRADITIONAL_OVERCAST;
  const gradation = overcast ? ALL_EVEN : GRADATION_TABLES[cieType - 1]!;
  const table = INDICATRIX_TABLES[overcast ? 0 : INDICATRIX_OF_TYPE[cieType - 1]!]!;
  // Below the horizon the sun still shapes the twilight as if it stood on it.
  const [sx, sy, sz] = skyDirection(Math.max(sunAltitudeDeg, 0), sunAzimuthDeg);
  let horizontal = 0;
  for (let p = 0; p < SKY_PATCHES; p++) {
    let sum = 0;
    const end = sampleFrom[p + 1]!;
    for (let i = sampleFrom[p]!; i < end; i++) {
      const z = sample[3 * i + 2]!;
      if (overcast) {
        sum += ((1 + 2 * z) / 3) * sampleSr[i]!;
        continue;
      }
      const cosToSun = sample[3 * i]! * sx + sample[3 * i + 1]! * sy + z * sz;
      const chord = cosToSun >= 1 ? 0 : sqrt(2 - 2 * cosToSun) * (CHORD_STEPS / 2);
      const step = Math.floor(chord);
      const low = table[step]!;
      sum += gradation[i]! * (low + (table[step + 1]! - low) * (chord - step)) * sampleSr[i]!;
    }
    const luminance = sum / solidAngleSr[p]!;
    out[p] = luminance;
    horizontal += luminance * projectedSr[p]!;
  }
  return horizontal;
}

/**
 * Luminance of every patch, cd/m2, so that an unobstructed horizontal plane gets exactly `horizontalSkyLx`.
 * `out` holds 145 numbers and is overwritten. Throws a RangeError for a type outside 1 to 16.
 */
export function skyPatchVector(
  cieType: number,
  sunAltitudeDeg: number,
  sunAzimuthDeg: number,
  horizontalSkyLx: number,
  out: Float64Array,
): void {
  checkType(cieType);
  const scale = horizontalSkyLx / relativePatches(cieType, sunAltitudeDeg, sunAzimuthDeg, out);
  for (let p = 0; p < SKY_PATCHES; p++) out[p]! *= scale;
}

/** Zenith luminance / horizontal illuminance of the whole sky, 1/sr. */
export function skyZenithToHorizontal(cieType: number, sunAltitudeDeg: number): number {
  checkType(cieType);
  const horizontal = relativePatches(cieType, sunAltitudeDeg, 180, new Float64Array(SKY_PATCHES));
  if (cieType === TRADITIONAL_OVERCAST) return 1 / horizontal;
  const [a, b] = GRADATION[cieType - 1]!;
  const [c, d, e] = INDICATRIX_GROUPS[INDICATRIX_OF_TYPE[cieType - 1]!]!;
  return (skyGradation(a, b, 1) * skyIndicatrix(c, d, e, degToRad(90 - sunAltitudeDeg))) / horizontal;
}

/**
 * Weights w so that an unobstructed plane with this unit normal (x east, y north, z up) gets sum(w[p] x L[p]) lux from
 * the sky. `out` holds 145 numbers.
 */
export function patchPlaneWeights(nx: number, ny: number, nz: number, out: Float64Array): void {
  const { sample, sampleSr, sampleFrom } = TREGENZA;
  for (let p = 0; p < SKY_PATCHES; p++) {
    let sum = 0;
    for (let i = sampleFrom[p]!; i < sampleFrom[p + 1]!; i++) {
      const cosine = sample[3 * i]! * nx + sample[3 * i + 1]! * ny + sample[3 * i + 2]! * nz;
      if (cosine > 0) sum += cosine * sampleSr[i]!;
    }
    out[p] = sum;
  }
}
