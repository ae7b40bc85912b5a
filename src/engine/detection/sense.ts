/**
 * Movement: bodies against the lens's map give flux, flux goes through the chain, comparators make pulses of it.
 * Sensing never asks what the controller does with a pulse.
 */
import { canonicalJson } from '../digest.ts';
import { cos, exp, hypot2, sin } from '../math.ts';
import { hash32 } from '../random.ts';
import { type BodyBuffer, type DetectorModel, MOST_BODIES, type Pulse, type RoomSpec, type Setup } from '../types.ts';
import { degToRad, SUB_STEPS, TICK_S } from '../units.ts';
import { bakeAngularMap, channelFrames } from './angularMap.ts';
import { buildChain, stepChain } from './chain.ts';
import { compare, LEVELS } from './comparators.ts';
import { outletNoiseUv } from './draught.ts';
import { gaussian, keepNoise, noiseFrom, seedNoise } from './gaussian.ts';
import { CHANNELS, lensFacets } from './lens.ts';
import { bakeScene, surroundingsOf, type WarmBox } from './scene.ts';
import { sumFlux, weighBodies } from './tracks.ts';
import type { MovementState, MovementTables } from './types.ts';
import type { WeightMemo } from './weightMemo.ts';

/** Memory of who moved, s. Assumed: as long as the chain rings; longer names the one who passed before. */
const CAUSE_MEMORY_S = 1;
const CAUSE_FADE = exp(-TICK_S / CAUSE_MEMORY_S);

/**
 * Pure function of its arguments; cached by the caller. `patches`: still things warmer than the room (radiators);
 * their radiance is taken at the room's temperature at the start, 1 % off for each kelvin that it has changed since.
 */
export function buildMovementTables(
  model: DetectorModel,
  room: RoomSpec,
  setup: Setup,
  patches: readonly WarmBox[] = [],
): MovementTables {
  const { holdUv, switchOnUv, reducedFactor, hysteresisShare } = model;
  const turnSin = sin(degToRad(setup.mount.turnDeg));
  const turnCos = cos(degToRad(setup.mount.turnDeg));
  const surroundings = surroundingsOf(room, setup);
  const chain = buildChain(model);
  const draughtUv = outletNoiseUv(setup);
  return {
    thresholdsUv: {
      hold: holdUv,
      switchOn: switchOnUv,
      holdReduced: holdUv * reducedFactor,
      switchOnReduced: switchOnUv * reducedFactor,
    },
    levelsUv: Float64Array.of(holdUv, holdUv * reducedFactor, switchOnUv, switchOnUv * reducedFactor),
    hysteresisShare,
    facets: lensFacets(model),
    map: bakeAngularMap(model),
    frames: channelFrames(turnSin, turnCos),
    scene: bakeScene(room.radiantTemperatureC, surroundings, patches, turnSin, turnCos),
    surroundings,
    chain,
    fineness: 1,
    inputNoiseUv: hypot2(model.noiseUv, draughtUv) / chain.noiseGain,
    coveredNoiseUv: model.noiseUv / chain.noiseGain,
    turnSin,
    turnCos,
    mountTurnDeg: setup.mount.turnDeg,
    sceneKey: hash32(canonicalJson([model, setup.mount, setup.furniture, setup.doors, setup.warmThings])),
    background: '',
    backgroundKey: 0,
  };
}

export function createMovementState(model: DetectorModel, seed: number): MovementState {
  const sections = 2 + model.highPassHz.length + model.lowPassHz.length;
  const zeros = (count: number) => new Array<number>(count).fill(0);
  return {
    noise: seedNoise(seed ^ hash32('pyro')),
    filters: zeros(CHANNELS * sections),
    offsetW: zeros(CHANNELS),
    comparators: zeros(CHANNELS * LEVELS.length),
    runningPeakUv: zeros(CHANNELS),
    lastPeakUv: zeros(CHANNELS),
    sceneKey: -1,
    backgroundKey: 0,
    maskBits: 0,
    tracks: [],
  };
}

export interface SenseArguments {
  tables: MovementTables;
  state: MovementState;
  /** The five sub-steps of this tick. */
  bodies: BodyBuffer[];
  /** Radiance excess over the room per body and part kind [body * 5 + kind], W m-2 sr-1. */
  radiance: Float64Array;
  maskedSectors: number[];
  /** A cloth over the dome: no sector sees, no draught blows. */
  covered?: boolean;
  /** Owners (see BodyBuffer) whose jump in flux since the last sub-step is absorbed: placed by hand, not moved. */
  placedOwners: number[];
  /** The stage manager changed something that shows at once (temperature, furniture): no jump of this tick is movement. */
  sceneChanged?: boolean;
  /** Filled: [channel * 5 + subStep], µV. */
  signalUv: Float32Array;
  /** Where given, filled: [(subStep * MOST_BODIES + body) * 4 + channel], W; see `sumFlux`. An instrument: read only. */
  sharesW?: Float64Array | null;
  /** Where given, weights of poses already weighed come from it. */
  weightMemo?: WeightMemo | null;
  /** False leaves the noise out, for measurements; the generator still runs. */
  noise?: boolean;
}

