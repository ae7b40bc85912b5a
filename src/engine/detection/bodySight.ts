/**
 * What a thermal camera in the detector's place would say of each body: how much of it is seen, how far it stands out,
 * and how far it would have to. Reads only.
 */
import { cos, PI, sin } from '../math.ts';
import { type BodyBuffer, type DetectorModel, PART_KINDS } from '../types.ts';
import { channelFrames } from './angularMap.ts';
import { type BodyRay, othersOf, raysOfBody } from './bodyRays.ts';
import { chainPeak } from './chainTheory.ts';
import { CHANNELS } from './lens.ts';
import { sectorOf, WEIGHTS_PER_CHANNEL } from './lookup.ts';
import { weighBody } from './raster.ts';
import { bakedWarmth, SCENE_PX, TILE_SIDE } from './scene.ts';
import { boundSphere } from './tracks.ts';
import type { MovementTables, StaticScene } from './types.ts';

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

/** Nothing stands in it and nothing is warm. */
const FAR_M = 1e6;
const emptyScene: StaticScene = {
  sidePx: SCENE_PX,
  depthM: new Float32Array(SCENE_PX * SCENE_PX).fill(FAR_M),
  warmth: null,
  tileSide: TILE_SIDE,
  tileDepthM: new Float32Array(TILE_SIDE * TILE_SIDE).fill(FAR_M),
  tileWarm: new Uint8Array(TILE_SIDE * TILE_SIDE),
};

/** Turns of the lens, over the quarter after which it is the same again, at which the best flux is looked for. Assumed:
 *  31, under 3 degrees each; the narrowest beams are 4 wide. Fewer would miss the best place, more only cost. */
const TURNS = 31;

const KINDS = PART_KINDS.length;
const weights = new Array<number>(CHANNELS * WEIGHTS_PER_CHANNEL).fill(0);

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
    const turned = { ...tables, scene: emptyScene, turnSin, turnCos, frames: channelFrames(turnSin, turnCos) };
    weighBody(turned, buffer, body, sphereM, [], 0, weights);
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
  const maskBits = maskedSectors.reduce((bits, sector) => bits | (1 << sector), 0);
  return Array.from({ length: buffer.count }, (_, body) => {
    const sphereM = [0, 0, 0, 0];
    boundSphere(buffer, body, sphereM);
    const rays = raysOfBody(tables, buffer, body, sphereM, othersOf(buffer, body));
    const free = rays.filter((ray) => !ray.behindBody && !ray.behindThing);
    const solid = (some: readonly BodyRay[]) => some.reduce((sum, ray) => sum + ray.solidSr, 0);
    const freeSr = solid(free);
    const seen = freeSr > 0 ? free : rays;
    const seenSr = solid(seen);
    const mean = (of: (ray: BodyRay) => number) =>
      seenSr > 0 ? seen.reduce((sum, ray) => sum + ray.solidSr * of(ray), 0) / seenSr : 0;
    const behind = freeSr > 0 ? mean((ray) => (ray.lens[2] < 0 ? bakedWarmth(tables.scene, ray.lens) : 0)) : 0;
    const partRadiance = PART_KINDS.map((_, kind) => radiance[body * KINDS + kind]! - behind);
    return {
      totalSr: solid(rays),
      freeSr,
      maskedSr: solid(free.filter((ray) => (maskBits >> sectorOf(ray.lens[0], ray.lens[1])) & 1)),
      radiance: mean((ray) => radiance[body * KINDS + ray.kind]!) - behind,
      partRadiance,
      bestFluxW: bestFlux(tables, buffer, body, sphereM, partRadiance),
      middleM: [sphereM[0]!, sphereM[1]!, sphereM[2]!],
    };
  });
}
