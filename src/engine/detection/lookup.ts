/** Sums over the covered cells of a grid: the inner loops of detection. */

import type { Grid } from './raster.ts';
import type { AngularMap, MovementTables } from './types.ts';

/** Numbers per channel in a body's weights: five part kinds and the hidden background. Source: PART_KINDS. */
export const WEIGHTS_PER_CHANNEL = 6;
/** Cells are this much higher than wide. Assumed: rows cost most and their ends are exact, so fewer, longer rows; much
 *  more would blur beams along their length, which is under twice their width. */
export const STRETCH = 1.6;
/** A part counts as hidden when a surface lies this much nearer than its middle, m. Assumed: keeps hands visible that
 *  lie on a desk; more would show thighs through the desk's edge. */
export const HIDDEN_BY_M = 0.05;
/** tan 30 and tan 60 degrees. */
const TAN_30 = 0.5773502691896257;
const TAN_60 = 1.7320508075688772;

/** Kind of a cell that another body covers. Source: beyond all part kinds; its sums are thrown away. */
export const HIDER = 24;
/** Part kinds that bodies can have. */
const KINDS = WEIGHTS_PER_CHANNEL - 1;

/** Scratch of one call: sums per channel. */
const sums = new Float64Array(4 * WEIGHTS_PER_CHANNEL + HIDER);

function flush(out: number[], area: number): void {
  for (let k = 0; k < out.length; k++) out[k] = sums[k]! * area;
}

const turned = new Float64Array(9);

/** Rows of `lens` turned back by quarter turns, so that the quadrant's map is looked up as it lies. */
function turnInto(quadrant: number, lens: Float64Array): Float64Array {
  for (let k = 0; k < 9; k += 3) {
    const x = lens[k]!;
    const y = lens[k + 1]!;
    turned[k] = quadrant === 0 ? x : quadrant === 1 ? -y : quadrant === 2 ? -x : y;
    turned[k + 1] = quadrant === 0 ? y : quadrant === 1 ? x : quadrant === 2 ? -y : -x;
    turned[k + 2] = lens[k + 2]!;
  }
  return turned;
}

/** Nothing in the way, one quadrant, no masks, no warm background: the ordinary case. */
export function sumClear(map: AngularMap, level: number, grid: Grid, quadrant: number, out: number[]): void {
  const weights = map.levels[level]!;
  const { sidePx, pxPerUnit, margin } = map;
  const { x0, y0, cell, nx, ny, ids, kinds, cover } = grid;
  const f = turnInto(quadrant, grid.lens);
  const ax = f[0]! * pxPerUnit;
  const ay = f[1]! * pxPerUnit;
  const offset = margin * pxPerUnit;
  const base = quadrant * WEIGHTS_PER_CHANNEL;
  sums.fill(0);
  let k = 0;
  let kind = 0;
  let run = 0;
  for (let j = 0; j < ny; j++) {
    const y = y0 + (j + 0.5) * cell;
    const bx = (f[6]! + y * f[3]!) * pxPerUnit;
    const by = (f[7]! + y * f[4]!) * pxPerUnit;
    const bz = f[8]! + y * f[5]!;
    const row = 1 + STRETCH * STRETCH * y * y;
    for (let i = 0; i < nx; i++, k++) {
      const id = ids[k]!;
      if (id === 0) continue;
      const x = x0 + (i + 0.5) * cell;
      const length = Math.sqrt(row + x * x);
      const down = length - bz;
      const both = 1 / (length * down);
      const scale = both * length;
      const pu = ((bx + x * ax) * scale + offset) | 0;
      const pv = ((by + x * ay) * scale + offset) | 0;
      if (pu >= sidePx || pv >= sidePx) continue;
      const inverse = both * down;
      const part = weights[pv * sidePx + pu]! * cover[k]! * inverse * inverse * inverse;
      // A run of cells of one kind is summed outside the table.
      if (kinds[id] === kind) {
        run += part;
      } else {
        sums[base + kind]! += run;
        kind = kinds[id]!;
        run = part;
      }
    }
  }
  sums[base + kind]! += run;
  flush(out, STRETCH * cell * cell);
}

/** Clip-on sector (30 degrees each, clockwise from the arrow) of a direction by its (u, v). */
export function sectorOf(u: number, v: number): number {
  let x = u;
  let y = v;
  let sector = 0;
  if (u >= 0 && v < 0) {
    x = -v;
    y = u;
    sector = 3;
  } else if (u < 0 && v <= 0) {
    x = -u;
    y = -v;
    sector = 6;
  } else if (u < 0) {
    x = v;
    y = -u;
    sector = 9;
  }
  return x < y * TAN_30 ? sector : x < y * TAN_60 ? sector + 1 : sector + 2;
}

/** Adds one cell to channel `q`; (u, v) of the detector frame. */
function addCell(
  map: AngularMap,
  weights: Float32Array,
  q: number,
  u: number,
  v: number,
  kind: number,
  solid: number,
  warm: number,
): void {
  const qu = q === 0 ? u : q === 1 ? -v : q === 2 ? -u : v;
  const qv = q === 0 ? v : q === 1 ? u : q === 2 ? -v : -u;
  const { margin, pxPerUnit, sidePx } = map;
  if (qu < -margin || qv < -margin) return;
  const i = ((qu + margin) * pxPerUnit) | 0;
  const j = ((qv + margin) * pxPerUnit) | 0;
  if (i >= sidePx || j >= sidePx) return;
  const w = weights[j * sidePx + i]!;
  if (w === 0) return;
  sums[q * WEIGHTS_PER_CHANNEL + kind]! += w * solid;
  sums[q * WEIGHTS_PER_CHANNEL + KINDS]! += w * warm;
}

