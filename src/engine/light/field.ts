/** The light of the whole room for the picture: lux of every source on even grids, one for each surface. */
import { PI } from '../math.ts';
import type { Weighting } from './lampLight.ts';
import { lampAtPoint } from './lampLight.ts';
import type { SceneParts } from './memory.ts';
import type { Mesh } from './mesh.ts';
import { isCovered } from './mesh.ts';
import { BINS } from './outside.ts';
import type { OutsideLight, RoomGeometry } from './parts.ts';
import { blindExitance, fillBins } from './parts.ts';
import type { PictureGrid } from './picture.ts';
import { toPicture } from './picture.ts';
import type { LightScene, SceneLamp } from './scene.ts';
import { reflectedLx } from './solve.ts';
import { traceSun } from './sunlight.ts';
import { isBlocked } from './trace.ts';

/** Light on the floor is taken this far above it, m. Assumed: a millimetre, as a lux meter's receiver is. */
const ABOVE_FLOOR_M = 1e-3;

/** Lux in the picture's cells for each lamp group and each open door. */
export interface Columns {
  lamps: Float32Array[];
  doors: Float32Array[];
}

/**
 * Neighbours that differ by this share count half as much, by twice it hardly at all. Assumed: 0.08, the ray noise of
 * one element; 0.25 smears shadows (a tenth of all places on a floor then err by 9 % instead of 6 %).
 */
const UNLIKE = 0.08;

/**
 * Reflected light smoothed over neighbours (1 2 1 in both directions, twice): its ray noise of a few percent would show
 * as blotches. Neighbours that differ by more than noise does are left out: smoothing over the edge of a desk's shadow
 * drew the floor beside it a tenth too bright. Direct light is exact and stays sharp; sensors never see this.
 */
function smoothReflected(mesh: Mesh, lx: Float64Array): void {
  const before = new Float64Array(mesh.count);
  for (let round = 0; round < 2; round++) {
    before.set(lx);
    for (const s of mesh.surfaces) {
      for (let j = 0; j < s.nv; j++) {
        for (let i = 0; i < s.nu; i++) {
          const e = s.first + j * s.nu + i;
          if (mesh.areaM2[e] === 0) continue;
          let sum = 0;
          let total = 0;
          for (let dj = j > 0 ? -1 : 0; dj <= (j < s.nv - 1 ? 1 : 0); dj++) {
            for (let di = i > 0 ? -1 : 0; di <= (i < s.nu - 1 ? 1 : 0); di++) {
              const n = e + dj * s.nu + di;
              if (mesh.areaM2[n] === 0) continue;
              const unlike = (before[n]! - before[e]!) / (UNLIKE * before[e]! + 1e-9);
              const w = ((di === 0 ? 2 : 1) * (dj === 0 ? 2 : 1)) / (1 + unlike * unlike * unlike * unlike);
              sum += w * before[n]!;
              total += w;
            }
          }
          lx[e] = sum / total;
        }
      }
    }
  }
}

/** An element shines for itself when it has this many times the mean light of its surface. Assumed: 2.5; lower costs time. */
const HOT = 2.5;

/** Elements in the glare of a lamp: few, and too small for the rays of others to find evenly. */
function hotElements(mesh: Mesh, directLx: Float64Array): Uint8Array {
  const hot = new Uint8Array(mesh.count);
  for (const s of mesh.surfaces) {
    const end = s.first + s.nu * s.nv;
    let flux = 0;
    let area = 0;
    for (let e = s.first; e < end; e++) {
      flux += directLx[e]! * mesh.areaM2[e]!;
      area += mesh.areaM2[e]!;
    }
    const limit = (HOT * flux) / area;
    if (s.box < 0 && area > 0) for (let e = s.first; e < end; e++) hot[e] = directLx[e]! > limit ? 1 : 0;
  }
  return hot;
}

/** First bounce from hot elements, taken as points with a cosine: exact within 2 % from four of their sides away. */
function addHotBounce(
  mesh: Mesh,
  reflectance: Float64Array,
  directLx: Float64Array,
  hot: Uint8Array,
  out: Float64Array,
): void {
  const c = mesh.centre;
  for (let h = 0; h < mesh.count; h++) {
    if (hot[h] === 0) continue;
    const from = mesh.surfaces[mesh.surfaceOf[h]!]!;
    const strength = (reflectance[h]! * directLx[h]! * mesh.areaM2[h]!) / PI;
    for (const to of mesh.surfaces) {
      if (to === from) continue;
      const height = (c[h * 3 + to.fixedAxis]! - to.fixedM) * to.sign;
      if (height <= 0) continue;
      for (let e = to.first; e < to.first + to.nu * to.nv; e++) {
        const above = (c[e * 3 + from.fixedAxis]! - from.fixedM) * from.sign;
        if (above <= 0 || mesh.areaM2[e] === 0) continue;
        const dx = c[e * 3]! - c[h * 3]!;
        const dy = c[e * 3 + 1]! - c[h * 3 + 1]!;
        const dz = c[e * 3 + 2]! - c[h * 3 + 2]!;
        const d2 = dx * dx + dy * dy + dz * dz;
        if (isBlocked(mesh, c[e * 3]!, c[e * 3 + 1]!, c[e * 3 + 2]!, c[h * 3]!, c[h * 3 + 1]!, c[h * 3 + 2]!)) continue;
        // As from a disc of that area: a neighbour round the corner never receives more than there is.
        out[e]! += (strength * height * above) / (d2 * (d2 + mesh.areaM2[h]! / PI));
      }
    }
  }
}

