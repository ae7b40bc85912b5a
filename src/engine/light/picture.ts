/** The picture's own even grids, one for each surface, and how their cells are mixed from elements. */
import type { FaceId, Vector3 } from '../types.ts';
import type { Mesh } from './mesh.ts';
import type { LightScene } from './scene.ts';
import { FACE_ORDER } from './scene.ts';
import type { Surface } from './surfaces.ts';
import type { FieldFace } from './types.ts';

/** Cells of the picture on floor and on other room faces, m. Assumed: 0.1, as lamps throw sharp shadows there; 0.3, what elements hold. */
const FLOOR_CELL_M = 0.1;
const FACE_CELL_M = 0.3;

/** Picture cells and the elements they are mixed from: up to four each, weights sum to 1. */
export interface PictureGrid {
  faces: FieldFace[];
  cellCount: number;
  /** 4 elements and weights a cell. */
  element: Uint16Array;
  weight: Float32Array;
}

function axisVector(axis: number, value: number): Vector3 {
  return [axis === 0 ? value : 0, axis === 1 ? value : 0, axis === 2 ? value : 0];
}

function pictureFace(scene: LightScene, s: Surface, offset: number): FieldFace {
  const kind: FaceId | 'furniture' = s.box >= 0 ? 'furniture' : FACE_ORDER[s.face]!;
  const width = s.us[s.nu]! - s.us[0]!;
  const height = s.vs[s.nv]! - s.vs[0]!;
  const cell = kind === 'floor' ? FLOOR_CELL_M : FACE_CELL_M;
  const box = scene.boxes[s.box];
  const origin = axisVector(s.fixedAxis, s.fixedM);
  origin[s.uAxis] = s.us[0]!;
  origin[s.vAxis] = s.vs[0]!;
  return {
    id: box ? `${box.furnitureId ?? 'box'}/${s.box}/${s.fixedAxis}${s.sign > 0 ? '+' : '-'}` : kind,
    kind,
    furnitureId: box?.furnitureId ?? null,
    originM: origin,
    uM: axisVector(s.uAxis, width),
    vM: axisVector(s.vAxis, height),
    normal: axisVector(s.fixedAxis, s.sign),
    nu: box ? s.nu : Math.ceil(width / cell - 1e-9),
    nv: box ? s.nv : Math.ceil(height / cell - 1e-9),
    offset,
    reflectance: box ? box.reflectance : scene.reflectance[FACE_ORDER[s.face]!],
  };
}

/** Lower neighbour and share of the upper one, on the centres of grid cells. */
function between(lines: Float64Array, cells: number, at: number): [low: number, share: number] {
  const centre = (k: number) => (lines[k]! + lines[k + 1]!) / 2;
  if (cells === 1 || at <= centre(0)) return [0, 0];
  let k = 0;
  while (k < cells - 2 && at > centre(k + 1)) k++;
  const share = (at - centre(k)) / (centre(k + 1) - centre(k));
  return [k, Math.min(1, share)];
}

/** Hidden elements and window glass lend no light to the picture of a wall. */
function lendsLight(mesh: Mesh, scene: LightScene, e: number): boolean {
  return mesh.areaM2[e]! > 0 && scene.openings[mesh.opening[e]!]?.kind !== 'window';
}

function nearestLender(mesh: Mesh, scene: LightScene, s: Surface, u: number, v: number): number {
  let best = -1;
  let bestD = Infinity;
  for (let j = 0; j < s.nv; j++) {
    for (let i = 0; i < s.nu; i++) {
      const e = s.first + j * s.nu + i;
      if (!lendsLight(mesh, scene, e)) continue;
      const du = (s.us[i]! + s.us[i + 1]!) / 2 - u;
      const dv = (s.vs[j]! + s.vs[j + 1]!) / 2 - v;
      if (du * du + dv * dv < bestD) {
        bestD = du * du + dv * dv;
        best = e;
      }
    }
  }
  return best;
}

function mixCell(
  grid: PictureGrid,
  mesh: Mesh,
  scene: LightScene,
  s: Surface,
  cell: number,
  u: number,
  v: number,
): void {
  const [i, a] = between(s.us, s.nu, u);
  const [j, b] = between(s.vs, s.nv, v);
  let sum = 0;
  for (let k = 0; k < 4; k++) {
    const di = k & 1;
    const dj = k >> 1;
    const weight = (di ? a : 1 - a) * (dj ? b : 1 - b);
    if (weight <= 0) continue;
    const e = s.first + (j + dj) * s.nu + i + di;
    if (!lendsLight(mesh, scene, e)) continue;
    grid.element[cell * 4 + k] = e;
    grid.weight[cell * 4 + k] = weight;
    sum += weight;
  }
  if (sum > 1e-6) {
    for (let k = 0; k < 4; k++) grid.weight[cell * 4 + k]! /= sum;
    return;
  }
  const e = nearestLender(mesh, scene, s, u, v);
  if (e < 0) return;
  grid.element[cell * 4] = e;
  grid.weight.fill(0, cell * 4, cell * 4 + 4);
  grid.weight[cell * 4] = 1;
}

export function buildPictureGrid(mesh: Mesh, scene: LightScene): PictureGrid {
  const faces: FieldFace[] = [];
  let offset = 0;
  for (const s of mesh.surfaces) {
    const face = pictureFace(scene, s, offset);
    faces.push(face);
    offset += face.nu * face.nv;
  }
  const grid: PictureGrid = {
    faces,
    cellCount: offset,
    element: new Uint16Array(offset * 4),
    weight: new Float32Array(offset * 4),
  };
  mesh.surfaces.forEach((s, index) => {
    const face = faces[index]!;
    for (let j = 0; j < face.nv; j++) {
      const v = s.vs[0]! + ((s.vs[s.nv]! - s.vs[0]!) * (j + 0.5)) / face.nv;
      for (let i = 0; i < face.nu; i++) {
        const u = s.us[0]! + ((s.us[s.nu]! - s.us[0]!) * (i + 0.5)) / face.nu;
        mixCell(grid, mesh, scene, s, face.offset + j * face.nu + i, u, v);
      }
    }
  });
  return grid;
}

/** Lux of elements in the picture's cells. */
export function toPicture(grid: PictureGrid, elementLx: Float64Array): Float32Array {
  const out = new Float32Array(grid.cellCount);
  for (let c = 0; c < grid.cellCount; c++) {
    const k = c * 4;
    out[c] =
      grid.weight[k]! * elementLx[grid.element[k]!]! +
      grid.weight[k + 1]! * elementLx[grid.element[k + 1]!]! +
      grid.weight[k + 2]! * elementLx[grid.element[k + 2]!]! +
      grid.weight[k + 3]! * elementLx[grid.element[k + 3]!]!;
  }
  return out;
}
