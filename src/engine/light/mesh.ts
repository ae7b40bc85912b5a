/**
 * The room cut into small elements (direct light, the picture) and larger patches (interreflection).
 * Grid lines follow the edges of windows and doors exactly: a window meshed by "is the cell centre inside" gets the wrong
 * glass area. Furniture is not followed: an element partly under a cabinet keeps the uncovered share of its area.
 */
import { sqrt } from '../math.ts';
import type { Vector3 } from '../types.ts';
import type { BoxGroups } from './boxGroups.ts';
import { groupBoxes } from './boxGroups.ts';
import type { LightScene } from './scene.ts';
import { FACE_ORDER } from './scene.ts';
import type { Surface } from './surfaces.ts';
import { addBoxSurfaces, roomSurfaces, surfacePoint } from './surfaces.ts';

/** Largest and smallest side of an element on a room face, m. Assumed: 0.3 and 0.2; a ceiling sensor over a strip of
 *  sun half under a desk errs by 5 % at 0.3, 3 % at 0.23; twice 0.3 would blur desks and sun alike. */
export const ELEMENT_M = 0.3;
const SMALLEST_ELEMENT_M = 0.2;
/** Elements on the faces of an ordinary room. Assumed: 2200, half a second of tables; small rooms get small elements. */
const WANTED_ELEMENTS = 2200;
/** Side of elements on furniture, m. Assumed: 0.22, so that a desk top has 4 x 7. */
const FURNITURE_ELEMENT_M = 0.22;
/** Side of a patch, m. Assumed: 0.9; finer costs time with the third power of the number of patches. */
const PATCH_M = 0.9;
/** Elements of a room before the element side is enlarged. Assumed: 3600, half a second of tables. */
const MAX_ELEMENTS = 3600;
/** Coverage is sampled at this many points along each side of an element. Assumed: 4, area to a sixteenth. */
const COVER_SAMPLES = 4;
/** How far above a surface "just outside it" is, m. Assumed: a millimetre. */
const ABOVE_M = 1e-3;

export interface Mesh {
  sizeM: Vector3;
  /** Room faces in FACE_ORDER, then six for each box in the order -x, +x, -y, +y, -z, +z. */
  surfaces: Surface[];
  count: number;
  surfaceOf: Uint16Array;
  /** Uncovered representative point, 3 numbers each. */
  centre: Float64Array;
  /** Uncovered area, m2; 0 = hidden altogether. */
  areaM2: Float64Array;
  /** Uncovered / whole area. */
  openShare: Float64Array;
  /** Opening that the element lies in, or -1. */
  opening: Int16Array;
  patch: Uint16Array;
  patchCount: number;
  patchAreaM2: Float64Array;
  /** Box bounds, [minX, minY, minZ, maxX, maxY, maxZ] each; and the highest point of all boxes. */
  boxBounds: Float64Array;
  boxCount: number;
  boxTopM: number;
  /** The same boxes in small neighbourly groups, so that most rays test a few hulls instead of every box. */
  groups: BoxGroups;
}

/** Whether a point lies inside furniture or outside the room. */
export function isCovered(
  mesh: Pick<Mesh, 'sizeM' | 'boxBounds' | 'boxCount'>,
  x: number,
  y: number,
  z: number,
): boolean {
  const { sizeM, boxBounds: b } = mesh;
  if (x <= 0 || y <= 0 || z <= 0 || x >= sizeM[0] || y >= sizeM[1] || z >= sizeM[2]) return true;
  for (let k = 0; k < mesh.boxCount * 6; k += 6) {
    if (x > b[k]! && y > b[k + 1]! && z > b[k + 2]! && x < b[k + 3]! && y < b[k + 4]! && z < b[k + 5]!) return true;
  }
  return false;
}

const probe = new Float64Array(3);

/** Uncovered share of a cell, and its representative uncovered point. */
function measureCell(mesh: Mesh, s: Surface, i: number, j: number, e: number): void {
  const u0 = s.us[i]!;
  const du = s.us[i + 1]! - u0;
  const v0 = s.vs[j]!;
  const dv = s.vs[j + 1]! - v0;
  const open: [number, number][] = [];
  for (let b = 0; b < COVER_SAMPLES; b++) {
    for (let a = 0; a < COVER_SAMPLES; a++) {
      const u = u0 + (du * (a + 0.5)) / COVER_SAMPLES;
      const v = v0 + (dv * (b + 0.5)) / COVER_SAMPLES;
      surfacePoint(s, u, v, ABOVE_M, probe);
      if (!isCovered(mesh, probe[0]!, probe[1]!, probe[2]!)) open.push([u, v]);
    }
  }
  const all = COVER_SAMPLES * COVER_SAMPLES;
  mesh.openShare[e] = open.length / all;
  mesh.areaM2[e] = (du * dv * open.length) / all;
  let best: [number, number] = [u0 + du / 2, v0 + dv / 2];
  if (open.length > 0 && open.length < all) {
    const meanU = open.reduce((sum, p) => sum + p[0], 0) / open.length;
    const meanV = open.reduce((sum, p) => sum + p[1], 0) / open.length;
    const distance = (p: [number, number]) => (p[0] - meanU) * (p[0] - meanU) + (p[1] - meanV) * (p[1] - meanV);
    best = open.reduce((near, p) => (distance(p) < distance(near) ? p : near), open[0]!);
  }
  surfacePoint(s, best[0], best[1], 0, mesh.centre, e * 3);
}

