/** Bodies from sub-step to sub-step: only what moved, or is hidden by what moved, is weighed again. */

import { type BodyBuffer, MOST_BODIES, NUMBERS_PER_PART, PARTS_PER_BODY } from '../types.ts';
import { CHANNELS } from './lens.ts';
import { WEIGHTS_PER_CHANNEL } from './lookup.ts';
import { weighBody } from './raster.ts';
import type { BodyTrack, MovementState, MovementTables } from './types.ts';
import { isThing, keepWeights, recallWeights, type WeightMemo } from './weightMemo.ts';

const KINDS = WEIGHTS_PER_CHANNEL - 1;

/** Scratch: track of each body in the buffer, whether it moved, spheres that may hide it. */
const trackOf: BodyTrack[] = [];
const moved = new Uint8Array(MOST_BODIES);
const fresh = new Uint8Array(MOST_BODIES);
const hiders: number[] = [];
const flux = new Float64Array(CHANNELS);

function newTrack(owner: number): BodyTrack {
  return {
    owner,
    poseKey: 0,
    hiders: [],
    sphereM: [0, 0, 0, 0],
    weights: new Array<number>(CHANNELS * WEIGHTS_PER_CHANNEL).fill(0),
    fluxW: [0, 0, 0, 0],
    recentW: [0, 0, 0, 0],
  };
}

/** Sphere around all parts in use: middle of their centres, reach of the furthest. */
export function boundSphere(buffer: BodyBuffer, body: number, sphereM: number[]): void {
  const { parts } = buffer;
  const from = body * PARTS_PER_BODY * NUMBERS_PER_PART;
  const to = from + PARTS_PER_BODY * NUMBERS_PER_PART;
  let used = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let k = from; k < to; k += NUMBERS_PER_PART) {
    if (parts[k + 3]! === 0 && parts[k + 4]! === 0 && parts[k + 5]! === 0) continue;
    x += parts[k]!;
    y += parts[k + 1]!;
    z += parts[k + 2]!;
    used++;
  }
  if (used === 0) return;
  x /= used;
  y /= used;
  z /= used;
  let reach = 0;
  for (let k = from; k < to; k += NUMBERS_PER_PART) {
    let axes = 0;
    for (let a = k + 3; a < k + NUMBERS_PER_PART; a += 3) {
      const size = parts[a]! * parts[a]! + parts[a + 1]! * parts[a + 1]! + parts[a + 2]! * parts[a + 2]!;
      if (size > axes) axes = size;
    }
    if (axes === 0) continue;
    const dx = parts[k]! - x;
    const dy = parts[k + 1]! - y;
    const dz = parts[k + 2]! - z;
    reach = Math.max(reach, Math.sqrt(dx * dx + dy * dy + dz * dz) + Math.sqrt(axes));
  }
  sphereM[0] = x;
  sphereM[1] = y;
  sphereM[2] = z;
  sphereM[3] = reach;
}

/** Whether sphere `a`, nearer to the eye, may cover part of sphere `b`. */
function mayHide(a: readonly number[], b: readonly number[], eye: readonly number[]): boolean {
  const ax = a[0]! - eye[0]!;
  const ay = a[1]! - eye[1]!;
  const az = a[2]! - eye[2]!;
  const bx = b[0]! - eye[0]!;
  const by = b[1]! - eye[1]!;
  const bz = b[2]! - eye[2]!;
  const aa = ax * ax + ay * ay + az * az;
  const bb = bx * bx + by * by + bz * bz;
  if (aa > bb) return false;
  const ra = a[3]!;
  const rb = b[3]!;
  if (ra * ra >= aa || rb * rb >= bb) return true;
  // Angle between the middles against the sum of the two half-angles, by cosines.
  const sinSum = (ra * Math.sqrt(bb - rb * rb) + rb * Math.sqrt(aa - ra * ra)) / Math.sqrt(aa * bb);
  const cosSum = (Math.sqrt(aa - ra * ra) * Math.sqrt(bb - rb * rb) - ra * rb) / Math.sqrt(aa * bb);
  if (cosSum <= 0 && sinSum > 0) return true;
  return (ax * bx + ay * by + az * bz) / Math.sqrt(aa * bb) > cosSum;
}

/** Matches bodies with tracks. Returns whether anything changed. */
function match(state: MovementState, buffer: BodyBuffer): boolean {
  const { tracks } = state;
  let changed = tracks.length !== buffer.count;
  for (let b = 0; b < buffer.count; b++) {
    const owner = buffer.owner[b]!;
    let track = tracks[b];
    if (!track || track.owner !== owner) {
      track = undefined;
      for (const t of tracks) if (t.owner === owner) track = t;
      changed = true;
    }
    fresh[b] = track ? 0 : 1;
    trackOf[b] = track ?? newTrack(owner);
    moved[b] = fresh[b] || trackOf[b]!.poseKey !== buffer.poseKey[b]! ? 1 : 0;
    if (moved[b]) changed = true;
  }
  return changed;
}

/** Whether the tracks are already those of the present bodies, in buffer order. */
function isSettled({ tracks }: MovementState, buffer: BodyBuffer): boolean {
  if (tracks.length !== buffer.count) return false;
  for (let b = 0; b < buffer.count; b++) if (tracks[b] !== trackOf[b]) return false;
  return true;
}

