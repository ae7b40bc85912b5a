/** Events of the run -> what each output's band looked like, as stretches of ticks. Draws on events only; decides nothing. */
import type { AirPhase, Phase, RowPhase, TraceEvent } from '../engine/trace.ts';
import type { OutputId, Tick } from '../engine/types.ts';

export type BandLook = 'seen' | 'timing' | 'bright' | 'watching' | 'held' | 'heldOff' | 'starting' | 'walkTest' | 'off';

export interface Stretch {
  fromTick: Tick;
  /** Exclusive. */
  toTick: Tick;
  look: BandLook;
}

/** A badge says "someone seen" for this long after a pulse, ticks. Source: the product's own state table, 20 s. */
export const SEEN_FOR_TICKS = 200;

interface BandState {
  on: boolean;
  state: RowPhase | AirPhase;
  phase: Phase;
  bright: boolean;
  lastSeenTick: Tick;
}

function lookOf(s: BandState, tick: Tick): BandLook {
  if (s.phase === 'warmUp') return s.on ? 'starting' : 'off';
  if (s.phase === 'walkTest') return s.on ? 'walkTest' : 'off';
  if (s.state === 'heldOff' || s.state === 'airHeldOff') return 'heldOff';
  if (s.state === 'heldOn' || s.state === 'airHeldOn') return 'held';
  if (s.state === 'watching') return 'watching';
  if (!s.on) return 'off';
  if (s.bright) return 'bright';
  return tick < s.lastSeenTick + SEEN_FOR_TICKS ? 'seen' : 'timing';
}

function apply(s: BandState, event: TraceEvent, output: OutputId): void {
  switch (event.kind) {
    case 'output':
      if (event.output === output) s.on = event.on;
      return;
    case 'row':
      if ((event.row === 'inner' ? 'innerRow' : 'windowRow') === output) s.state = event.to;
      return;
    case 'air':
      if (output === 'airContact') s.state = event.to;
      return;
    case 'phase':
      s.phase = event.to;
      if (event.to !== 'running') s.bright = false;
      return;
    case 'seen':
      s.lastSeenTick = event.tick;
      return;
    case 'crossing':
      if ((event.row === 'inner' ? 'innerRow' : 'windowRow') === output && event.level === 'release')
        s.bright = event.rising;
      return;
    default:
      return;
  }
}

export interface BandStart {
  on: boolean;
  state: RowPhase | AirPhase;
  phase: Phase;
}

/** Stretches from tick 0 to `endTick`, without gaps. `start` is the state before the first event. */
export function bandStretches(
  events: readonly TraceEvent[],
  output: OutputId,
  start: BandStart,
  endTick: Tick,
): Stretch[] {
  const s: BandState = { ...start, bright: false, lastSeenTick: Number.NEGATIVE_INFINITY };
  const out: Stretch[] = [];
  let fromTick = 0;
  let look = lookOf(s, 0);
  const turn = (tick: Tick, next: BandLook): void => {
    if (next === look) return;
    if (tick > fromTick) out.push({ fromTick, toTick: tick, look });
    fromTick = Math.max(tick, fromTick);
    look = next;
  };
  const fade = (tick: Tick): void => {
    const fadesAt = s.lastSeenTick + SEEN_FOR_TICKS;
    if (look === 'seen' && fadesAt < tick) turn(fadesAt, lookOf(s, fadesAt));
  };
  for (const event of events) {
    if (event.tick > endTick) break;
    fade(event.tick);
    apply(s, event, output);
    turn(event.tick, lookOf(s, event.tick));
  }
  fade(endTick);
  if (endTick > fromTick) out.push({ fromTick, toTick: endTick, look });
  return out;
}

/** Stretches as bars of at least a pixel: shorter ones are swallowed by the bar before, so no picture holds thousands. */
export function visibleBars(
  stretches: readonly Stretch[],
  fromTick: Tick,
  toTick: Tick,
  leastTicks: number,
): Stretch[] {
  const out: Stretch[] = [];
  for (const stretch of stretches) {
    if (stretch.toTick <= fromTick || stretch.fromTick >= toTick) continue;
    const a = Math.max(stretch.fromTick, fromTick);
    const b = Math.min(stretch.toTick, toTick);
    const last = out.at(-1);
    if (last && (b - a < leastTicks || last.look === stretch.look)) last.toTick = b;
    else out.push({ fromTick: a, toTick: b, look: stretch.look });
  }
  return out;
}
