/** Where the light of a scene ends: absorbed by surfaces or gone through openings. For tests and reference rows. */

import { cos, PI, sin } from '../math.ts';
import { degToRad } from '../units.ts';
import { buildWindowLight, windowElementLx } from './field.ts';
import { BINS, faceIndex, GROUND_BIN, openingRatio, SKY } from './outside.ts';
import type { OutsideLight, RoomGeometry, SensorPart } from './parts.ts';
import { buildBlindPart, buildGeometry, buildSensorPart, fillBins, interreflection } from './parts.ts';
import type { LightScene, SceneOpening } from './scene.ts';
import type { Interreflection } from './solve.ts';
import { patchMeans, reflectedLx, solvePatches } from './solve.ts';

export interface LitScene {
  scene: LightScene;
  geometry: RoomGeometry;
  inter: Interreflection;
  sensors: SensorPart[];
}

/** Everything of a scene at once; `refine` makes the mesh finer. */
export function lightUp(scene: LightScene, refine = 1): LitScene {
  const geometry = buildGeometry(scene, refine);
  const inter = interreflection(geometry, scene);
  return { scene, geometry, inter, sensors: scene.sensors.map((s) => buildSensorPart(geometry, scene, inter, s)) };
}

/** Direct light of all lamps on elements, lx. */
export function lampsElementLx(lit: LitScene): Float64Array {
  const { mesh, lampElementLx } = lit.geometry;
  const out = new Float64Array(mesh.count);
  for (const group of lampElementLx) for (let e = 0; e < mesh.count; e++) out[e]! += group[e]!;
  return out;
}

/** Rings and sectors of the ground as a window sees it. Assumed: 90 x 36; the ground is uniform, so few are needed. */
const GROUND_RINGS = 90;
const GROUND_SECTORS = 36;

/**
 * Lumens that come through an opening, summed over its own outside hemisphere (no reveal, no obstruction): independent
 * of where they land, so that a balance can fail.
 */
export function enteringLm(scene: LightScene, bins: Float64Array, opening: SceneOpening): number {
  const face = faceIndex(opening);
  const bearing = degToRad(scene.yBearingDeg + (face < 2 ? 90 : 0) + ((face & 1) === 1 ? 0 : 180));
  const [nx, ny, nz] = face > 3 ? [0, 0, face === 5 ? 1 : -1] : [sin(bearing), cos(bearing), 0];
  let lx = 0;
  for (let p = 0; p < SKY.count; p++) {
    for (let i = SKY.sampleFrom[p]!; i < SKY.sampleFrom[p + 1]!; i++) {
      const c = SKY.sample[3 * i]! * nx + SKY.sample[3 * i + 1]! * ny + SKY.sample[3 * i + 2]! * nz;
      if (c > 0) lx += bins[p]! * c * openingRatio(opening, c) * SKY.sampleSr[i]!;
    }
  }
  for (let a = 0; a < GROUND_RINGS; a++) {
    const down = ((a + 0.5) / GROUND_RINGS) * (PI / 2);
    const sr = (cos(down) * (PI / 2 / GROUND_RINGS) * 2 * PI) / GROUND_SECTORS;
    for (let k = 0; k < GROUND_SECTORS; k++) {
      const round = (2 * PI * k) / GROUND_SECTORS;
      const c = cos(down) * (sin(round) * nx + cos(round) * ny) - sin(down) * nz;
      if (c > 0) lx += bins[GROUND_BIN]! * c * openingRatio(opening, c) * sr;
    }
  }
  const sides = [0, 1, 2].map((axis) => opening.maxM[axis]! - opening.minM[axis]!).filter((side) => side > 1e-9);
  return sides.reduce((area, side) => area * side, 1) * opening.transmittance * lx;
}

/** Light straight through the windows on elements (blinds open, no sun), lx, and the lumens that came in. */
export function skyElementLx(lit: LitScene, light: OutsideLight): { elementLx: Float64Array; enteredLm: number } {
  const { geometry, scene } = lit;
  const bins = new Float64Array(BINS);
  fillBins(geometry, scene, light, bins);
  const blinds = buildBlindPart(geometry, [], scene.openings.length, []);
  const through = buildWindowLight(scene, { geometry, blinds });
  const enteredLm = geometry.cells.grids.reduce(
    (sum, g) => sum + enteringLm(scene, bins, scene.openings[g.opening]!),
    0,
  );
  return { elementLx: windowElementLx(geometry, scene, through, light, bins), enteredLm };
}

/** Total illuminance of patches, lx. */
export function patchTotalLx(lit: LitScene, directLx: Float64Array): Float64Array {
  const { mesh, transport } = lit.geometry;
  const { factors } = transport;
  const n = mesh.patchCount;
  const direct = new Float64Array(n);
  patchMeans(mesh, directLx, direct);
  const exitance = direct.map((lx, p) => lx * lit.inter.patchReflectance[p]!);
  solvePatches(lit.inter.lu, n, exitance);
  return direct.map((lx, p) => exitance.reduce((sum, j, q) => sum + factors[p * n + q]! * j, lx));
}

/** Lumens absorbed by surfaces; what falls on an opening and is not reflected there counts as having left. */
export function absorbedLm(lit: LitScene, directLx: Float64Array): number {
  const total = patchTotalLx(lit, directLx);
  const { patchAreaM2 } = lit.geometry.mesh;
  return total.reduce((sum, lx, p) => sum + lx * patchAreaM2[p]! * (1 - lit.inter.patchReflectance[p]!), 0);
}

/** Reflected light on elements, as the picture gets it before smoothing, lx. */
export function reflectedElementLx(lit: LitScene, directLx: Float64Array): Float64Array {
  const out = new Float64Array(lit.geometry.mesh.count);
  reflectedLx(lit.geometry.mesh, lit.geometry.transport, lit.inter, directLx, null, out);
  return out;
}

/** Mean over the uncovered area of all elements. */
export function meanLx(lit: LitScene, elementLx: Float64Array): number {
  const { mesh } = lit.geometry;
  let sum = 0;
  let area = 0;
  for (let e = 0; e < mesh.count; e++) {
    sum += elementLx[e]! * mesh.areaM2[e]!;
    area += mesh.areaM2[e]!;
  }
  return sum / area;
}
