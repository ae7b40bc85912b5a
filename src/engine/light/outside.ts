/**
 * What a ray meets outside: a patch of sky, the ground, the obstruction opposite, or the reveal of its own window.
 * All of them are numbered bins with one luminance each, so that daylight is a dot product.
 * Source: Tregenza & Waters 1983, daylight coefficients (from memory of the abstract).
 */
import { asin, atan2, clamp, cos, PI, sin } from '../math.ts';
import { degToRad, radToDeg, wrapDeg } from '../units.ts';
import { glazingRatio } from './glass.ts';
import type { LightScene, SceneOpening } from './scene.ts';
import { FACE_ORDER } from './scene.ts';
import { patchPlaneWeights, skyPatchOf, TREGENZA_FINE } from './sky/patches.ts';

/** Sky patches seen from inside the room: 577, because a deep room sees but a few degrees above the horizon. */
export const SKY = TREGENZA_FINE;
/** Ground, then for each room face the obstruction and the reveal as seen through openings of that face. */
export const GROUND_BIN = SKY.count;
export const OBSTRUCTION_BIN = GROUND_BIN + 1;
export const REVEAL_BIN = OBSTRUCTION_BIN + 6;
export const BINS = REVEAL_BIN + 6;

/** Reflectance of window reveals. Assumed: 0.6, painted; only a tenth of the window's light meets them. */
const REVEAL_REFLECTANCE = 0.6;
/** Share of the façade's light that falls on a reveal. Assumed: 0.4, deep in the opening less; 0 loses 2 % of the room's daylight. */
const REVEAL_LIGHT_SHARE = 0.4;

/** Fine map of directions: rows in sin(altitude), columns in azimuth pseudo-angle. Assumed: 512 x 720, a patch edge to 0.25 degrees. */
const ALTITUDE_STEPS = 512;
const AZIMUTH_STEPS = 720;

/** Sky patch (or BEHIND_OBSTRUCTION) by direction in ROOM axes; built for one bearing of the room. */
export interface DirectionMap {
  patch: Uint16Array;
}

const BEHIND_OBSTRUCTION = 65535;

/** Monotone stand-in for the angle of (x, y) clockwise from +y, 0..4; exact at the quarter turns, no trigonometry. */
function pseudoAngle(x: number, y: number): number {
  const p = Math.abs(x) + Math.abs(y);
  if (p === 0) return 0;
  const t = x / p;
  return y >= 0 ? (x >= 0 ? t : 4 + t) : 2 - t;
}

function angleOfPseudo(pseudo: number): number {
  const quarter = Math.floor(pseudo);
  const t = pseudo - quarter;
  return (quarter * PI) / 2 + atan2(t, 1 - t);
}

export function buildDirectionMap(scene: LightScene): DirectionMap {
  const patch = new Uint16Array(ALTITUDE_STEPS * AZIMUTH_STEPS);
  for (let a = 0; a < ALTITUDE_STEPS; a++) {
    const altitudeDeg = radToDeg(asin((a + 0.5) / ALTITUDE_STEPS));
    const hidden = altitudeDeg < scene.obstructionAltitudeDeg;
    for (let k = 0; k < AZIMUTH_STEPS; k++) {
      const bearingDeg = radToDeg(angleOfPseudo(((k + 0.5) * 4) / AZIMUTH_STEPS));
      patch[a * AZIMUTH_STEPS + k] = hidden
        ? BEHIND_OBSTRUCTION
        : skyPatchOf(altitudeDeg, wrapDeg(bearingDeg + scene.yBearingDeg), SKY);
    }
  }
  return { patch };
}

/** Bin met by a unit direction (room axes) that leaves through a face. */
export function outsideBin(map: DirectionMap, face: number, x: number, y: number, z: number): number {
  if (z <= 0) return GROUND_BIN;
  const a = Math.min(ALTITUDE_STEPS - 1, (z * ALTITUDE_STEPS) | 0);
  const k = Math.min(AZIMUTH_STEPS - 1, (pseudoAngle(x, y) * (AZIMUTH_STEPS / 4)) | 0);
  const patch = map.patch[a * AZIMUTH_STEPS + k]!;
  return patch === BEHIND_OBSTRUCTION ? OBSTRUCTION_BIN + face : patch;
}

/** Illuminance on the outside of a face per unit luminance of every bin (an unobstructed plane, ground included). */
export interface FacadeWeights {
  /** Faces with openings; nothing is seen through the others. */
  faces: number[];
  /** 6 faces x BINS: what the outer side of the face receives. */
  weights: Float64Array;
  /** 6 faces x BINS: what the opposite building's front receives; it looks back at the face, over open ground. */
  oppositeWeights: Float64Array;
}

