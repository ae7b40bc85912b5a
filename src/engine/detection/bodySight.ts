/**
 * What a thermal camera in the detector's place would say of each body: how much of it is seen, how far it stands out,
 * and how far it would have to. Reads only; the same raster and the same map as sensing.
 */
import { acos, cos, PI, sin } from '../math.ts';
import { type BodyBuffer, PART_KINDS } from '../types.ts';
import { LEVEL_CELL_RAD } from './angularMap.ts';
import { CHANNELS } from './lens.ts';
import { WEIGHTS_PER_CHANNEL } from './lookup.ts';
import { weighBody } from './raster.ts';
import { weighBodies } from './tracks.ts';
import type { AngularMap, MovementState, MovementTables, StaticScene } from './types.ts';

export interface BodySight {
  /** Solid angle of the whole body from the detector, of what furniture and others leave of it, and of that under
   *  clip-on masks, sr. */
  totalSr: number;
  freeSr: number;
  maskedSr: number;
  /** Mean radiance above what lies behind, over what is seen (over all of it when nothing is), W m-2 sr-1. */
  radiance: number;
  /** The same by part kind. */
  partRadiance: number[];
  /**
   * Largest flux of one channel while the body, posed and warm as it is now, passes round the detector by one pitch of
   * the lens at its distance, W. Nothing in the way.
   */
  bestFluxW: number;
  /** Middle of the body, room metres. */
  middleM: [number, number, number];
}

/** Pixels of a map that weighs every direction alike; its margin is a hair under zero, so that no border counts twice. */
const FLAT_PX = 32;
const ones = new Float32Array(FLAT_PX * FLAT_PX).fill(1);
const flatMap: AngularMap = {
  sidePx: FLAT_PX,
  pxPerUnit: FLAT_PX - 1,
  margin: -1e-9,
  levels: LEVEL_CELL_RAD.map(() => ones),
};

/** Nothing stands in it and nothing is warm. */
const FAR_M = 1e6;
const emptyScene: StaticScene = {
  sidePx: 2,
  depthM: new Float32Array(4).fill(FAR_M),
  warmth: null,
  tileSide: 36,
  tileDepthM: new Float32Array(36 * 36).fill(FAR_M),
};

/** Turns of the lens over one pitch at which the swing is looked for. Assumed: 12; the peak is then missed by under 4 %. */
const TURNS = 12;

const KINDS = PART_KINDS.length;
const weights = new Array<number>(CHANNELS * WEIGHTS_PER_CHANNEL).fill(0);

function emptyState(): MovementState {
  return {
    noise: [],
    filters: [],
    offsetW: [0, 0, 0, 0],
    comparators: [],
    runningPeakUv: [],
    lastPeakUv: [],
    sceneKey: -1,
    maskBits: 0,
    tracks: [],
  };
}

/** Sum over channels of one place of the weights. */
function over(all: readonly number[], place: number): number {
  let sum = 0;
  for (let c = 0; c < CHANNELS; c++) sum += all[c * WEIGHTS_PER_CHANNEL + place]!;
  return sum;
}

function solidSr(all: readonly number[]): number {
  let sum = 0;
  for (let kind = 0; kind < KINDS; kind++) sum += over(all, kind);
  return sum;
}

/** Pitch of the ring whose beams point nearest to a direction, rad. */
function pitchAtRad(tables: MovementTables, nadirRad: number): number {
  let best = Number.POSITIVE_INFINITY;
  let ring = 0;
  for (const f of tables.facets) {
    const off = Math.abs(acos(-f.axis[2]) - nadirRad);
    if (off < best) {
      best = off;
      ring = f.ring;
    }
  }
  const facets = tables.facets.filter((f) => f.ring === ring).length;
  return (2 * PI) / facets;
}

function bestFlux(
  tables: MovementTables,
  buffer: BodyBuffer,
  body: number,
  sphereM: readonly number[],
  partRadiance: readonly number[],
): number {
  const [ex, ey, ez] = tables.surroundings.eyeM;
  const [x, y, z] = [sphereM[0]! - ex, sphereM[1]! - ey, sphereM[2]! - ez];
  const far = Math.sqrt(x * x + y * y + z * z);
  const pitchRad = pitchAtRad(tables, far > 0 ? acos(Math.min(1, Math.max(-1, -z / far))) : 0);
  let most = 0;
  for (let k = 0; k < TURNS; k++) {
    const a = (pitchRad * k) / TURNS;
    const [s, c] = [sin(a), cos(a)];
    const turnSin = tables.turnSin * c + tables.turnCos * s;
    const turnCos = tables.turnCos * c - tables.turnSin * s;
    weighBody({ ...tables, scene: emptyScene, turnSin, turnCos }, buffer, body, sphereM, [], 0, weights);
    for (let channel = 0; channel < CHANNELS; channel++) {
      let flux = 0;
      for (let kind = 0; kind < KINDS; kind++)
        flux += weights[channel * WEIGHTS_PER_CHANNEL + kind]! * partRadiance[kind]!;
      most = Math.max(most, Math.abs(flux));
    }
  }
  return most;
}

/** `radiance` as in sensing: [body * 5 + kind], W m-2 sr-1 above the room. */
export function sightOfBodies(
  tables: MovementTables,
  buffer: BodyBuffer,
  radiance: ArrayLike<number>,
  maskedSectors: readonly number[],
): BodySight[] {
  const flat = { ...tables, map: flatMap };
  const maskBits = maskedSectors.reduce((bits, sector) => bits | (1 << sector), 0);
  const free = emptyState();
  weighBodies(flat, free, buffer, 0, true);
  const kept = emptyState();
  if (maskBits !== 0) weighBodies(flat, kept, buffer, maskBits, true);
  return free.tracks.map((track, body) => {
    weighBody({ ...flat, scene: emptyScene }, buffer, body, track.sphereM, [], 0, weights);
    const totalSr = solidSr(weights);
    const freeSr = solidSr(track.weights);
    const seen = freeSr > 0 ? track.weights : weights;
    const behind = freeSr > 0 ? over(track.weights, KINDS) / freeSr : 0;
    let sum = 0;
    for (let kind = 0; kind < KINDS; kind++) sum += over(seen, kind) * radiance[body * KINDS + kind]!;
    const partRadiance = PART_KINDS.map((_, kind) => radiance[body * KINDS + kind]! - behind);
    const [x, y, z] = track.sphereM;
    return {
      totalSr,
      freeSr,
      maskedSr: maskBits === 0 ? 0 : Math.max(0, freeSr - solidSr(kept.tracks[body]!.weights)),
      radiance: (solidSr(seen) > 0 ? sum / solidSr(seen) : 0) - behind,
      partRadiance,
      bestFluxW: bestFlux(tables, buffer, body, track.sphereM, partRadiance),
      middleM: [x!, y!, z!],
    };
  });
}