/** A cell within the margin of a border: its own quadrant and those across it. */
function addBorderCell(
  map: AngularMap,
  weights: Float32Array,
  q: number,
  u: number,
  v: number,
  kind: number,
  solid: number,
  warm: number,
): void {
  const { margin } = map;
  addCell(map, weights, q, u, v, kind, solid, warm);
  if (u > margin || u < -margin) {
    if (v > margin || v < -margin) return;
    // Across v = 0: 0 with 1, 2 with 3.
    addCell(map, weights, q ^ 1, u, v, kind, solid, warm);
  } else if (v > margin || v < -margin) {
    // Across u = 0: 0 with 3, 1 with 2.
    addCell(map, weights, 3 - q, u, v, kind, solid, warm);
  } else {
    for (let other = 1; other < 4; other++) addCell(map, weights, (q + other) & 3, u, v, kind, solid, warm);
  }
}

/** Nothing in the way, no masks, no warm background, several quadrants: a body near the middle or a border. */
export function sumFree(map: AngularMap, level: number, grid: Grid, out: number[]): void {
  const weights = map.levels[level]!;
  const { sidePx, pxPerUnit, margin } = map;
  const { lens: f, x0, y0, cell, nx, ny, ids, kinds, cover } = grid;
  const ax = f[0]!;
  const ay = f[1]!;
  const offset = margin * pxPerUnit;
  sums.fill(0);
  let k = 0;
  for (let j = 0; j < ny; j++) {
    const y = y0 + (j + 0.5) * cell;
    const bx = f[6]! + y * f[3]!;
    const by = f[7]! + y * f[4]!;
    const bz = f[8]! + y * f[5]!;
    const row = 1 + STRETCH * STRETCH * y * y;
    for (let i = 0; i < nx; i++, k++) {
      const id = ids[k]!;
      if (id === 0 || kinds[id]! === HIDER) continue;
      const x = x0 + (i + 0.5) * cell;
      const length = Math.sqrt(row + x * x);
      const down = length - bz;
      const both = 1 / (length * down);
      const scale = both * length;
      const u = (bx + x * ax) * scale;
      const v = (by + x * ay) * scale;
      const inverse = both * down;
      const solid = cover[k]! * inverse * inverse * inverse;
      const kind = kinds[id]!;
      const absU = u < 0 ? -u : u;
      const absV = v < 0 ? -v : v;
      const q = u >= 0 ? (v >= 0 ? 0 : 1) : v < 0 ? 2 : 3;
      if (absU <= margin || absV <= margin) {
        addBorderCell(map, weights, q, u, v, kind, solid, 0);
        continue;
      }
      // Odd quadrants swap the axes; both are positive inside the quadrant's own map.
      const pu = ((q & 1 ? absV : absU) * pxPerUnit + offset) | 0;
      const pv = ((q & 1 ? absU : absV) * pxPerUnit + offset) | 0;
      if (pu < sidePx && pv < sidePx) {
        sums[q * WEIGHTS_PER_CHANNEL + kind]! += weights[pv * sidePx + pu]! * solid;
      }
    }
  }
  flush(out, STRETCH * cell * cell);
}

/** Any case: several quadrants, furniture in the way, masks, warm background. */
export function sumGeneral(
  tables: MovementTables,
  level: number,
  grid: Grid,
  free: boolean,
  maskBits: number,
  out: number[],
): void {
  const { map, scene } = tables;
  const weights = map.levels[level]!;
  const { lens: f, x0, y0, cell, nx, ny, ids, kinds, cover, distances } = grid;
  const half = scene.sidePx / 2;
  const last = scene.sidePx - 1;
  sums.fill(0);
  let k = 0;
  for (let j = 0; j < ny; j++) {
    const y = y0 + (j + 0.5) * cell;
    const bx = f[6]! + y * f[3]!;
    const by = f[7]! + y * f[4]!;
    const bz = f[8]! + y * f[5]!;
    const row = 1 + STRETCH * STRETCH * y * y;
    if (bz >= 0) {
      k += nx;
      continue;
    }
    for (let i = 0; i < nx; i++, k++) {
      const id = ids[k]!;
      if (id === 0) continue;
      const kind = kinds[id]!;
      if (kind >= KINDS) continue;
      const x = x0 + (i + 0.5) * cell;
      const length = Math.sqrt(row + x * x);
      const scale = 1 / (length - bz);
      const u = (bx + x * f[0]!) * scale;
      const v = (by + x * f[1]!) * scale;
      if (maskBits !== 0 && (maskBits >> sectorOf(u, v)) & 1) continue;
      const at =
        free && !scene.warmth
          ? 0
          : Math.min(last, ((v + 1) * half) | 0) * scene.sidePx + Math.min(last, ((u + 1) * half) | 0);
      if (!free && scene.depthM[at]! < distances[id]! - HIDDEN_BY_M) continue;
      const solid = cover[k]! / (length * length * length);
      const warm = scene.warmth ? scene.warmth[at]! * solid : 0;
      const q = u >= 0 ? (v >= 0 ? 0 : 1) : v < 0 ? 2 : 3;
      addBorderCell(map, weights, q, u, v, kind, solid, warm);
    }
  }
  flush(out, STRETCH * cell * cell);
}
