/** Pieces of the signal put together into one stretch without a gap. Pure: knows no worker and no store. */
import type { Tick } from '../../engine/types.ts';
import type { SignalStretch } from '../../host/lookBack.ts';

/** Numbers of a tick, [channel * 5 + subStep]. Source: layout of the worker's answer. */
export const PER_TICK = 20;
/** Longest piece asked for at once, ticks. Assumed: a minute; a longer one would keep what is seen waiting. */
const PIECE_TICKS = 600;
/** Longest stretch held, ticks. Assumed: twice the widest window. */
const MOST_TICKS = 12_000;

/** Ticks `fromTick` … `toTick` - 1, without a gap. */
export interface HeldSignal {
  fromTick: Tick;
  toTick: Tick;
  /** [tick - fromTick][channel * 5 + subStep], µV. */
  signalUv: Float32Array;
}

export const NO_SIGNAL: HeldSignal = { fromTick: 0, toTick: 0, signalUv: new Float32Array(0) };

function part(held: HeldSignal, fromTick: Tick, toTick: Tick): HeldSignal {
  const at = (tick: Tick) => (tick - held.fromTick) * PER_TICK;
  return { fromTick, toTick, signalUv: held.signalUv.subarray(at(fromTick), at(toTick)) };
}

function join(a: HeldSignal, b: HeldSignal): HeldSignal {
  const signalUv = new Float32Array(a.signalUv.length + b.signalUv.length);
  signalUv.set(a.signalUv);
  signalUv.set(b.signalUv, a.signalUv.length);
  return { fromTick: a.fromTick, toTick: b.toTick, signalUv };
}

/** Puts a piece to what is held; a piece that does not touch it takes its place. */
export function joined(held: HeldSignal, piece: HeldSignal): HeldSignal {
  if (piece.toTick === piece.fromTick) return held;
  if (piece.fromTick === held.toTick && held.toTick > held.fromTick) {
    const all = join(held, piece);
    return all.toTick - all.fromTick > MOST_TICKS ? part(all, all.toTick - MOST_TICKS, all.toTick) : all;
  }
  if (piece.toTick === held.fromTick && held.toTick > held.fromTick) {
    const all = join(piece, held);
    return all.toTick - all.fromTick > MOST_TICKS ? part(all, all.fromTick, all.fromTick + MOST_TICKS) : all;
  }
  return piece;
}

/** The next piece that is missing of `fromTick` … `toTick` - 1; null: all there. */
export function missing(held: HeldSignal, fromTick: Tick, toTick: Tick): { fromTick: Tick; toTick: Tick } | null {
  if (toTick <= fromTick) return null;
  const apart = held.toTick === held.fromTick || held.toTick < fromTick || held.fromTick > toTick;
  // What is nearest to now comes first.
  if (apart) return { fromTick: Math.max(fromTick, toTick - PIECE_TICKS), toTick };
  if (held.toTick < toTick) return { fromTick: held.toTick, toTick: Math.min(toTick, held.toTick + PIECE_TICKS) };
  if (held.fromTick > fromTick) {
    return { fromTick: Math.max(fromTick, held.fromTick - PIECE_TICKS), toTick: held.fromTick };
  }
  return null;
}

export function pieceOf({ fromTick, signalUv }: SignalStretch): HeldSignal {
  return { fromTick, toTick: fromTick + signalUv.length / PER_TICK, signalUv };
}

/** Forgets everything after `tick`. */
export function cutHeld(held: HeldSignal, tick: Tick): HeldSignal {
  const toTick = Math.min(held.toTick, tick + 1);
  return toTick > held.fromTick ? part(held, held.fromTick, toTick) : NO_SIGNAL;
}
