/** What stands in the way of a span: furniture, clip-on sectors; and what warm background it hides. */

import type { AngularMap, ChannelFrame, MovementTables, StaticScene } from './types.ts';

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
  /** Neither furniture nor a mask nor warm background: spans count as they are. */
  clear: boolean;
  /** No furniture before the body. */
  free: boolean;
  maskBits: number;
  /** Kind by slot. */
  kinds: Uint8Array;
  /** Per part kind, then minus the hidden warmth. */
  sums: Float64Array;
  /** Middle of the row at hand, and width of a cell, px. */
  rowMiddlePx: number;
  cellPx: number;
}

/** A view of nothing yet. */
export function createView(): View {
  const none = { sidePx: 0, depthM: new Float32Array(0), warmth: null, tileSide: 0, tileDepthM: new Float32Array(0) };
  return {
    rowSums: new Float32Array(0),
    pxPerUnit: 1,
    leftX: 0,
    lowY: 0,
    lens: new Float64Array(9),
    scene: none,
    clear: true,
    free: true,
    maskBits: 0,
    kinds: new Uint8Array(0),
    sums: new Float64Array(WEIGHTS_PER_CHANNEL),
    rowMiddlePx: 0,
    cellPx: 1,
  };
}

/** Aims a view along a channel. */
export function aimView(view: View, map: AngularMap, level: number, frame: ChannelFrame, tables: MovementTables): void {
  view.rowSums = map.rowSums[level]!;
  view.pxPerUnit = map.pxPerUnit;
  view.leftX = map.leftX;
  view.lowY = map.lowY;
  view.lens = frame.lens;
  view.scene = tables.scene;
  view.sums.fill(0);
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

/**
 * Adds `stretch` of the row that starts at `base`, cell by cell. A cell is seen or not as its middle is; cells lie
 * still, so that what does not move keeps its sum.
 */
export function sumCells(view: View, base: number, kind: number): void {
  const a = stretch[0]!;
  const b = stretch[1]!;
  const up = stretch[2]!;
  const limitM = stretch[3]!;
  const { rowSums, pxPerUnit, lens, scene, free, maskBits, cellPx, sums } = view;
  const { warmth, depthM, sidePx } = scene;
  const y = view.rowMiddlePx / pxPerUnit + view.lowY;
  const bx = lens[6]! + y * lens[3]!;
  const by = lens[7]! + y * lens[4]!;
  const bz = lens[8]! + y * lens[5]!;
  const square = 1 + y * y;
  const half = sidePx / 2;
  const last = sidePx - 1;
  const end = Math.ceil(b / cellPx);
  let i = base + 2 * (a | 0);
  let edge = rowSums[i]! + up * rowSums[i + 1]!;
  let p0 = edge + (rowSums[i + 2]! + up * rowSums[i + 3]! - edge) * (a - (a | 0));
  for (let cell = (a / cellPx) | 0; cell < end; cell++) {
    const right = (cell + 1) * cellPx;
    const to = Math.min(right, b);
    i = base + 2 * (to | 0);
    edge = rowSums[i]! + up * rowSums[i + 1]!;
    const p1 = edge + (rowSums[i + 2]! + up * rowSums[i + 3]! - edge) * (to - (to | 0));
    const part = p1 - p0;
    p0 = p1;
    if (part === 0) continue;
    const x = ((cell + 0.5) * cellPx) / pxPerUnit + view.leftX;
    const scale = 1 / (Math.sqrt(square + x * x) - bz);
    const u = (bx + x * lens[0]!) * scale;
    const v = (by + x * lens[1]!) * scale;
    if (maskBits !== 0 && (maskBits >> sectorOf(u, v)) & 1) continue;
    const column = ((u + 1) * half) | 0;
    const row = ((v + 1) * half) | 0;
    const at = Math.min(row, last) * sidePx + Math.min(column, last);
    if (!free && depthM[at]! < limitM) continue;
    sums[kind]! += part;
    if (warmth) sums[KINDS]! += part * warmth[at]!;
  }
}
