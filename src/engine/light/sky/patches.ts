/**
 * The sky cut into patches: 145 of them in eight bands of 12 degrees (Tregenza 1987, Lighting Research & Technology
 * 19), or each of these but the zenith cut in four (577). Patch 0 is due north on the horizon; on by true azimuth
 * clockwise, then the next band up; the last patch is the zenith.
 */
import { cos, PI, sin } from '../../math.ts';
import { degToRad } from '../../units.ts';

/** Patches of 12 degrees in each band, from the horizon up. Source: Tregenza 1987. */
export const TREGENZA_BANDS: readonly number[] = [30, 30, 24, 24, 18, 12, 6, 1];
/** Sectors of the zenith patch, which is a whole circle. Assumed: 12, as dense as the samples of the band below. */
const CAP_SECTORS = 12;
const CAP_FROM_DEG = 84;

export interface SkyBand {
  fromDeg: number;
  toDeg: number;
  /** First patch of the band and how many it has. */
  first: number;
  count: number;
}

export interface SkyPatches {
  count: number;
  bands: readonly SkyBand[];
  /** Unit vectors to the patch centres, x east, y north, z up, 3 numbers each. */
  centre: Float64Array;
  altitudeDeg: Float64Array;
  azimuthDeg: Float64Array;
  solidAngleSr: Float64Array;
  /** Integral of sin(altitude) over the patch, sr; all together pi. */
  projectedSr: Float64Array;
  /** Samples inside patch p: `sampleFrom[p]` up to `sampleFrom[p + 1]`. */
  sampleFrom: Int32Array;
  /** Directions of the samples, 3 numbers each. */
  sample: Float64Array;
  /** Index into `rowSinAltitude`: samples of one height share their gradation. */
  sampleRow: Int32Array;
  /** Exact solid angle of the piece of sky around each sample, plain and weighted with sin(altitude). */
  sampleSr: Float64Array;
  sampleProjectedSr: Float64Array;
  rowSinAltitude: Float64Array;
}

function makeBands(split: number): SkyBand[] {
  const bands: SkyBand[] = [];
  let first = 0;
  TREGENZA_BANDS.forEach((patches, band) => {
    const isCap = patches === 1;
    const parts = isCap ? 1 : split;
    for (let part = 0; part < parts; part++) {
      const fromDeg = band * 12 + (12 * part) / parts;
      const count = isCap ? 1 : patches * split;
      bands.push({ fromDeg, toDeg: isCap ? 90 : fromDeg + 12 / parts, first, count });
      first += count;
    }
  });
  return bands;
}

/** Writes the samples of one patch; returns the number of the next sample. */
function fillPatch(sky: SkyPatches, patch: number, band: SkyBand, firstRow: number, rows: number, at: number): number {
  const width = (2 * PI) / band.count;
  const sectors = band.count === 1 ? CAP_SECTORS : rows;
  const heightDeg = (band.toDeg - band.fromDeg) / rows;
  const from = (patch - band.first - 0.5) * width;
  let next = at;
  for (let row = 0; row < rows; row++) {
    const sinLow = sin(degToRad(band.fromDeg + row * heightDeg));
    const sinHigh = sin(degToRad(band.fromDeg + (row + 1) * heightDeg));
    const middle = degToRad(band.fromDeg + (row + 0.5) * heightDeg);
    sky.rowSinAltitude[firstRow + row] = sin(middle);
    for (let k = 0; k < sectors; k++, next++) {
      const azimuth = from + (width * (k + 0.5)) / sectors;
      sky.sample[3 * next] = cos(middle) * sin(azimuth);
      sky.sample[3 * next + 1] = cos(middle) * cos(azimuth);
      sky.sample[3 * next + 2] = sin(middle);
      sky.sampleRow[next] = firstRow + row;
      sky.sampleSr[next] = ((sinHigh - sinLow) * width) / sectors;
      sky.sampleProjectedSr[next] = ((sinHigh * sinHigh - sinLow * sinLow) * width) / sectors / 2;
    }
  }
  for (let i = at; i < next; i++) {
    sky.solidAngleSr[patch]! += sky.sampleSr[i]!;
    sky.projectedSr[patch]! += sky.sampleProjectedSr[i]!;
  }
  return next;
}