/** Outward normal of a face in true directions (x east, y north, z up). */
function outwardTrue(face: number, yBearingDeg: number, sign: 1 | -1): [number, number, number] {
  const axis = face >> 1;
  const side = ((face & 1) === 1 ? 1 : -1) * sign;
  if (axis === 2) return [0, 0, side];
  const bearing = degToRad(yBearingDeg + (axis === 1 ? 0 : 90) + (side < 0 ? 180 : 0));
  return [sin(bearing), cos(bearing), 0];
}

function planeWeights(n: [number, number, number], out: Float64Array): void {
  patchPlaneWeights(n[0], n[1], n[2], out, SKY);
  // Ground fills the rest of the plane's hemisphere: pi (1 - nz) / 2 of projected solid angle.
  out[GROUND_BIN] = (PI * (1 - n[2])) / 2;
}

export function facadeWeights(scene: LightScene): FacadeWeights {
  const weights = new Float64Array(6 * BINS);
  const oppositeWeights = new Float64Array(6 * BINS);
  const sinObstruction = sin(degToRad(scene.obstructionAltitudeDeg));
  for (let face = 0; face < 6; face++) {
    const own = weights.subarray(face * BINS, (face + 1) * BINS);
    planeWeights(outwardTrue(face, scene.yBearingDeg, 1), own);
    planeWeights(outwardTrue(face, scene.yBearingDeg, -1), oppositeWeights.subarray(face * BINS, (face + 1) * BINS));
    if (scene.obstructionAltitudeDeg > 0 && face < 4) moveToObstruction(own, sinObstruction, face);
  }
  const faces = [...new Set(scene.openings.map(faceIndex))].sort((a, b) => a - b);
  return { faces, weights, oppositeWeights };
}

/** Weight of sky behind the obstruction goes to the obstruction's bin (bands cut by the share of their height hidden). */
function moveToObstruction(own: Float64Array, sinObstruction: number, face: number): void {
  for (const band of SKY.bands) {
    const low = sin(degToRad(band.fromDeg));
    const hidden = clamp((sinObstruction - low) / (sin(degToRad(band.toDeg)) - low), 0, 1);
    for (let p = band.first; p < band.first + band.count; p++) {
      own[OBSTRUCTION_BIN + face]! += own[p]! * hidden;
      own[p]! *= 1 - hidden;
    }
  }
}

/**
 * Completes a bin vector whose sky patches are set: ground, obstruction and reveal luminances, cd/m2.
 * `sunDirection`: unit vector to the sun in room axes; `directNormalLx` 0 without sun.
 */
export function fillOutside(
  scene: LightScene,
  facade: FacadeWeights,
  horizontalSkyLx: number,
  directNormalLx: number,
  sunDirection: readonly [number, number, number],
  bins: Float64Array,
): void {
  const sunHorizontalLx = directNormalLx * Math.max(0, sunDirection[2]);
  bins[GROUND_BIN] = (scene.groundReflectance * (horizontalSkyLx + sunHorizontalLx)) / PI;
  for (const face of facade.faces) {
    const axis = face >> 1;
    const outward = ((face & 1) === 1 ? 1 : -1) * sunDirection[axis]!;
    let lx = 0;
    if (scene.obstructionAltitudeDeg > 0) {
      for (let b = 0; b <= GROUND_BIN; b++) lx += facade.oppositeWeights[face * BINS + b]! * bins[b]!;
      lx += directNormalLx * Math.max(0, -outward);
    }
    bins[OBSTRUCTION_BIN + face] = (scene.obstructionReflectance * lx) / PI;
    const own = facadeLx(facade, face, bins) + directNormalLx * Math.max(0, outward);
    bins[REVEAL_BIN + face] = (REVEAL_REFLECTANCE * REVEAL_LIGHT_SHARE * own) / PI;
  }
}

/** Illuminance on the outside of a face from sky, ground and obstruction, without direct sun, lx. */
export function facadeLx(facade: FacadeWeights, face: number, bins: Float64Array): number {
  let lx = 0;
  for (let b = 0; b < REVEAL_BIN; b++) lx += facade.weights[face * BINS + b]! * bins[b]!;
  return lx;
}

// --- glass by angle ----------------------------------------------------------------------------------------------------

const GLASS_STEPS = 512;
const GLASS_TABLE = Float64Array.from({ length: GLASS_STEPS + 2 }, (_, i) =>
  glazingRatio(Math.min(1, i / GLASS_STEPS)),
);

/** `glazingRatio` by linear interpolation (error below 1e-4 for cos > 0.02); 1 for a hole. */
export function openingRatio(opening: Pick<SceneOpening, 'glazed'>, cosIncidence: number): number {
  if (!opening.glazed) return 1;
  const x = clamp(cosIncidence, 0, 1) * GLASS_STEPS;
  const i = x | 0;
  const low = GLASS_TABLE[i]!;
  return low + (GLASS_TABLE[i + 1]! - low) * (x - i);
}

export function faceIndex(opening: Pick<SceneOpening, 'face'>): number {
  return FACE_ORDER.indexOf(opening.face);
}
