/**
 * A body against the map: its ellipsoids are laid as spans into rows of each channel's plane, and each visible span is
 * two look-ups in the row's running sums. The cost depends neither on the number of beams nor on how wide the body is.
 */

import { type BodyBuffer, NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import { ROW_HEIGHTS_PX } from './angularMap.ts';
import { clearance, findClearance } from './clearance.ts';
import { CHANNELS } from './lens.ts';
import { aimView, createView, HIDER, screenView, WEIGHTS_PER_CHANNEL, weighed } from './lookup.ts';
import { MOST_PARTS, outlinePart, outlines } from './silhouette.ts';
import { openRows } from './spanRows.ts';
import { layPart } from './spans.ts';
import type { MovementTables } from './types.ts';
import { sumRows } from './visible.ts';

/** Rows are at most this high at the body where the map has finer ones, m. Assumed: most of a hand; finer changes peaks
 *  by under 1 % (tests/detection/accuracy). */
export const ROW_M = 0.065;
/** Kind whose parts are so many that they fill the rows, where a body has any. Source: PART_KINDS, clothing. */
const CLOTHING = 2;

/** Pieces of the common kind in one row. Source: sixteen parts of one body leave at most 31. */
const MOST_PIECES = 31;

/**
 * Box around the outlined parts of a body on the map, px; its furthest part, m; and along `away` nothing of it is
 * further than `behindM`; scratch.
 */
export const box = { minX: 0, maxX: 0, minY: 0, maxY: 0, farM: 0, behindM: 0 };

const { middleX, middleY, halfWidth, halfHeight, nearestM, furthestM, distanceM } = outlines;
const { kinds, sums } = weighed;
const view = createView();
const order = new Int32Array(MOST_PARTS);

/** Per part of the body and its hiders: place in the detector's frame, how far over a border it may still be seen, m. */
const partX = new Float64Array(MOST_PARTS);
const partY = new Float64Array(MOST_PARTS);
const partReach = new Float64Array(MOST_PARTS);
/** Where its numbers begin, and its kind. */
const partFrom = new Int32Array(MOST_PARTS);
const partKind = new Uint8Array(MOST_PARTS);
const found = { count: 0, inside: true };

/** Lists the parts of a body in use. */
function listParts(tables: MovementTables, buffer: BodyBuffer, body: number, hider: boolean): void {
  const { turnSin, turnCos, map } = tables;
  const { eyeM, roomM } = tables.surroundings;
  const { parts } = buffer;
  for (let p = body * PARTS_PER_BODY; p < (body + 1) * PARTS_PER_BODY; p++) {
    const k = p * NUMBERS_PER_PART;
    let square = 0;
    for (let a = k + 3; a < k + NUMBERS_PER_PART; a++) square += parts[a]! * parts[a]!;
    if (square === 0) continue;
    const n = found.count++;
    const x = parts[k]! - eyeM[0];
    const y = parts[k + 1]! - eyeM[1];
    const z = parts[k + 2]! - eyeM[2];
    const size = Math.sqrt(square);
    partX[n] = x * turnCos - y * turnSin;
    partY[n] = x * turnSin + y * turnCos;
    partReach[n] = size + map.overlap * (Math.sqrt(x * x + y * y + z * z) + size);
    partFrom[n] = k;
    partKind[n] = hider ? HIDER : buffer.partKind[p]!;
    if (!hider && (parts[k]! < 0 || parts[k]! > roomM[0] || parts[k + 1]! < 0 || parts[k + 1]! > roomM[1])) {
      found.inside = false;
    }
  }
}

/** Outlines those of the listed parts that a channel may see from slot `slot` on; returns the next free slot. */
function outlineParts(
  tables: MovementTables,
  parts: Float64Array,
  channel: number,
  from: number,
  to: number,
  slot: number,
): number {
  const frame = tables.frames[channel]!.room;
  const eye = tables.surroundings.eyeM;
  let next = slot;
  for (let n = from; n < to; n++) {
    const x = partX[n]!;
    const y = partY[n]!;
    // Turned back into the first quadrant, where both are positive.
    const right = channel === 0 ? x : channel === 1 ? -y : channel === 2 ? -x : y;
    const ahead = channel === 0 ? y : channel === 1 ? x : channel === 2 ? -y : -x;
    if (right < -partReach[n]! || ahead < -partReach[n]!) continue;
    if (!outlinePart(tables.map, parts, partFrom[n]!, eye, frame, next)) continue;
    kinds[next] = partKind[n]!;
    next++;
  }
  return next;
}

/** Sorts slots 0 … count - 1 into `order`, nearest first. */
function sortByDistance(count: number): void {
  for (let s = 0; s < count; s++) {
    const distance = distanceM[s]!;
    let at = s;
    while (at > 0 && distanceM[order[at - 1]!]! > distance) {
      order[at] = order[at - 1]!;
      at--;
    }
    order[at] = s;
  }
}

/** Boxes the first `count` slots. */
function boxSlots(count: number): void {
  let minX = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  let farM = 0;
  let behindM = 0;
  for (let s = 0; s < count; s++) {
    const x = middleX[s]!;
    const y = middleY[s]!;
    const w = halfWidth[s]!;
    const h = halfHeight[s]!;
    if (x - w < minX) minX = x - w;
    if (x + w > maxX) maxX = x + w;
    if (y - h < minY) minY = y - h;
    if (y + h > maxY) maxY = y + h;
    if (distanceM[s]! > farM) farM = distanceM[s]!;
    if (furthestM[s]! > behindM) behindM = furthestM[s]!;
  }
  box.minX = minX;
  box.maxX = maxX;
  box.minY = minY;
  box.maxY = maxY;
  box.farM = farM;
  box.behindM = behindM;
}

/** Whether the part in a slot may stand before something that is boxed. */
function mayHideBox(slot: number): boolean {
  if (nearestM[slot]! >= box.behindM) return false;
  const x = middleX[slot]!;
  const w = halfWidth[slot]!;
  return x + w > box.minX && x - w < box.maxX;
}

/** Level whose rows are at most ROW_M high at the distance of the body's middle along the channel. */
function levelFor(tables: MovementTables, channel: number, sphereM: ArrayLike<number>): number {
  const frame = tables.frames[channel]!.room;
  const eye = tables.surroundings.eyeM;
  const x = sphereM[0]! - eye[0];
  const y = sphereM[1]! - eye[1];
  const z = sphereM[2]! - eye[2];
  const awayM = Math.max(0.3, frame[6]! * x + frame[7]! * y + frame[8]! * z);
  const rowPx = (ROW_M * tables.map.pxPerUnit) / awayM / Math.sqrt(tables.fineness);
  let level = 0;
  while (level < ROW_HEIGHTS_PX.length - 1 && ROW_HEIGHTS_PX[level + 1]! <= rowPx) level++;
  return level;
}

/** One channel: the first `own` listed parts are the body's, the others hide it. Sums go to `sums`. */
function weighChannel(
  tables: MovementTables,
  parts: Float64Array,
  channel: number,
  own: number,
  sphereM: ArrayLike<number>,
  maskBits: number,
): boolean {
  const mine = outlineParts(tables, parts, channel, 0, own, 0);
  if (mine === 0) return false;
  const { map } = tables;
  const level = levelFor(tables, channel, sphereM);
  const rowPx = ROW_HEIGHTS_PX[level]!;
  boxSlots(mine);
  const first = Math.max(0, Math.floor(box.minY / rowPx));
  const end = Math.min(Math.ceil(map.heightPx / rowPx), Math.floor(box.maxY / rowPx) + 1);
  openRows(rowPx, first, end - first, map.widthPx, MOST_PIECES + found.count);
  aimView(view, map, level, channel, tables);
  sortByDistance(mine);
  let common = kinds[0]!;
  for (let s = 0; s < mine; s++) if (kinds[s]! === CLOTHING) common = CLOTHING;
  for (let s = 0; s < mine; s++) layPart(order[s]!, kinds[order[s]!]! === common);
  const all = outlineParts(tables, parts, channel, own, found.count, mine);
  for (let s = mine; s < all; s++) if (mayHideBox(s)) layPart(s, false);
  findClearance(tables, channel, found.inside);
  screenView(view, tables, channel, level, clearance, box.farM, maskBits);
  view.cellPx = rowPx;
  sumRows(view, common);
  return true;
}

/**
 * Optical weight of a body as the detector sees it now: `out` gets, per channel, the sum of W dOmega over what is seen
 * of it for each of the five part kinds (m2 sr), and in the sixth place the sum of W dOmega times background warmth (W).
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
  found.count = 0;
  found.inside = true;
  listParts(tables, buffer, body, false);
  const own = found.count;
  for (const hider of hiders) listParts(tables, buffer, hider, true);
  for (let channel = 0; channel < CHANNELS; channel++) {
    const seen = weighChannel(tables, buffer.parts, channel, own, sphereM, maskBits);
    const base = channel * WEIGHTS_PER_CHANNEL;
    for (let k = 0; k < WEIGHTS_PER_CHANNEL; k++) out[base + k] = seen ? sums[k]! : 0;
  }
}
