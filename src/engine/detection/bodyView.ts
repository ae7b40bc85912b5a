/**
 * How much of a body the detector has in view, and what keeps the rest from it: the same grid of rays that weighs the
 * body, counted in solid angle. An instrument: called on request, never by the tick.
 */
import { nearestBox } from '../room/rays.ts';
import type { BodyBuffer } from '../types.ts';
import { HIDDEN_BY_M, HIDER, STRETCH, sectorOf } from './lookup.ts';
import { drawHiders, drawOwn, grid } from './raster.ts';
import type { AngularMap, BodyTrack, MovementTables } from './types.ts';

/** Shares of a body's silhouette; the first six add up to 1. */
export interface BodyView {
  /** Solid angle of the whole body as if nothing stood before it, sr; 0: all of it above the detector. */
  silhouetteSr: number;
  /** In a beam of some channel, seen. */
  inBeams: number;
  /** Within the reach of the lens, seen, between two beams or rings. */
  betweenBeams: number;
  masked: number;
  behindThings: number;
  behindPeople: number;
  /** Beyond the outermost ring, or not below the detector. */
  outOfReach: number;
  /** Box (index into `surroundings.boxes`) that hides most; -1: the shell of the room; null: none. */
  hiderBox: number | null;
  /** Mean radiance of what is seen above what lies behind it, W m-2 sr-1; null where nothing is seen. */
  contrast: number | null;
}

/**
 * A direction is in a beam when the map there is this share of its own peak or more. Assumed: the tail of the blur; the
 * weakest facets have half the opening of the strongest, so a smaller share would count the softened rim as beam.
 */
const BEAM_SHARE = 0.02;

/** Level of the map that is asked: the sharpest; blur is for cells, and cells are counted here. */
const SHARPEST = 0;

interface Reach {
  leastM2: number;
  /** Squared distance from straight down in (u, v) of the outermost beam. */
  outermost2: number;
}

/** Least weight that counts as beam, and how far out beams lie. Half a million numbers: once per question, not per body. */
export function reachOf(map: AngularMap): Reach {
  const weights = map.levels[SHARPEST]!;
  const { sidePx, pxPerUnit, margin } = map;
  let peak = 0;
  for (let k = 0; k < weights.length; k++) peak = Math.max(peak, weights[k]!, -weights[k]!);
  const leastM2 = BEAM_SHARE * peak;
  let outermost2 = 0;
  for (let j = 0; j < sidePx; j++) {
    const v = (j + 0.5) / pxPerUnit - margin;
    for (let i = 0; i < sidePx; i++) {
      const w = weights[j * sidePx + i]!;
      if (w < leastM2 && w > -leastM2) continue;
      const u = (i + 0.5) / pxPerUnit - margin;
      outermost2 = Math.max(outermost2, u * u + v * v);
    }
  }
  return { leastM2, outermost2 };
}

/** Whether any of the four channels looks with `leastM2` or more into (u, v). */
function inBeam(map: AngularMap, leastM2: number, u: number, v: number): boolean {
  const weights = map.levels[SHARPEST]!;
  const { sidePx, pxPerUnit, margin } = map;
  for (let q = 0; q < 4; q++) {
    const qu = q === 0 ? u : q === 1 ? -v : q === 2 ? -u : v;
    const qv = q === 0 ? v : q === 1 ? u : q === 2 ? -v : -u;
    if (qu < -margin || qv < -margin) continue;
    const i = Math.floor((qu + margin) * pxPerUnit);
    const j = Math.floor((qv + margin) * pxPerUnit);
    if (i >= sidePx || j >= sidePx) continue;
    const w = weights[j * sidePx + i]!;
    if (w >= leastM2 || w <= -leastM2) return true;
  }
  return false;
}

interface Sums {
  all: number;
  beams: number;
  between: number;
  masked: number;
  things: number;
  people: number;
  out: number;
  /** Seen solid angle times radiance above what lies behind, W m-2. */
  warmth: number;
}

/** Indices in the buffer of the bodies that the track holds as standing before it. */
function hidersIn(buffer: BodyBuffer, track: BodyTrack): number[] {
  const found: number[] = [];
  for (let k = 0; k < track.hiders.length; k += 2) {
    for (let b = 0; b < buffer.count; b++) if (buffer.owner[b] === track.hiders[k]) found.push(b);
  }
  return found;
}

/** Box before the point `farM` away along the cell's ray; -1: none, so the shell. */
function boxBefore(tables: MovementTables, x: number, y: number, length: number, farM: number): number {
  const { boxes, eyeM } = tables.surroundings;
  const r = grid.room;
  // Row up of `room` is divided by STRETCH; a ray goes up by STRETCH times y.
  const up = STRETCH * STRETCH * y;
  const dx = (r[6]! + x * r[0]! + up * r[3]!) / length;
  const dy = (r[7]! + x * r[1]! + up * r[4]!) / length;
  const dz = (r[8]! + x * r[2]! + up * r[5]!) / length;
  return nearestBox(boxes, eyeM[0], eyeM[1], eyeM[2], dx, dy, dz, farM);
}

