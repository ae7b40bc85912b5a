/**
 * What a thermal camera in the detector's place would say of each body: how much of it is seen, how far it stands out,
 * and how far it would have to. Reads only; the same raster and the same map as sensing.
 */
import { cos, PI, sin } from '../math.ts';
import { type BodyBuffer, type DetectorModel, PART_KINDS } from '../types.ts';
import { LEVEL_CELL_RAD } from './angularMap.ts';
import { chainPeak } from './chainTheory.ts';
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
   * Largest flux of one channel while the body, posed and warm as it is now, passes round the detector at its distance,
   * W. Nothing in the way. Walks past a place come to this or less from 2.5 m on; nearer, where a step leads to other
   * rings, to half as much again (tests/detection/bodySight.test.ts).
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

/** Turns of the lens, over the quarter after which it is the same again, at which the best flux is looked for. Assumed:
 *  31, under 3 degrees each; the narrowest beams are 4 wide. Fewer would miss the best place, more only cost. */
const TURNS = 31;

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

function bestFlux(
  tables: MovementTables,
  buffer: BodyBuffer,
  body: number,
  sphereM: readonly number[],
  partRadiance: readonly number[],
): number {
  let most = 0;
  for (let k = 0; k < TURNS; k++) {
    const a = (PI / 2) * (k / TURNS);
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

/** First harmonic of a square wave over its height. Source: Fourier series; no slower change of flux gives more. */
const SQUARE_WAVE_PEAK = 4 / PI;

/** Flux that must change its sign at the chain's best pace for a signal of `thresholdUv`, W. */
export function fluxForPulseW(tables: MovementTables, model: DetectorModel, thresholdUv: number): number {
  return thresholdUv / (tables.chain.uvPerW * chainPeak(model).gain * SQUARE_WAVE_PEAK);
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
