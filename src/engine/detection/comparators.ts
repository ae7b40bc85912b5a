/** Windows on the signal of each channel: a pulse is each entry above +T or below -T. */
import { atan2 } from '../math.ts';
import type { PointM, Pulse } from '../types.ts';
import { radToDeg, wrapDeg } from '../units.ts';
import type { MovementState, MovementTables } from './types.ts';

export const LEVELS = ['hold', 'holdReduced', 'switchOn', 'switchOnReduced'] as const;

/** A body is named as cause when its flux changes within about a second, as signal, reach this share of the threshold.
 *  Assumed: a fifth; larger would leave weak pulses without a mark, smaller would blame bystanders for noise. */
const CAUSE_SHARE = 0.2;

function causeOf(tables: MovementTables, state: MovementState, channel: number, thresholdUv: number) {
  let bestW = (CAUSE_SHARE * thresholdUv) / tables.chain.uvPerW;
  let atM: PointM | null = null;
  for (const track of state.tracks) {
    if (track.recentW[channel]! <= bestW) continue;
    bestW = track.recentW[channel]!;
    atM = [track.sphereM[0]!, track.sphereM[1]!];
  }
  if (!atM) return { bearingDeg: null, atM };
  const [eyeX, eyeY] = tables.surroundings.eyeM;
  return { bearingDeg: wrapDeg(radToDeg(atan2(atM[0] - eyeX, atM[1] - eyeY)) - tables.mountTurnDeg), atM };
}

/** Keeps the largest signal between two changes of sign, for "missed by how much". */
function followPeak(state: MovementState, channel: number, signalUv: number): void {
  const running = state.runningPeakUv[channel]!;
  if (running * signalUv < 0) {
    state.lastPeakUv[channel] = running;
    state.runningPeakUv[channel] = signalUv;
  } else if (signalUv > 0 ? signalUv > running : signalUv < running) {
    state.runningPeakUv[channel] = signalUv;
  }
}

/** One channel at one sub-step, its signal in `nowUv` (a number passed by itself would be boxed); pulses are appended in
 *  order of their thresholds. */
export function compare(
  tables: MovementTables,
  state: MovementState,
  channel: number,
  subStep: number,
  nowUv: Float64Array,
  pulses: Pulse[],
): void {
  const signalUv = nowUv[channel]!;
  followPeak(state, channel, signalUv);
  const size = signalUv < 0 ? -signalUv : signalUv;
  const polarity = signalUv < 0 ? -1 : 1;
  for (let k = 0; k < LEVELS.length; k++) {
    const thresholdUv = tables.levelsUv[k]!;
    const at = channel * LEVELS.length + k;
    const now = state.comparators[at]!;
    if (size > thresholdUv) {
      if (now === polarity) continue;
      state.comparators[at] = polarity;
      pulses.push({
        subStep,
        channel,
        polarity,
        level: LEVELS[k]!,
        signalUv,
        ...causeOf(tables, state, channel, thresholdUv),
      });
    } else if (now !== 0 && (now !== polarity || size < tables.hysteresisShare * thresholdUv)) {
      state.comparators[at] = 0;
    }
  }
}