/** Number of the patch that a grid cell belongs to along one side: whole patches of about PATCH_M. */
function patchIndex(lines: Float64Array, cell: number, patchM: number): number {
  const from = lines[0]!;
  const length = lines[lines.length - 1]! - from;
  const n = Math.max(1, Math.round(length / patchM));
  return Math.min(n - 1, Math.floor((((lines[cell]! + lines[cell + 1]!) / 2 - from) / length) * n));
}

/** Patches never mix surfaces of different reflectance; the thin sides of a box are one patch together. */
function patchKey(s: Surface, i: number, j: number, opening: number): string {
  if (s.box < 0) return `f${s.face}/${opening}/${patchIndex(s.us, i, PATCH_M)}/${patchIndex(s.vs, j, PATCH_M)}`;
  const areaM2 = (s.us[s.nu]! - s.us[0]!) * (s.vs[s.nv]! - s.vs[0]!);
  if (areaM2 < 0.15 && s.fixedAxis !== 2) return `b${s.box}/sides`;
  return `b${s.box}/${s.fixedAxis}${s.sign}/${patchIndex(s.us, i, PATCH_M)}/${patchIndex(s.vs, j, PATCH_M)}`;
}

function openingOf(scene: LightScene, s: Surface, u: number, v: number): number {
  if (s.box >= 0) return -1;
  return scene.openings.findIndex(
    (o) =>
      o.face === FACE_ORDER[s.face] &&
      u > o.minM[s.uAxis]! &&
      u < o.maxM[s.uAxis]! &&
      v > o.minM[s.vAxis]! &&
      v < o.maxM[s.vAxis]!,
  );
}

function emptyMesh(scene: LightScene, surfaces: Surface[]): Mesh {
  const last = surfaces[surfaces.length - 1]!;
  const count = last.first + last.nu * last.nv;
  const boxBounds = new Float64Array(scene.boxes.length * 6);
  scene.boxes.forEach((b, k) => {
    boxBounds.set([...b.minM, ...b.maxM], k * 6);
  });
  return {
    sizeM: scene.sizeM,
    surfaces,
    count,
    surfaceOf: new Uint16Array(count),
    centre: new Float64Array(count * 3),
    areaM2: new Float64Array(count),
    openShare: new Float64Array(count),
    opening: new Int16Array(count).fill(-1),
    patch: new Uint16Array(count),
    patchCount: 0,
    patchAreaM2: new Float64Array(0),
    boxBounds,
    boxCount: scene.boxes.length,
    boxTopM: scene.boxes.reduce((top, b) => Math.max(top, b.maxM[2]), 0),
    groups: groupBoxes(boxBounds),
  };
}

function elementSideM(scene: LightScene): number {
  const [x, y, z] = scene.sizeM;
  const fitting = sqrt((2 * (x * y + y * z + z * x)) / WANTED_ELEMENTS);
  return Math.min(ELEMENT_M, Math.max(SMALLEST_ELEMENT_M, fitting));
}

/** Pure function of the scene's geometry; `refine` > 1 makes elements that much smaller (for tests of the mesh). */
export function buildMesh(scene: LightScene, refine = 1): Mesh {
  let stepM = elementSideM(scene) / refine;
  let surfaces = roomSurfaces(scene, stepM);
  addBoxSurfaces(scene, surfaces, FURNITURE_ELEMENT_M / refine);
  for (let round = 0; round < 4; round++) {
    const last = surfaces[surfaces.length - 1]!;
    const count = last.first + last.nu * last.nv;
    if (count <= MAX_ELEMENTS * refine * refine) break;
    stepM *= 1.25;
    surfaces = roomSurfaces(scene, stepM);
    addBoxSurfaces(scene, surfaces, (FURNITURE_ELEMENT_M / ELEMENT_M) * stepM);
  }
  const mesh = emptyMesh(scene, surfaces);
  const patches = new Map<string, number>();
  surfaces.forEach((s, index) => {
    for (let j = 0; j < s.nv; j++) {
      for (let i = 0; i < s.nu; i++) {
        const e = s.first + j * s.nu + i;
        mesh.surfaceOf[e] = index;
        measureCell(mesh, s, i, j, e);
        const opening = openingOf(scene, s, (s.us[i]! + s.us[i + 1]!) / 2, (s.vs[j]! + s.vs[j + 1]!) / 2);
        mesh.opening[e] = opening;
        const key = patchKey(s, i, j, opening);
        const known = patches.get(key);
        mesh.patch[e] = known ?? patches.size;
        if (known === undefined) patches.set(key, patches.size);
      }
    }
  });
  mesh.patchCount = patches.size;
  mesh.patchAreaM2 = new Float64Array(patches.size);
  for (let e = 0; e < mesh.count; e++) mesh.patchAreaM2[mesh.patch[e]!]! += mesh.areaM2[e]!;
  return mesh;
}
