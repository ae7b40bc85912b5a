/** What stands in the way of a span: furniture, clip-on sectors; and what warm background it hides. */

import { cellPixels, findSpot, spot } from './cellPixels.ts';
import { MOST_PARTS } from './silhouette.ts';
import type { AngularMap, CellPixels, MovementTables, StaticScene } from './types.ts';

/** Numbers per channel in a body's weights: five part kinds and the hidden background. Source: PART_KINDS. */
export const WEIGHTS_PER_CHANNEL = 6;
/** A part counts as hidden when a surface lies this much nearer than its middle, m. Assumed: keeps hands visible that
 *  lie on a desk; more would show thighs through the desk's edge. */
export const HIDDEN_BY_M = 0.05;
/** tan 30 and tan 60 degrees. */
const TAN_30 = 0.5773502691896257;
const TAN_60 = 1.7320508075688772;

/** Kind of the parts of another body. Source: beyond all part kinds; its sums are thrown away. */
export const HIDER = 24;
/** Part kinds that bodies can have. */
const KINDS = WEIGHTS_PER_CHANNEL - 1;

/** One body in one channel; scratch. */
export interface View {
  /** Sums of the level at hand, see AngularMap. */
  rowSums: Float32Array;
  pxPerUnit: number;
  leftX: number;
  lowY: number;
  /** Rows across, up, away in the detector's frame. */
  lens: Float64Array;
  scene: StaticScene;
  cells: CellPixels;
  /** Neither furniture nor a mask nor warm background: spans count as they are. */
  clear: boolean;
  /** No furniture is nearer than this, m. */
  nearestM: number;
  /** Something behind the body is warmer or colder than the room. */
  warm: boolean;
  maskBits: number;
  /** Row at hand; height of a row and width of a cell, px. */
  row: number;
  cellPx: number;
}

/** Scratch of the view at hand; arrays of their own, see `spanRows.ts`. */
export const weighed = {
  /** Kind by slot. */
  kinds: new Uint8Array(MOST_PARTS + 1),
  /** Per part kind, then minus the hidden warmth. */
  sums: new Float64Array(WEIGHTS_PER_CHANNEL),
};
const { sums } = weighed;

/** A view of nothing yet. */
export function createView(): View {
  const none: StaticScene = {
    sidePx: 0,
    depthM: new Float32Array(0),
    warmth: null,
    tileSide: 0,
    tileDepthM: new Float32Array(0),
    tileWarm: new Uint8Array(0),
  };
  return {
    rowSums: new Float32Array(0),
    pxPerUnit: 1,
    leftX: 0,
    lowY: 0,
    lens: new Float64Array(9),
    scene: none,
    cells: { perRow: 0, pixel: new Int32Array(0) },
    clear: true,
    nearestM: 0,
    warm: false,
    maskBits: 0,
    row: 0,
    cellPx: 1,
  };
}

/**
 * Says what may stand before a body whose parts are up to `farM` away, and behind it (`around`, see clearance.ts), clip-on
 * sectors by bits. Cells are looked up only where they are asked for.
 */
export function screenView(
  view: View,
  tables: MovementTables,
  channel: number,
  level: number,
  around: { nearestM: number; warm: boolean },
  farM: number,
  maskBits: number,
): void {
  view.nearestM = around.nearestM;
  view.warm = around.warm;
  view.maskBits = maskBits;
  view.clear = view.nearestM >= farM - HIDDEN_BY_M && maskBits === 0 && !view.warm;
  if (!view.clear) view.cells = cellPixels(tables.map, tables.frames[channel]!, channel, level);
}

