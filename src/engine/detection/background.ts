/**
 * Surfaces behind bodies that the sun or the cold outside keeps from the room's temperature, laid over the static scene.
 * Depth stays as it was baked: only what lies on the first surface a ray meets is written.
 */
import { hypot3 } from '../math.ts';
import { hash32 } from '../random.ts';
import { SCENE_PX, TILE_SIDE } from './scene.ts';
import type { MovementTables, StaticScene } from './types.ts';

/** A flat convex surface. */
export interface Surface {
  /** Radiance above that of the room's surfaces, W m-2 sr-1. */
  excess: number;
  /** Corners in order: [x, y, z, x, y, z, …], room metres. */
  faceM: number[];
}

/** A pixel belongs to a surface when its ray ends within this of it, m. Assumed: thicker than a desk top's rounding in
 *  the baked depth, thinner than anything that could stand before it. */
const ENDS_WITHIN_M = 0.06;
/** Corners are kept this far below the eye, m: the scene ends at the horizon. */
const BELOW_EYE_M = 0.01;
/** Steps along an edge to find the pixels around it. Source: edges are arcs on the scene, bulging by under 2 px between. */
const EDGE_STEPS = 16;
const MARGIN_PX = 2;

/** Box of pixels that a face may cover; scratch. */
const reach = { i0: 0, i1: 0, j0: 0, j1: 0 };

/** Corners seen from the detector, in its own frame; null when all of the face lies above it. */
function cornersOf(faceM: readonly number[], { surroundings, turnSin, turnCos }: MovementTables): Float64Array | null {
  const [ex, ey, ez] = surroundings.eyeM;
  const corners = Float64Array.from(faceM);
  let below = false;
  for (let k = 0; k < corners.length; k += 3) {
    const x = faceM[k]! - ex;
    const y = faceM[k + 1]! - ey;
    const z = faceM[k + 2]! - ez;
    if (z < -BELOW_EYE_M) below = true;
    corners[k] = x * turnCos - y * turnSin;
    corners[k + 1] = x * turnSin + y * turnCos;
    corners[k + 2] = Math.min(z, -BELOW_EYE_M);
  }
  return below ? corners : null;
}

function findReach(corners: Float64Array): void {
  const half = SCENE_PX / 2;
  let [minU, maxU, minV, maxV] = [1, -1, 1, -1];
  const n = corners.length;
  for (let k = 0; k < n; k += 3) {
    const to = (k + 3) % n;
    for (let step = 0; step < EDGE_STEPS; step++) {
      const share = step / EDGE_STEPS;
      const x = corners[k]! + (corners[to]! - corners[k]!) * share;
      const y = corners[k + 1]! + (corners[to + 1]! - corners[k + 1]!) * share;
      const z = corners[k + 2]! + (corners[to + 2]! - corners[k + 2]!) * share;
      const scale = 1 / (hypot3(x, y, z) - z);
      minU = Math.min(minU, x * scale);
      maxU = Math.max(maxU, x * scale);
      minV = Math.min(minV, y * scale);
      maxV = Math.max(maxV, y * scale);
    }
  }
  const first = (t: number) => Math.max(0, Math.floor((t + 1) * half) - MARGIN_PX);
  const last = (t: number) => Math.min(SCENE_PX - 1, Math.floor((t + 1) * half) + MARGIN_PX);
  reach.i0 = first(minU);
  reach.i1 = last(maxU);
  reach.j0 = first(minV);
  reach.j1 = last(maxV);
}

/** Normals of the planes through the eye and each edge, then the face's own normal and its distance along it. */
function planesOf(corners: Float64Array): Float64Array {
  const n = corners.length;
  const planes = new Float64Array(n + 4);
  for (let k = 0; k < n; k += 3) {
    const to = (k + 3) % n;
    for (let a = 0; a < 3; a++) {
      const [b, c] = [(a + 1) % 3, (a + 2) % 3];
      const cross = corners[k + b]! * corners[to + c]! - corners[k + c]! * corners[to + b]!;
      planes[k + a] = cross;
      // Edge by edge the cross products add up to twice the area, along the normal.
      planes[n + a]! += cross;
    }
  }
  planes[n + 3] = planes[n]! * corners[0]! + planes[n + 1]! * corners[1]! + planes[n + 2]! * corners[2]!;
  return planes;
}

/** Writes the face into `warmth` where it is the first surface. */
function layFace(scene: StaticScene, corners: Float64Array, excess: number, warmth: Float32Array, tiles: Uint8Array) {
  findReach(corners);
  const planes = planesOf(corners);
  const n = corners.length;
  const away = planes[n + 3]!;
  const perTile = SCENE_PX / TILE_SIDE;
  for (let j = reach.j0; j <= reach.j1; j++) {
    const v = ((j + 0.5) * 2) / SCENE_PX - 1;
    for (let i = reach.i0; i <= reach.i1; i++) {
      const u = ((i + 0.5) * 2) / SCENE_PX - 1;
      const r2 = u * u + v * v;
      if (r2 > 1) continue;
      const k = 2 / (1 + r2);
      const dx = k * u;
      const dy = k * v;
      const dz = 1 - k;
      const toward = planes[n]! * dx + planes[n + 1]! * dy + planes[n + 2]! * dz;
      let inside = toward * away > 0;
      // Around a face seen from either side all edges turn the way its own normal does.
      for (let e = 0; inside && e < n; e += 3) {
        inside = (planes[e]! * dx + planes[e + 1]! * dy + planes[e + 2]! * dz) * away >= 0;
      }
      if (!inside) continue;
      const at = j * SCENE_PX + i;
      if (scene.depthM[at]! < away / toward - ENDS_WITHIN_M) continue;
      warmth[at] = excess;
      tiles[((j / perTile) | 0) * TILE_SIDE + ((i / perTile) | 0)] = 1;
    }
  }
}

/** The same detector before these surfaces; itself where there are none. `background`: the surfaces in one text. */
export function withSurfaces(tables: MovementTables, surfaces: readonly Surface[], background: string): MovementTables {
  if (surfaces.length === 0) return tables;
  const { scene } = tables;
  const warmth = scene.warmth?.slice() ?? new Float32Array(SCENE_PX * SCENE_PX);
  const tileWarm = scene.tileWarm.slice();
  for (const { faceM, excess } of surfaces) {
    const corners = cornersOf(faceM, tables);
    if (corners) layFace(scene, corners, excess, warmth, tileWarm);
  }
  return { ...tables, scene: { ...scene, warmth, tileWarm }, background, backgroundKey: hash32(background) };
}