/** `split`: cuts along each side of a 12-degree patch; `rows` x `rows` samples in each resulting patch. */
function makePatches(split: number, rows: number): SkyPatches {
  const bands = makeBands(split);
  const count = bands.reduce((sum, band) => sum + band.count, 0);
  const samples = (count - 1) * rows * rows + rows * CAP_SECTORS;
  const sky: SkyPatches = {
    count,
    bands,
    centre: new Float64Array(3 * count),
    altitudeDeg: new Float64Array(count),
    azimuthDeg: new Float64Array(count),
    solidAngleSr: new Float64Array(count),
    projectedSr: new Float64Array(count),
    sampleFrom: new Int32Array(count + 1),
    sample: new Float64Array(3 * samples),
    sampleRow: new Int32Array(samples),
    sampleSr: new Float64Array(samples),
    sampleProjectedSr: new Float64Array(samples),
    rowSinAltitude: new Float64Array(bands.length * rows),
  };
  let next = 0;
  bands.forEach((band, b) => {
    for (let patch = band.first; patch < band.first + band.count; patch++) {
      const altitudeDeg = band.count === 1 ? 90 : (band.fromDeg + band.toDeg) / 2;
      const azimuthDeg = (360 * (patch - band.first)) / band.count;
      const altitude = degToRad(altitudeDeg);
      const azimuth = degToRad(azimuthDeg);
      sky.altitudeDeg[patch] = altitudeDeg;
      sky.azimuthDeg[patch] = azimuthDeg;
      sky.centre.set([cos(altitude) * sin(azimuth), cos(altitude) * cos(azimuth), sin(altitude)], 3 * patch);
      next = fillPatch(sky, patch, band, b * rows, rows, next);
      sky.sampleFrom[patch + 1] = next;
    }
  });
  return sky;
}

/**
 * 145 patches, 3 x 3 samples in each. Light through a window at one point errs by up to 6 % (a low far window under an
 * overcast sky, whose lowest 18 degrees brighten steeply), by up to 2.5 % beside the sun.
 */
export const TREGENZA: SkyPatches = makePatches(1, 3);
export const SKY_PATCHES = TREGENZA.count;

/** 577 patches, 2 x 2 samples in each: the same points within 0.9 % overcast and 2.2 % beside the sun. */
export const TREGENZA_FINE: SkyPatches = makePatches(2, 2);

/** Patch that holds a direction; -1 below the horizon. */
export function skyPatchOf(altitudeDeg: number, azimuthDeg: number, sky: SkyPatches = TREGENZA): number {
  if (altitudeDeg < 0) return -1;
  if (altitudeDeg >= CAP_FROM_DEG) return sky.count - 1;
  const heightDeg = sky.bands[0]!.toDeg;
  const { first, count } = sky.bands[Math.floor(altitudeDeg / heightDeg)]!;
  const k = Math.round((azimuthDeg * count) / 360) % count;
  return first + (k < 0 ? k + count : k);
}

/**
 * Weights w so that an unobstructed plane with this unit normal (x east, y north, z up) gets sum(w[p] x L[p]) lux from
 * the sky. `out` holds one number a patch.
 */
export function patchPlaneWeights(
  nx: number,
  ny: number,
  nz: number,
  out: Float64Array,
  sky: SkyPatches = TREGENZA,
): void {
  const { sample, sampleSr, sampleFrom } = sky;
  for (let p = 0; p < sky.count; p++) {
    let sum = 0;
    for (let i = sampleFrom[p]!; i < sampleFrom[p + 1]!; i++) {
      const cosine = sample[3 * i]! * nx + sample[3 * i + 1]! * ny + sample[3 * i + 2]! * nz;
      if (cosine > 0) sum += cosine * sampleSr[i]!;
    }
    out[p] = sum;
  }
}