/** Leaves the present bodies in buffer order; the flux of those who left is absorbed. */
function settleTracks(state: MovementState, buffer: BodyBuffer): void {
  if (isSettled(state, buffer)) return;
  for (const track of state.tracks) {
    let present = false;
    for (let b = 0; b < buffer.count; b++) if (trackOf[b] === track) present = true;
    if (present) continue;
    for (let c = 0; c < CHANNELS; c++) state.offsetW[c]! += track.fluxW[c]!;
  }
  state.tracks.length = 0;
  for (let b = 0; b < buffer.count; b++) state.tracks.push(trackOf[b]!);
}

/** Bodies that may stand before body `b`; returns whether they, or their poses, differ from what the track holds. */
function findHiders(tables: MovementTables, buffer: BodyBuffer, b: number): boolean {
  const track = trackOf[b]!;
  hiders.length = 0;
  let differs = false;
  for (let a = 0; a < buffer.count; a++) {
    if (a === b || !mayHide(trackOf[a]!.sphereM, track.sphereM, tables.surroundings.eyeM)) continue;
    const at = hiders.length * 2;
    if (track.hiders[at] !== buffer.owner[a]! || track.hiders[at + 1] !== buffer.poseKey[a]!) differs = true;
    hiders.push(a);
  }
  if (track.hiders.length !== hiders.length * 2) differs = true;
  if (!differs) return false;
  // Shortened and overwritten, not emptied: an emptied array gives its memory back, fifty times a second.
  if (track.hiders.length > hiders.length * 2) track.hiders.length = hiders.length * 2;
  for (let k = 0; k < hiders.length; k++) {
    track.hiders[2 * k] = buffer.owner[hiders[k]!]!;
    track.hiders[2 * k + 1] = buffer.poseKey[hiders[k]!]!;
  }
  return true;
}

/** Weighs body `b` as `hiders` leave it, unless the memo knows this very sight. */
function weighOne(
  tables: MovementTables,
  buffer: BodyBuffer,
  b: number,
  maskBits: number,
  memo: WeightMemo | null,
): void {
  const { sphereM, weights } = trackOf[b]!;
  const remembers = memo && isThing(buffer, b) ? memo : null;
  if (remembers && recallWeights(remembers, tables, buffer, b, hiders, maskBits, weights)) return;
  weighBody(tables, buffer, b, sphereM, hiders, maskBits, weights);
  if (remembers) keepWeights(remembers, weights);
}

/** Brings every track's weights up to the buffer. `all`: the scene changed. Returns whether anything was weighed. */
export function weighBodies(
  tables: MovementTables,
  state: MovementState,
  buffer: BodyBuffer,
  maskBits: number,
  all: boolean,
  memo: WeightMemo | null = null,
): boolean {
  for (let b = 0; b < MOST_BODIES; b++) fresh[b] = 0;
  if (!match(state, buffer) && !all) return false;
  for (let b = 0; b < buffer.count; b++) {
    if (!moved[b]) continue;
    boundSphere(buffer, b, trackOf[b]!.sphereM);
    trackOf[b]!.poseKey = buffer.poseKey[b]!;
  }
  settleTracks(state, buffer);
  for (let b = 0; b < buffer.count; b++) {
    const hidden = findHiders(tables, buffer, b);
    if (!moved[b] && !hidden && !all) continue;
    weighOne(tables, buffer, b, maskBits, memo);
  }
  return true;
}

/**
 * Flux per channel from weights and radiance, W; the result is scratch. `absorbed(b)`: jumps of body b are not movement.
 * Radiance goes by body: [b * 5 + kind]. `changesW`, where somebody asks for it, is filled from `changesAt` on with
 * [body * 4 + channel], W: what each body's own flux changed by, absorbed jumps left out.
 */
export function sumFlux(
  state: MovementState,
  buffer: BodyBuffer,
  radiance: Float64Array,
  placedOwners: readonly number[],
  absorbAll: boolean,
  changesW: Float64Array | null = null,
  changesAt = 0,
): Float64Array {
  const anyPlaced = placedOwners.length > 0;
  flux.fill(0);
  for (let b = 0; b < buffer.count; b++) {
    const track = state.tracks[b]!;
    // A hand that sets somebody down also changes what others are hidden by.
    const absorb = absorbAll || fresh[b] === 1 || (anyPlaced && (moved[b] === 0 || placedOwners.includes(track.owner)));
    const at = b * KINDS;
    for (let c = 0; c < CHANNELS; c++) {
      const w = c * WEIGHTS_PER_CHANNEL;
      let sum = -track.weights[w + KINDS]!;
      for (let kind = 0; kind < KINDS; kind++) sum += track.weights[w + kind]! * radiance[at + kind]!;
      const change = sum - track.fluxW[c]!;
      if (absorb) state.offsetW[c]! -= change;
      else track.recentW[c]! += change < 0 ? -change : change;
      if (changesW) changesW[changesAt + b * CHANNELS + c] = absorb ? 0 : change;
      track.fluxW[c] = sum;
      flux[c]! += sum;
    }
  }
  for (let c = 0; c < CHANNELS; c++) flux[c]! += state.offsetW[c]!;
  return flux;
}
