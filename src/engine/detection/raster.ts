/**
 * A body against the map: its ellipsoids are drawn, front to back, into a grid of rays around it, and each covered
 * cell looks the map up once. The cost does not depend on the number of beams.
 */

import { type BodyBuffer, NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import { LEVEL_CELL_RAD } from './angularMap.ts';
import { clearOfScene } from './clearance.ts';
import { HIDER, STRETCH, sumClear, sumFree, sumGeneral } from './lookup.ts';
import { BOX, DISTANCE, frontDepth, MOST_PARTS, OUTLINE, outlined, outlinePart, STRIDE } from './silhouette.ts';
import type { MovementTables } from './types.ts';

/** Narrowest cell, in tangents. Assumed: 0.2 degrees, a tenth of a beam; finer changes far peaks by under 1 %. */
const NARROWEST_CELL = 0.0035;
/** A body counts as near up to here, m. Assumed: within this its box is many beams wide and high. */
export const NEAR_M = 3;
/** Cells in the box around a near body. Assumed: fewer make peaks wrong by more than 2 % (tests/detection/accuracy). */
export const NEAR_CELLS = 1500;
/** Cells in the box around a far body. Assumed: same test. */
export const FAR_CELLS = 600;
/** Grid at hand; scratch. `room` and `lens` hold the rows across, up, away in room and detector frame. */
export interface Grid {
  room: Float64Array;
  lens: Float64Array;
  x0: number;
  y0: number;
  cell: number;
  nx: number;
  ny: number;
  /** Cells are `cell` wide and STRETCH * cell high: a ray is away + x across + y up, with up STRETCH long. */
  /** 0 or slot + 1 of the part seen in the cell. */
  ids: Uint8Array;
  /** Share of the cell that is covered; meaningless where `ids` is 0. */
  cover: Float32Array;
  /** By slot + 1. */
  kinds: Uint8Array;
  distances: Float64Array;
  farM: number;
  /** All parts lie inside the room. */
  inside: boolean;
}

/** Scratch: the body drawn last. */
export const grid: Grid = {
  room: new Float64Array(9),
  lens: new Float64Array(9),
  x0: 0,
  y0: 0,
  cell: 0,
  nx: 0,
  ny: 0,
  ids: new Uint8Array(8192),
  cover: new Float32Array(8192),
  kinds: new Uint8Array(MOST_PARTS + 1),
  distances: new Float64Array(MOST_PARTS + 1),
  farM: 0,
  inside: true,
};
const order = new Int32Array(MOST_PARTS);

/** Aims the grid at the middle of the body. The row across is level, so z is constant along a row. */
function aim(tables: MovementTables, sphereM: ArrayLike<number>): void {
  const eye = tables.surroundings.eyeM;
  let x = sphereM[0]! - eye[0];
  let y = sphereM[1]! - eye[1];
  let z = sphereM[2]! - eye[2];
  const length = Math.sqrt(x * x + y * y + z * z);
  x /= length;
  y /= length;
  z /= length;
  const level = Math.sqrt(x * x + y * y);
  const ax = level > 1e-9 ? y / level : 1;
  const ay = level > 1e-9 ? -x / level : 0;
  const { room, lens } = grid;
  room[0] = ax;
  room[1] = ay;
  room[2] = 0;
  room[3] = ay * z;
  room[4] = -ax * z;
  room[5] = ax * y - ay * x;
  room[6] = x;
  room[7] = y;
  room[8] = z;
  const { turnSin, turnCos } = tables;
  for (let k = 0; k < 9; k += 3) {
    lens[k] = room[k]! * turnCos - room[k + 1]! * turnSin;
    lens[k + 1] = room[k]! * turnSin + room[k + 1]! * turnCos;
    lens[k + 2] = room[k + 2]!;
  }
  // Places are measured in units of STRETCH upwards, directions built from them.
  for (let k = 3; k < 6; k++) {
    room[k] = room[k]! / STRETCH;
    lens[k] = lens[k]! * STRETCH;
  }
}

/** Outlines the parts of one body from slot `slot` on; returns the next free slot. */
function outlineBody(tables: MovementTables, buffer: BodyBuffer, body: number, slot: number, hider: boolean): number {
  const eye = tables.surroundings.eyeM;
  const [widthM, depthM] = tables.surroundings.roomM;
  const { parts } = buffer;
  let next = slot;
  grid.inside = true;
  for (let p = body * PARTS_PER_BODY; p < (body + 1) * PARTS_PER_BODY; p++) {
    const k = p * NUMBERS_PER_PART;
    if (!outlinePart(parts, k, eye, grid.room, next)) continue;
    if (parts[k]! < 0 || parts[k]! > widthM || parts[k + 1]! < 0 || parts[k + 1]! > depthM) grid.inside = false;
    grid.kinds[next + 1] = hider ? HIDER : buffer.partKind[p]!;
    grid.distances[next + 1] = outlined[next * STRIDE + DISTANCE]!;
    next++;
  }
  return next;
}

/** Sizes the grid to the first `count` slots. */
function sizeGrid(count: number, centreM: number, fineness: number): void {
  let x0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  let farM = 0;
  for (let s = 0; s < count; s++) {
    const o = s * STRIDE + BOX;
    if (outlined[o]! < x0) x0 = outlined[o]!;
    if (outlined[o + 1]! > x1) x1 = outlined[o + 1]!;
    if (outlined[o + 2]! < y0) y0 = outlined[o + 2]!;
    if (outlined[o + 3]! > y1) y1 = outlined[o + 3]!;
    if (grid.distances[s + 1]! > farM) farM = grid.distances[s + 1]!;
  }
  const cells = (centreM < NEAR_M ? NEAR_CELLS : FAR_CELLS) * fineness;
  const cell = Math.max(NARROWEST_CELL / Math.sqrt(fineness * STRETCH), Math.sqrt(((x1 - x0) * (y1 - y0)) / cells));
  grid.nx = Math.max(1, Math.ceil((x1 - x0) / cell));
  grid.ny = Math.max(1, Math.ceil((y1 - y0) / cell));
  grid.cell = cell;
  grid.x0 = (x0 + x1 - grid.nx * cell) / 2;
  grid.y0 = (y0 + y1 - grid.ny * cell) / 2;
  grid.farM = farM;
  const needed = grid.nx * grid.ny;
  if (needed > grid.ids.length) {
    grid.ids = new Uint8Array(2 * needed);
    grid.cover = new Float32Array(2 * needed);
  }
  grid.ids.fill(0, 0, needed);
}

/** Sorts slots 0 … count - 1 into `order`, nearest first. */
function sortByDistance(count: number): void {
  for (let s = 0; s < count; s++) {
    const distance = grid.distances[s + 1]!;
    let at = s;
    while (at > 0 && grid.distances[order[at - 1]! + 1]! > distance) {
      order[at] = order[at - 1]!;
      at--;
    }
    order[at] = s;
  }
}

/** Whether the part in `slot` lies before the part that holds the cell seen along (x, y). */
function nearer(slot: number, held: number, x: number, y: number): boolean {
  return frontDepth(slot, x, y) < frontDepth(held - 1, x, y);
}

/**
 * Draws one part: rows are sampled in their middle, the ends of a row count by the share of the cell that they cover
 * (of two parts the larger cover: edges lie over each other more often than side by side). Cells held by a part of the
 * same kind stay (which of two sleeves is in front changes nothing); between kinds the nearer surface wins.
 */
function drawPart(slot: number): void {
  const { cell, x0, y0, nx, ny, ids, kinds, cover } = grid;
  const outline = outlined;
  const o = slot * STRIDE;
  const perCell = 1 / cell;
  // Outline scaled so that a11 = -1: the row's ends are b -+ sqrt(b2 + c).
  const scale = -1 / outline[o + OUTLINE]!;
  const a12 = outline[o + OUTLINE + 1]! * scale;
  const a13 = outline[o + OUTLINE + 2]! * scale;
  const a22 = outline[o + OUTLINE + 3]! * scale;
  const a23 = 2 * outline[o + OUTLINE + 4]! * scale;
  const a33 = outline[o + OUTLINE + 5]! * scale;
  const j0 = Math.max(0, Math.ceil((outline[o + BOX + 2]! - y0) * perCell - 0.5));
  const j1 = Math.min(ny - 1, Math.floor((outline[o + BOX + 3]! - y0) * perCell - 0.5));
  const id = slot + 1;
  const kind = kinds[id]!;
  for (let j = j0; j <= j1; j++) {
    const y = y0 + (j + 0.5) * cell;
    const b = a12 * y + a13;
    const under = b * b + (a22 * y + a23) * y + a33;
    if (under <= 0) continue;
    const root = Math.sqrt(under);
    const left = (b - root - x0) * perCell;
    const right = (b + root - x0) * perCell;
    // The box of a hider may reach beyond the grid.
    if (right <= 0 || left >= nx) continue;
    const first = left < 0 ? 0 : left | 0;
    const last = right >= nx ? nx - 1 : right | 0;
    const row = j * nx;
    for (let i = first; i <= last; i++) {
      let share = 1;
      if (i === first && left > first) share -= left - first;
      if (i === last && right < last + 1) share -= last + 1 - right;
      const k = row + i;
      const held = ids[k]!;
      if (held === 0) {
        ids[k] = id;
        cover[k] = share;
        continue;
      }
      if (share > cover[k]!) cover[k] = share;
      if (kinds[held] !== kind && share > 0.5 && nearer(slot, held, x0 + (i + 0.5) * cell, y)) ids[k] = id;
    }
  }
}

function levelFor(cell: number): number {
  let level = 0;
  while (level < LEVEL_CELL_RAD.length - 1 && cell > LEVEL_CELL_RAD[level]!) level++;
  return level;
}

/** Draws a body alone into `grid`. Returns the slots that its parts use; 0: none of it lies ahead. */
export function drawOwn(tables: MovementTables, buffer: BodyBuffer, body: number, sphereM: ArrayLike<number>): number {
  aim(tables, sphereM);
  const own = outlineBody(tables, buffer, body, 0, false);
  if (own === 0) return 0;
  const eye = tables.surroundings.eyeM;
  const dx = sphereM[0]! - eye[0];
  const dy = sphereM[1]! - eye[1];
  const dz = sphereM[2]! - eye[2];
  sizeGrid(own, Math.sqrt(dx * dx + dy * dy + dz * dz), tables.fineness);
  sortByDistance(own);
  for (let k = 0; k < own; k++) drawPart(order[k]!);
  return own;
}

/** Draws the bodies before the one that `drawOwn` drew with `own` slots. */
export function drawHiders(tables: MovementTables, buffer: BodyBuffer, own: number, hiders: readonly number[]): void {
  let next = own;
  for (const hider of hiders) next = outlineBody(tables, buffer, hider, next, true);
  for (let s = own; s < next; s++) drawPart(s);
}

/**
 * Optical weight of a body as the detector sees it now: `out` gets, per channel, the sum of W dOmega over its visible
 * cells for each of the five part kinds (m2 sr), and in the sixth place the sum of W dOmega times background warmth (W).
 * `hiders`: indices of other bodies in the buffer that may stand before it. `maskBits`: bit k = clip-on sector k.
 */
export function weighBody(
  tables: MovementTables,
  buffer: BodyBuffer,
  body: number,
  sphereM: ArrayLike<number>,
  hiders: readonly number[],
  maskBits: number,
  out: number[],
): void {
  const own = drawOwn(tables, buffer, body, sphereM);
  if (own === 0) {
    for (let k = 0; k < out.length; k++) out[k] = 0;
    return;
  }
  const { inside } = grid;
  drawHiders(tables, buffer, own, hiders);

  const level = levelFor(grid.cell * Math.sqrt(STRETCH));
  const clear = clearOfScene(tables, grid, inside);
  if (!clear.free || maskBits !== 0 || tables.scene.warmth) {
    sumGeneral(tables, level, grid, clear.free, maskBits, out);
  } else if (clear.quadrant >= 0) {
    sumClear(tables.map, level, grid, clear.quadrant, out);
  } else {
    sumFree(tables.map, level, grid, out);
  }
}
