/** The signal of the four quadrants as drawn and told: paths, pulses, largest values. Numbers as the worker sent them. */
import type { TraceEvent } from '../../../../engine/trace.ts';
import type { Tick } from '../../../../engine/types.ts';
import { SUB_STEPS, TICKS_PER_S } from '../../../../engine/units.ts';
import { type HeldSignal, PER_TICK } from '../../../state/heldSignal.ts';
import { firstIndexAtOrAfter } from '../../../state/record.ts';

/** Quadrants of the detector. Source: our own lens. */
export const QUADRANTS = [0, 1, 2, 3] as const;

/** Tops of the scale, µV. Few, so that the paper rarely changes. */
const SCALES_UV = [50, 75, 100, 125, 150, 175, 200, 250, 300, 400, 500, 600, 800, 1200, 1600, 2400] as const;
/** The scale leaves this much above the switch-on threshold. Assumed: enough to see the signal pass it. */
const ABOVE_THRESHOLD = 1.2;

export function scaleUv(largestUv: number, switchOnUv: number): number {
  const wanted = Math.max(largestUv, switchOnUv * ABOVE_THRESHOLD);
  return SCALES_UV.find((scale) => scale >= wanted) ?? SCALES_UV[SCALES_UV.length - 1]!;
}

/** Signal of a channel at a sub-step counted from the start of the run; NaN where it is not held. */
export function signalAt(held: HeldSignal, channel: number, subStep: number): number {
  const tick = Math.floor(subStep / SUB_STEPS);
  if (tick < held.fromTick || tick >= held.toTick) return Number.NaN;
  return held.signalUv[(tick - held.fromTick) * PER_TICK + channel * SUB_STEPS + (subStep - tick * SUB_STEPS)]!;
}

/** Path of one quadrant: every sub-step where they lie a pixel apart, else lowest and highest of each pixel. */
export function quadrantPath(
  held: HeldSignal,
  channel: number,
  fromTick: Tick,
  toTick: Tick,
  xOf: (tick: number) => number,
  y: (uv: number) => number,
): string {
  const first = Math.max(Math.ceil(fromTick * SUB_STEPS), held.fromTick * SUB_STEPS);
  const end = Math.min(Math.ceil(toTick), held.toTick) * SUB_STEPS;
  const pxPerSubStep = (xOf(1) - xOf(0)) / SUB_STEPS;
  const perColumn = Math.max(1, Math.floor(1 / pxPerSubStep));
  let path = '';
  for (let i = first + ((perColumn - (first % perColumn)) % perColumn); i < end; i += perColumn) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let k = Math.max(first, i); k < Math.min(end, i + perColumn); k++) {
      const uv = signalAt(held, channel, k);
      if (uv < low) low = uv;
      if (uv > high) high = uv;
    }
    if (low > high) continue;
    const x = xOf(i / SUB_STEPS).toFixed(1);
    path += `${path === '' ? 'M' : 'L'}${x} ${y(high).toFixed(1)}`;
    if (low < high) path += `L${x} ${y(low).toFixed(1)}`;
  }
  return path;
}

export type PulseEvent = Extract<TraceEvent, { kind: 'pulse' }>;

/** Pulses from `fromTick` to `toTick`, both included. */
export function pulsesBetween(events: readonly TraceEvent[], fromTick: Tick, toTick: Tick): PulseEvent[] {
  const pulses: PulseEvent[] = [];
  for (let i = firstIndexAtOrAfter(Math.floor(fromTick), events); i < events.length; i++) {
    const event = events[i]!;
    if (event.tick > toTick) break;
    if (event.kind === 'pulse') pulses.push(event);
  }
  return pulses;
}

export interface Largest {
  uv: number;
  channel: number;
  tick: Tick;
}

/** Largest signal held of a window; null: nothing held. */
export function largestBetween(held: HeldSignal, fromTick: Tick, toTick: Tick): Largest | null {
  let best: Largest | null = null;
  for (let tick = Math.max(Math.floor(fromTick), held.fromTick); tick < Math.min(toTick, held.toTick); tick++) {
    for (let k = 0; k < PER_TICK; k++) {
      const uv = held.signalUv[(tick - held.fromTick) * PER_TICK + k]!;
      if (best && Math.abs(uv) <= Math.abs(best.uv)) continue;
      best = { uv, channel: Math.floor(k / SUB_STEPS), tick };
    }
  }
  return best;
}

export interface SecondRow {
  tick: Tick;
  /** Signed, µV, by channel. */
  peaksUv: number[];
  pulses: number;
}

/** The last `most` whole seconds of a window, newest first. */
export function secondsOf(
  held: HeldSignal,
  events: readonly TraceEvent[],
  fromTick: Tick,
  toTick: Tick,
  most: number,
): SecondRow[] {
  const rows: SecondRow[] = [];
  const end = Math.min(Math.ceil(toTick), held.toTick);
  const first = Math.max(Math.floor(fromTick), held.fromTick);
  for (let s = Math.floor((end - 1) / TICKS_PER_S); s * TICKS_PER_S >= first && rows.length < most; s--) {
    const from = s * TICKS_PER_S;
    const to = Math.min(end, from + TICKS_PER_S);
    const peaksUv = QUADRANTS.map((channel) => {
      let peak = 0;
      for (let k = from * SUB_STEPS; k < to * SUB_STEPS; k++) {
        const uv = signalAt(held, channel, k);
        if (Math.abs(uv) > Math.abs(peak)) peak = uv;
      }
      return peak;
    });
    rows.push({ tick: from, peaksUv, pulses: pulsesBetween(events, from, to - 1).filter((p) => p.counted).length });
  }
  return rows;
}
