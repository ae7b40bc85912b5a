/**
 * The signal of the past at its full 50 Hz, and who was seen: the last ten minutes of the signal are kept as they were
 * worked, older stretches are worked again from the minute's clone in a room of their own. Work on request only.
 */

import { SHARE_MEMORY_S, WARM_IN_S } from '../engine/detection/personSignal.ts';
import { createSightWatch, type PersonAnswer, type SightWatch, sightsNow, watchTick } from '../engine/personSight.ts';
import { CHANNELS, createSimulation, type Simulation, stepSimulation } from '../engine/simulation.ts';
import type { Tick } from '../engine/types.ts';
import { SUB_STEPS, TICKS_PER_S } from '../engine/units.ts';
import { restoreText } from './knownGround.ts';
import { checkpointFor, inputsAt, type Line } from './line.ts';
import { lastSightings } from './sightings.ts';

/** Ticks of signal that are kept. Source: the product's decision, ten minutes. */
export const SIGNAL_KEPT_TICKS = 6000;
/** Numbers of a tick's signal, [channel * 5 + subStep]. Source: the frame's own layout. */
export const SIGNAL_PER_TICK = CHANNELS * SUB_STEPS;

export interface LookBack {
  /** Signal of ticks `keptFrom` … `keptTo` - 1; tick t lies at t % SIGNAL_KEPT_TICKS. */
  kept: Float32Array;
  keptFrom: Tick;
  keptTo: Tick;
  /** Rooms of their own, where they were left; null: none yet, or on ground that is gone. */
  signalRoom: Simulation | null;
  watched: { room: Simulation; watch: SightWatch } | null;
}

export function createLookBack(): LookBack {
  return {
    kept: new Float32Array(SIGNAL_KEPT_TICKS * SIGNAL_PER_TICK),
    keptFrom: 0,
    keptTo: 0,
    signalRoom: null,
    watched: null,
  };
}

/** Keeps the signal of a tick that has just been worked for the first time. */
export function keepSignal(lookBack: LookBack, tick: Tick, signalUv: Float32Array): void {
  if (tick !== lookBack.keptTo) lookBack.keptFrom = tick;
  lookBack.kept.set(signalUv, (tick % SIGNAL_KEPT_TICKS) * SIGNAL_PER_TICK);
  lookBack.keptTo = tick + 1;
  lookBack.keptFrom = Math.max(lookBack.keptFrom, lookBack.keptTo - SIGNAL_KEPT_TICKS);
}

/** The run was cut: what was kept from `tick` on, and rooms beyond it, are of a future that no longer is. */
export function forgetFrom(lookBack: LookBack, tick: Tick): void {
  lookBack.keptTo = Math.min(lookBack.keptTo, tick);
  lookBack.keptFrom = Math.min(lookBack.keptFrom, lookBack.keptTo);
  lookBack.signalRoom = null;
  lookBack.watched = null;
}

/** What of a run a question is about; the session has it. */
export interface Ground {
  sim: Simulation;
  line: Line;
  lookBack: LookBack;
}

/** Work that is done bit by bit: each call works a tick or so; true: there is more. */
export type Bit = () => boolean;

export interface SignalStretch {
  fromTick: Tick;
  /** [tick][channel * 5 + subStep], µV: the numbers that the comparators saw. */
  signalUv: Float32Array;
}

/** Puts `room` where ticks from `tick` on can be worked; goes on from where it stands if that is nearer. */
function standBefore(room: Simulation, line: Line, tick: Tick): void {
  const checkpoint = checkpointFor(line, tick);
  const at = room.state.tick;
  if (at <= tick && at >= (checkpoint?.tick ?? 0)) return;
  if (checkpoint) restoreText(room, checkpoint);
}

/**
 * The signal of ticks `fromTick` up to, not including, `toTick`, cut to what has been worked. Call `bit` until it
 * returns false; then `stretch` is full.
 */
export function signalWork(ground: Ground, fromTick: Tick, toTick: Tick): { stretch: SignalStretch; bit: Bit } {
  const { line, lookBack, sim } = ground;
  const from = Math.max(0, Math.min(Math.trunc(fromTick), line.headTick));
  const to = Math.max(from, Math.min(Math.trunc(toTick), line.headTick, from + SIGNAL_KEPT_TICKS));
  const stretch = { fromTick: from, signalUv: new Float32Array((to - from) * SIGNAL_PER_TICK) };
  let next = from;
  let placed = false;
  const bit = (): boolean => {
    if (next >= to) return false;
    if (next >= lookBack.keptFrom && next < lookBack.keptTo) {
      const at = (next % SIGNAL_KEPT_TICKS) * SIGNAL_PER_TICK;
      stretch.signalUv.set(lookBack.kept.subarray(at, at + SIGNAL_PER_TICK), (next - from) * SIGNAL_PER_TICK);
      next++;
      placed = false;
      return next < to;
    }
    lookBack.signalRoom ??= createSimulation(sim.scenario, sim.state.seed);
    const room = lookBack.signalRoom;
    // A cut in between has taken the room away.
    if (room.state.tick > next || !placed) standBefore(room, line, next);
    placed = true;
    const { tick } = room.state;
    const step = stepSimulation(room, inputsAt(line, tick));
    if (tick < next) return true;
    stretch.signalUv.set(step.signalUv, (tick - from) * SIGNAL_PER_TICK);
    next = tick + 1;
    return next < to;
  };
  return { stretch, bit };
}

/**
 * Who is seen as of the end of `shown`. Call `bit` until it returns false; then ask `answers`. Asked again later, the
 * room goes on from where it was left: following the run costs what the run costs.
 */
export function sightsWork(ground: Ground, shown: Tick): { tick: Tick; bit: Bit; answers: () => PersonAnswer[] } {
  const { line, lookBack, sim } = ground;
  const tick = Math.max(0, Math.min(shown, line.headTick - 1));
  const begin = checkpointFor(line, Math.max(0, tick + 1 - (SHARE_MEMORY_S + WARM_IN_S) * TICKS_PER_S));
  let { watched } = lookBack;
  const bit = (): boolean => {
    if (line.headTick === 0) return false;
    const at = watched?.room.state.tick ?? -1;
    if (!watched || at > tick + 1 || at < (begin?.tick ?? 0)) {
      const room = watched?.room ?? createSimulation(sim.scenario, sim.state.seed);
      if (begin) restoreText(room, begin);
      watched = { room, watch: createSightWatch(room) };
      lookBack.watched = watched;
    }
    const { room, watch } = watched;
    if (room.state.tick <= tick) {
      stepSimulation(room, inputsAt(line, room.state.tick));
      watchTick(watch, room);
    }
    return room.state.tick <= tick;
  };
  const answers = (): PersonAnswer[] => {
    if (!watched) return [];
    const seen = lastSightings(line.sightings, tick);
    return sightsNow(watched.watch, watched.room).map((sight) => ({
      ...sight,
      lastSeenTick: seen[sight.personId] ?? null,
    }));
  };
  return { tick, bit, answers };
}

/** The same at once, for who has no screen to keep alive. */
export function sightsAt(ground: Ground, shown: Tick): PersonAnswer[] {
  const { bit, answers } = sightsWork(ground, shown);
  while (bit());
  return answers();
}

/** The signal at once. */
export function signalAt(ground: Ground, fromTick: Tick, toTick: Tick): SignalStretch {
  const { stretch, bit } = signalWork(ground, fromTick, toTick);
  while (bit());
  return stretch;
}
