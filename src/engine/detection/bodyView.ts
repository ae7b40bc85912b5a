/**
 * How much of a body the detector has in view, and what keeps the rest from it, counted in solid angle. An instrument:
 * called on request, never by the tick.
 */
import { nearestBox } from '../room/rays.ts';
import type { BodyBuffer, Vector3 } from '../types.ts';
import { planeFrame, weightM2 } from './angularMap.ts';
import { type BodyRay, raysOfBody } from './bodyRays.ts';
import { CHANNELS } from './lens.ts';
import { sectorOf } from './lookup.ts';
import { bakedWarmth } from './scene.ts';
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

interface Reach {
  leastM2: number;
  /** z of the direction (detector frame) of the outermost beam: the largest. */
  outermostZ: number;
}

/** Least weight that counts as beam, and how far out beams lie. Half a million numbers: once per question, not per body. */
export function reachOf(map: AngularMap): Reach {
  const { weightsM2, widthPx, heightPx, pxPerUnit, leftX, lowY } = map;
  let peak = 0;
  for (let k = 0; k < weightsM2.length; k++) peak = Math.max(peak, weightsM2[k]!, -weightsM2[k]!);
  const leastM2 = BEAM_SHARE * peak;
  const frame = planeFrame(0);
  let outermostZ = -1;
  for (let j = 0; j < heightPx; j++) {
    const y = (j + 0.5) / pxPerUnit + lowY;
    for (let i = 0; i < widthPx; i++) {
      const w = weightsM2[j * widthPx + i]!;
      if (w < leastM2 && w > -leastM2) continue;
      const x = (i + 0.5) / pxPerUnit + leftX;
      outermostZ = Math.max(outermostZ, (x * frame[2]! + y * frame[5]! + frame[8]!) / Math.sqrt(1 + x * x + y * y));
    }
  }
  return { leastM2, outermostZ };
}

/** Whether any of the four channels looks with `leastM2` or more into a direction (unit, detector frame). */
function inBeam(map: AngularMap, leastM2: number, d: Vector3): boolean {
  for (let channel = 0; channel < CHANNELS; channel++) {
    if (Math.abs(weightM2(map, channel, d)) >= leastM2) return true;
  }
  return false;
}

interface Sums {
  all: number;
  beams: number;
  between: number;
  masked: number;
  things: number;
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

/** Puts one ray where it belongs. */
function addRay(
  tables: MovementTables,
  reach: Reach,
  maskBits: number,
  radiance: ArrayLike<number>,
  ray: BodyRay,
  sums: Sums,
  hidden: Map<number, number>,
): void {
  const { lens, solidSr } = ray;
  if (lens[2] >= 0) {
    sums.out += solidSr;
    return;
  }
  if (ray.behindThing) {
    sums.things += solidSr;
    const { boxes, eyeM } = tables.surroundings;
    const box = nearestBox(boxes, eyeM[0], eyeM[1], eyeM[2], ...ray.room, ray.distanceM);
    hidden.set(box, (hidden.get(box) ?? 0) + solidSr);
    return;
  }
  if (lens[2] > reach.outermostZ) {
    sums.out += solidSr;
    return;
  }
  if ((maskBits >> sectorOf(lens[0], lens[1])) & 1) {
    sums.masked += solidSr;
    return;
  }
  if (inBeam(tables.map, reach.leastM2, lens)) sums.beams += solidSr;
  else sums.between += solidSr;
  sums.warmth += solidSr * (radiance[ray.kind]! - bakedWarmth(tables.scene, lens));
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
  const sums: Sums = { all: 0, beams: 0, between: 0, masked: 0, things: 0, out: 0, warmth: 0 };
  const hidden = new Map<number, number>();
  for (const ray of raysOfBody(tables, buffer, body, track.sphereM, hidersIn(buffer, track))) {
    sums.all += ray.solidSr;
    if (!ray.behindBody) addRay(tables, reach, maskBits, radiance, ray, sums, hidden);
  }
  const left = sums.beams + sums.between + sums.masked + sums.things + sums.out;
  const share = (solid: number) => (sums.all > 0 ? solid / sums.all : 0);
  const seen = sums.beams + sums.between;
  return {
    silhouetteSr: sums.all,
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
