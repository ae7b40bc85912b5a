/**
 * One body's own share of the signal: its changes of flux alone through a chain of its own. The chain is linear, so the
 * shares of all bodies and the noise add up to the signal that the comparators saw (tests/detection/personSignal).
 * What a body shows or loses because another walks before it belongs to its own share. An instrument, never state.
 */
import type { Tick } from '../types.ts';
import { SUB_STEPS, TICKS_PER_S } from '../units.ts';
import { stepChain } from './chain.ts';
import { LEVELS } from './comparators.ts';
import { CHANNELS } from './lens.ts';
import { SHARES_PER_SUB_STEP } from './sense.ts';
import type { MovementTables } from './types.ts';

/** How far back largest signals are remembered, s. Source: the question is "in the last minute". */
export const SHARE_MEMORY_S = 60;

/**
 * A chain begins at rest this long before what is asked about, s. Assumed: ten times its slowest section (1 s), so that
 * what rang before is down to 5e-5 of itself; longer only costs time.
 */
export const WARM_IN_S = 10;

/** Largest own signal of a body over a stretch of time. */
export interface LargestSignal {
  /** Signed, µV. */
  uv: number;
  channel: number;
  tick: Tick;
}

/** Follows one body from tick to tick. */
export interface BodyShare {
  /** Flux since the start of following, per channel, W. */
  inputW: Float64Array;
  filters: number[];
  /** Of the last tick, [channel * 5 + subStep], µV. */
  signalUv: Float64Array;
  /** Largest of each second that is remembered, signed µV, and its tick: [second % SHARE_MEMORY_S * 4 + channel]. */
  secondUv: Float64Array;
  secondTick: Int32Array;
  /** [channel * 4 + level]: 1 above the window, -1 below, 0 inside; and the sub-step of the last entry. */
  inside: Int8Array;
  entrySubStep: Float64Array;
  /** Sub-step of the last second entry of one channel within the pair time, per level. */
  pairSubStep: Float64Array;
  poseKey: number;
  /** Last tick in which the pose differed from the one before; null: not since following began. */
  movedTick: Tick | null;
  /** First tick followed; for a body that came later, its first. */
  sinceTick: Tick;
}

export function createBodyShare(tables: MovementTables, tick: Tick): BodyShare {
  return {
    inputW: new Float64Array(CHANNELS),
    filters: new Array<number>(CHANNELS * tables.chain.count).fill(0),
    signalUv: new Float64Array(CHANNELS * SUB_STEPS),
    secondUv: new Float64Array(SHARE_MEMORY_S * CHANNELS),
    secondTick: new Int32Array(SHARE_MEMORY_S * CHANNELS).fill(-1),
    inside: new Int8Array(CHANNELS * LEVELS.length),
    entrySubStep: new Float64Array(CHANNELS * LEVELS.length).fill(Number.NEGATIVE_INFINITY),
    pairSubStep: new Float64Array(LEVELS.length).fill(Number.NEGATIVE_INFINITY),
    poseKey: Number.NaN,
    movedTick: null,
    sinceTick: tick,
  };
}

/** Entries of the body's own signal over each threshold, as the comparators would count them. */
function compareShare(
  share: BodyShare,
  tables: MovementTables,
  channel: number,
  subStep: number,
  uv: number,
  pairSubSteps: number,
): void {
  const size = uv < 0 ? -uv : uv;
  const polarity = uv < 0 ? -1 : 1;
  for (let k = 0; k < LEVELS.length; k++) {
    const at = channel * LEVELS.length + k;
    const limitUv = tables.levelsUv[k]!;
    const now = share.inside[at]!;
    if (size > limitUv) {
      if (now === polarity) continue;
      share.inside[at] = polarity;
      if (subStep - share.entrySubStep[at]! <= pairSubSteps) share.pairSubStep[k] = subStep;
      share.entrySubStep[at] = subStep;
    } else if (now !== 0 && (now !== polarity || size < tables.hysteresisShare * limitUv)) {
      share.inside[at] = 0;
    }
  }
}

/**
 * One tick of one body. `sharesW` as `senseMovement` filled it; `bodyAt[subStep]` is the body's place in the buffer of
 * that sub-step, -1 while it is not there. `pairSubSteps`: within this time two entries of one channel are a pair.
 */
export function followShare(
  share: BodyShare,
  tables: MovementTables,
  sharesW: Float64Array,
  bodyAt: readonly number[],
  tick: Tick,
  pairSubSteps: number,
): void {
  const { inputW, filters, signalUv, secondUv, secondTick } = share;
  const second = Math.floor(tick / TICKS_PER_S) % SHARE_MEMORY_S;
  if (tick % TICKS_PER_S === 0) {
    secondUv.fill(0, second * CHANNELS, (second + 1) * CHANNELS);
    secondTick.fill(-1, second * CHANNELS, (second + 1) * CHANNELS);
  }
  for (let subStep = 0; subStep < SUB_STEPS; subStep++) {
    const body = bodyAt[subStep]!;
    for (let c = 0; c < CHANNELS; c++) {
      if (body >= 0) inputW[c]! += sharesW[subStep * SHARES_PER_SUB_STEP + body * CHANNELS + c]!;
      const uv = stepChain(tables.chain, filters, c, inputW[c]! * tables.chain.uvPerW);
      signalUv[c * SUB_STEPS + subStep] = uv;
      const at = second * CHANNELS + c;
      const held = secondUv[at]!;
      if ((uv < 0 ? -uv : uv) > (held < 0 ? -held : held)) {
        secondUv[at] = uv;
        secondTick[at] = tick;
      }
      compareShare(share, tables, c, tick * SUB_STEPS + subStep, uv, pairSubSteps);
    }
  }
}

/** Largest own signal in ticks `fromTick` and later, to whole seconds; null when it was zero throughout. */
export function largestSince(share: BodyShare, fromTick: Tick): LargestSignal | null {
  let best: LargestSignal | null = null;
  for (let k = 0; k < share.secondUv.length; k++) {
    const uv = share.secondUv[k]!;
    const tick = share.secondTick[k]!;
    if (tick < fromTick || Math.abs(uv) <= Math.abs(best?.uv ?? 0)) continue;
    best = { uv, channel: k % CHANNELS, tick };
  }
  return best;
}