/** Puts one covered cell (ray x, y; `id` of the part seen in it) where it belongs. */
function addCell(
  tables: MovementTables,
  reach: Reach,
  maskBits: number,
  radiance: ArrayLike<number>,
  k: number,
  x: number,
  y: number,
  sums: Sums,
  hidden: Map<number, number>,
): void {
  const { lens: f, ids, kinds, cover, distances } = grid;
  const id = ids[k]!;
  if (kinds[id]! === HIDER) return;
  const length = Math.sqrt(1 + x * x + STRETCH * STRETCH * y * y);
  const solid = cover[k]! / (length * length * length);
  const bz = f[8]! + y * f[5]!;
  const scale = 1 / (length - bz);
  const u = (f[6]! + y * f[3]! + x * f[0]!) * scale;
  const v = (f[7]! + y * f[4]! + x * f[1]!) * scale;
  if (bz >= 0) {
    sums.out += solid;
    return;
  }
  const { scene, map } = tables;
  const half = scene.sidePx / 2;
  const last = scene.sidePx - 1;
  const at = Math.min(last, Math.floor((v + 1) * half)) * scene.sidePx + Math.min(last, Math.floor((u + 1) * half));
  if (scene.depthM[at]! < distances[id]! - HIDDEN_BY_M) {
    sums.things += solid;
    const box = boxBefore(tables, x, y, length, distances[id]!);
    hidden.set(box, (hidden.get(box) ?? 0) + solid);
    return;
  }
  if (u * u + v * v > reach.outermost2) {
    sums.out += solid;
    return;
  }
  if ((maskBits >> sectorOf(u, v)) & 1) {
    sums.masked += solid;
    return;
  }
  if (inBeam(map, reach.leastM2, u, v)) sums.beams += solid;
  else sums.between += solid;
  sums.warmth += solid * (radiance[kinds[id]!]! - (scene.warmth ? scene.warmth[at]! : 0));
}

/** Solid angle of the covered cells in units of a cell's own, by `each`; whatever it does with them. */
function overCells(each: (k: number, x: number, y: number) => void): void {
  const { x0, y0, cell, nx, ny, ids } = grid;
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const k = j * nx + i;
      if (ids[k] !== 0) each(k, x0 + (i + 0.5) * cell, y0 + (j + 0.5) * cell);
    }
  }
}

function solidAt(k: number, x: number, y: number): number {
  const length2 = 1 + x * x + STRETCH * STRETCH * y * y;
  return grid.cover[k]! / (length2 * Math.sqrt(length2));
}

function largestOf(hidden: Map<number, number>): number | null {
  let box: number | null = null;
  let most = 0;
  for (const [index, solid] of hidden) {
    if (solid <= most) continue;
    most = solid;
    box = index;
  }
  return box;
}

/**
 * What the detector has of body `body` of the buffer, by its track as weighed last. `radiance`: of this body by part
 * kind, W m-2 sr-1 above the room. `maskBits`: bit k = clip-on sector k.
 */
export function viewOfBody(
  tables: MovementTables,
  reach: Reach,
  buffer: BodyBuffer,
  body: number,
  track: BodyTrack,
  maskBits: number,
  radiance: ArrayLike<number>,
): BodyView {
  const sums: Sums = { all: 0, beams: 0, between: 0, masked: 0, things: 0, people: 0, out: 0, warmth: 0 };
  const hidden = new Map<number, number>();
  const own = drawOwn(tables, buffer, body, track.sphereM);
  if (own > 0) {
    overCells((k, x, y) => {
      sums.all += solidAt(k, x, y);
    });
    drawHiders(tables, buffer, own, hidersIn(buffer, track));
    overCells((k, x, y) => {
      if (grid.kinds[grid.ids[k]!] === HIDER) return;
      addCell(tables, reach, maskBits, radiance, k, x, y, sums, hidden);
    });
  }
  const left = sums.beams + sums.between + sums.masked + sums.things + sums.out;
  const share = (solid: number) => (sums.all > 0 ? solid / sums.all : 0);
  const seen = sums.beams + sums.between;
  return {
    silhouetteSr: sums.all * STRETCH * grid.cell * grid.cell,
    inBeams: share(sums.beams),
    betweenBeams: share(sums.between),
    masked: share(sums.masked),
    behindThings: share(sums.things),
    behindPeople: Math.max(0, 1 - share(left)),
    outOfReach: share(sums.out),
    hiderBox: largestOf(hidden),
    contrast: seen > 0 ? sums.warmth / seen : null,
  };
}