/**
 * Light of a lamp group, lx. Reflected light comes from the elements; on the floor the lamps' own light is worked out at
 * the picture's cells: the shadow of a desk under a slim lamp has an edge of centimetres, which elements of 0.3 m drew
 * up to 60 % too bright beside a lux meter on the floor.
 */
function lampColumn(grid: PictureGrid, parts: SceneParts, lamps: SceneLamp[], directLx: Float64Array): Float32Array {
  const { mesh } = parts.geometry;
  const out = fullColumn(grid, parts, directLx);
  const floor = grid.faces.find((face) => face.kind === 'floor');
  if (!floor) return out;
  const mixed = toPicture(grid, directLx);
  const up: Weighting = (_x, _y, z) => z;
  for (let j = 0; j < floor.nv; j++) {
    const y = floor.originM[1] + (floor.vM[1] * (j + 0.5)) / floor.nv;
    for (let i = 0; i < floor.nu; i++) {
      const x = floor.originM[0] + (floor.uM[0] * (i + 0.5)) / floor.nu;
      // Under a cabinet nothing is seen; its cells lend their light to the visible ones beside it.
      if (isCovered(mesh, x, y, ABOVE_FLOOR_M)) continue;
      const cell = floor.offset + j * floor.nu + i;
      let lx = 0;
      for (const lamp of lamps) lx += lampAtPoint(mesh, lamp, x, y, ABOVE_FLOOR_M, up, 1);
      out[cell]! += lx - mixed[cell]!;
    }
  }
  return out;
}

function fullColumn(grid: PictureGrid, parts: SceneParts, directLx: Float64Array): Float32Array {
  const { mesh, transport } = parts.geometry;
  const total = new Float64Array(mesh.count);
  const hot = hotElements(mesh, directLx);
  reflectedLx(mesh, transport, parts.inter, directLx, null, total, hot);
  smoothReflected(mesh, total);
  addHotBounce(mesh, parts.inter.elementReflectance, directLx, hot, total);
  for (let e = 0; e < mesh.count; e++) total[e]! += directLx[e]!;
  return toPicture(grid, total);
}

export function buildColumns(grid: PictureGrid, parts: SceneParts, scene: LightScene): Columns {
  return {
    lamps: parts.geometry.lampElementLx.map((lx, group) => lampColumn(grid, parts, scene.lampGroups[group]!, lx)),
    doors: parts.geometry.doorElementLx.map((lx) => fullColumn(grid, parts, lx)),
  };
}

/** Coupling of elements to windows with blinds and transmittance worked in; lasts until a blind moves. */
export interface WindowLight {
  /** lx per cd/m2, one for each line of the coupling. */
  weight: Float32Array;
  /** lx per lm/m2 of closed blind, elements x openings; null: every blind is open. */
  blind: Float32Array | null;
}

export function buildWindowLight(scene: LightScene, parts: Pick<SceneParts, 'geometry' | 'blinds'>): WindowLight {
  const { mesh, cells, coupling } = parts.geometry;
  const { openShare, anyClosed } = parts.blinds;
  const openings = scene.openings.length;
  const weight = new Float32Array(coupling.weight.length);
  const blind = anyClosed ? new Float32Array(mesh.count * openings) : null;
  for (let e = 0; e < mesh.count; e++) {
    for (let i = coupling.start[e]!; i < coupling.start[e + 1]!; i++) {
      const row = cells.rowOfCell[coupling.cell[i]!]!;
      const opening = cells.openingOfRow[row]!;
      weight[i] = coupling.weight[i]! * openShare[row]! * scene.openings[opening]!.transmittance;
      if (blind !== null) blind[e * openings + opening]! += coupling.factor[i]! * (1 - openShare[row]!);
    }
  }
  return { weight, blind };
}

/** Sky, ground and blind light straight from the windows on every element, lx. */
export function windowElementLx(
  geometry: RoomGeometry,
  scene: LightScene,
  through: WindowLight,
  light: OutsideLight,
  bins: Float64Array,
): Float64Array {
  const { mesh, cells, coupling } = geometry;
  const { start, bin } = coupling;
  const { weight, blind } = through;
  const out = new Float64Array(mesh.count);
  for (let e = 0; e < mesh.count; e++) {
    let lx = 0;
    const end = start[e + 1]!;
    for (let i = start[e]!; i < end; i++) lx += weight[i]! * bins[bin[i]!]!;
    out[e] = lx;
  }
  if (blind === null) return out;
  const openings = scene.openings.length;
  for (const g of cells.grids) {
    const exitance = blindExitance(geometry, scene, light, bins, g.opening);
    for (let e = 0; e < mesh.count; e++) out[e]! += blind[e * openings + g.opening]! * exitance;
  }
  return out;
}

/** Daylight in the picture's cells: sky from everywhere and sun reflected inside, WITHOUT the sun's own direct patch. */
export function daylightPicture(
  grid: PictureGrid,
  scene: LightScene,
  parts: SceneParts,
  through: WindowLight,
  light: OutsideLight,
): Float32Array {
  const { geometry, inter, blinds } = parts;
  const { mesh, transport } = geometry;
  const bins = new Float64Array(BINS);
  fillBins(geometry, scene, light, bins);
  const direct = windowElementLx(geometry, scene, through, light, bins);
  const sun =
    light.directNormalLx > 0
      ? traceSun(
          scene,
          geometry.sunPoints,
          blinds.openShare,
          light.sunDirection,
          light.directNormalLx,
          geometry.sunScratch,
        )
      : null;
  const total = new Float64Array(mesh.count);
  reflectedLx(mesh, transport, inter, direct, sun, total);
  smoothReflected(mesh, total);
  for (let e = 0; e < mesh.count; e++) total[e]! += direct[e]!;
  return toPicture(grid, total);
}