/** Aims a view along a channel. */
export function aimView(view: View, map: AngularMap, level: number, channel: number, tables: MovementTables): void {
  view.rowSums = map.rowSums[level]!;
  view.pxPerUnit = map.pxPerUnit;
  view.leftX = map.leftX;
  view.lowY = map.lowY;
  view.lens = tables.frames[channel]!.lens;
  view.scene = tables.scene;
  sums.fill(0);
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

/** A stretch of a row: from, to (px), how far what it stands for lies above the row's middle (px), and how near a surface
 *  may be without hiding it (m); scratch, as the host would box numbers passed one by one. */
export const stretch = new Float64Array(4);

/** Integral over part of a row without anything in the way; `up` as in `stretch`. */
export function spanSum(rowSums: Float32Array, base: number, a: number, b: number, up: number): number {
  const i = base + 2 * (a | 0);
  const j = base + 2 * (b | 0);
  const p = rowSums[i]! + up * rowSums[i + 1]!;
  const q = rowSums[j]! + up * rowSums[j + 1]!;
  const nextP = rowSums[i + 2]! + up * rowSums[i + 3]!;
  const nextQ = rowSums[j + 2]! + up * rowSums[j + 3]!;
  return q + (nextQ - q) * (b - (b | 0)) - p - (nextP - p) * (a - (a | 0));
}

/** First of the cells from `cell` up to `end` that furniture hides, or `end`; `cells`: where the row begins. */
function firstHidden(view: View, cells: number, cell: number, end: number): number {
  const { pixel } = view.cells;
  const { depthM } = view.scene;
  const limitM = stretch[3]!;
  let at = cell;
  while (at < end && depthM[pixel[cells + at]!]! >= limitM) at++;
  return at;
}

/**
 * Adds `stretch` of the row at hand, whose sums start at `base`: at once where all of it is seen, else cell by cell. A
 * cell is seen or not as its middle is; cells lie still, so that what does not move keeps its sum.
 */
export function sumStretch(view: View, base: number, kind: number): void {
  const { maskBits, nearestM, warm, cellPx } = view;
  const cells = view.row * view.cells.perRow;
  const first = (stretch[0]! / cellPx) | 0;
  const end = Math.ceil(stretch[1]! / cellPx);
  if (maskBits === 0 && !warm && (stretch[3]! <= nearestM || firstHidden(view, cells, first, end) === end)) {
    sums[kind]! += spanSum(view.rowSums, base, stretch[0]!, stretch[1]!, stretch[2]!);
  } else {
    sumCells(view, cells, first, end, base, kind);
  }
}

/** Whether a clip-on sector covers the middle of a cell of the row at hand. */
function isMasked(view: View, cell: number): boolean {
  const { lens, pxPerUnit, leftX, lowY, cellPx, row } = view;
  findSpot(lens, ((cell + 0.5) * cellPx) / pxPerUnit + leftX, ((row + 0.5) * cellPx) / pxPerUnit + lowY);
  return ((view.maskBits >> sectorOf(spot.u, spot.v)) & 1) === 1;
}

function sumCells(view: View, cells: number, first: number, end: number, base: number, kind: number): void {
  const a = stretch[0]!;
  const b = stretch[1]!;
  const up = stretch[2]!;
  const limitM = stretch[3]!;
  const { rowSums, maskBits, cellPx } = view;
  const free = limitM <= view.nearestM;
  const { pixel } = view.cells;
  const { depthM } = view.scene;
  const warmth = view.warm ? view.scene.warmth : null;
  let i = base + 2 * (a | 0);
  let edge = rowSums[i]! + up * rowSums[i + 1]!;
  let p0 = edge + (rowSums[i + 2]! + up * rowSums[i + 3]! - edge) * (a - (a | 0));
  for (let cell = first; cell < end; cell++) {
    const to = Math.min((cell + 1) * cellPx, b);
    i = base + 2 * (to | 0);
    edge = rowSums[i]! + up * rowSums[i + 1]!;
    const p1 = edge + (rowSums[i + 2]! + up * rowSums[i + 3]! - edge) * (to - (to | 0));
    const part = p1 - p0;
    p0 = p1;
    const at = pixel[cells + cell]!;
    if (part === 0 || (!free && depthM[at]! < limitM)) continue;
    if (maskBits !== 0 && isMasked(view, cell)) continue;
    sums[kind]! += part;
    if (warmth) sums[KINDS]! += part * warmth[at]!;
  }
}