const NOBODY: number[] = [];

/** Scratch: signal of each channel at the sub-step at hand, µV. */
const nowUv = new Float64Array(CHANNELS);

/** Numbers of `sharesW` for one sub-step. Source: layout of the array. */
export const SHARES_PER_SUB_STEP = MOST_BODIES * CHANNELS;

/** All twelve sectors as bits. Source: clips are of 30 degrees. */
const ALL_SECTORS = 0xfff;

/** Clip-on sectors as bits, sector k as bit k. */
export function maskBitsOf(sectors: readonly number[]): number {
  let bits = 0;
  for (const sector of sectors) bits |= 1 << sector;
  return bits;
}

function fadeCauses(state: MovementState): void {
  for (const track of state.tracks) {
    for (let c = 0; c < CHANNELS; c++) track.recentW[c]! *= CAUSE_FADE;
  }
}

/** Whether the tracks were weighed with this scene, these surfaces and these masks. */
function isWeighedFor(state: MovementState, tables: MovementTables, maskBits: number): boolean {
  const sameScene = state.sceneKey === tables.sceneKey && state.backgroundKey === tables.backgroundKey;
  return sameScene && state.maskBits === maskBits;
}

function noteScene(state: MovementState, tables: MovementTables, maskBits: number): void {
  state.sceneKey = tables.sceneKey;
  state.backgroundKey = tables.backgroundKey;
  state.maskBits = maskBits;
}

/**
 * After a tick: `next` is the same detector before surfaces as they are from now on. Bodies, where they now are, are
 * weighed anew before them, and what their flux differs by is no signal. The sun moves and warms in minutes; told once a
 * minute it would come as steps. What is neglected is the slow change itself, of the background that bodies hide and of
 * what lies open: far below the band, under 1 µV at the chain's end (tests/detection/sunBehind).
 */
export function renewSurfaces(
  next: MovementTables,
  state: MovementState,
  buffer: BodyBuffer,
  radiance: Float64Array,
  memo: WeightMemo | null,
): void {
  if (state.backgroundKey === next.backgroundKey) return;
  state.backgroundKey = next.backgroundKey;
  weighBodies(next, state, buffer, state.maskBits, true, memo);
  sumFlux(state, buffer, radiance, NOBODY, true);
}

/**
 * One tick of sensing: five sub-steps of flux, chain, noise, comparators. Returns the pulses in order.
 * Whoever appears or leaves, and whatever changes by the hand of the stage manager (scene, masks), makes no jump.
 */
export function senseMovement(args: SenseArguments): Pulse[] {
  const { tables, state, bodies, radiance, signalUv } = args;
  const sharesW = args.sharesW ?? null;
  sharesW?.fill(0);
  const { chain } = tables;
  const covered = args.covered === true;
  const maskBits = covered ? ALL_SECTORS : maskBitsOf(args.maskedSectors);
  const sceneChanged = !isWeighedFor(state, tables, maskBits);
  const absorbAll = sceneChanged || args.sceneChanged === true;
  noteScene(state, tables, maskBits);
  const generator = noiseFrom(state.noise);
  const noiseUv = args.noise === false ? 0 : covered ? tables.coveredNoiseUv : tables.inputNoiseUv;
  const pulses: Pulse[] = [];
  fadeCauses(state);
  let flux: Float64Array | undefined;
  for (let subStep = 0; subStep < SUB_STEPS; subStep++) {
    const buffer = bodies[subStep]!;
    const first = subStep === 0;
    const weighed = weighBodies(tables, state, buffer, maskBits, first && sceneChanged, args.weightMemo);
    if (weighed || flux === undefined) {
      const placed = first ? args.placedOwners : NOBODY;
      flux = sumFlux(state, buffer, radiance, placed, first && absorbAll, sharesW, subStep * SHARES_PER_SUB_STEP);
    }
    for (let c = 0; c < CHANNELS; c++) {
      const inputUv = flux[c]! * chain.uvPerW + noiseUv * gaussian(generator);
      const y = stepChain(chain, state.filters, c, inputUv);
      signalUv[c * SUB_STEPS + subStep] = y;
      nowUv[c] = y;
      compare(tables, state, c, subStep, nowUv, pulses);
    }
  }
  keepNoise(generator, state.noise);
  return pulses;
}
