/**
 * Pulses of a run kept for use under other settings, other light, other delays: sensing never asks what the controller
 * does, so they are as good as sensing again, to the last bit, for as long as nothing that sensing depends on differs.
 *
 * A store is plain data (JSON keeps it exactly). Beside the pulses it holds what touched sensing and when, to know how
 * far it may be used, and the detector's own memory at every full minute, so that a run can go on by sensing.
 */
import { LEVELS } from './detection/comparators.ts';
import { maskBitsOf } from './detection/sense.ts';
import { canonicalJson } from './digest.ts';
import { sensingKey, touchesSensing } from './sensingKey.ts';
import type { Input, Pulse, Scenario, SimState, Tick, TimedInput } from './types.ts';
import { SUB_STEPS } from './units.ts';

/** The detector's memory is kept this often, ticks. Source: the product's decision, a clone each simulated minute. */
export const MEMORY_EVERY_TICKS = 600;

export interface PulseStore {
  format: 1;
  engine: string;
  /** See `sensingKey`. */
  key: string;
  /** Ticks 0 … untilTick - 1 are known. */
  untilTick: Tick;
  /** In order. `code` packs sub-step, channel, polarity, level, and whether a body is named as the cause. */
  pulses: { tick: Tick[]; code: number[]; signalUv: number[]; bearingDeg: number[]; xM: number[]; yM: number[] };
  /** What touched sensing: the inputs worked, the script's among them, in order. */
  touches: { tick: Tick; input: Input }[];
  /** Clip-on sectors as bits, from each tick on. */
  masks: { tick: Tick; bits: number }[];
  /** MovementState as JSON before the ticks 600, 1200, …; before tick 0 it follows from model and seed. */
  memories: string[];
}

export function createPulseStore(scenario: Scenario, seed: number, engine: string): PulseStore {
  return {
    format: 1,
    engine,
    key: sensingKey(scenario, seed),
    untilTick: 0,
    pulses: { tick: [], code: [], signalUv: [], bearingDeg: [], xM: [], yM: [] },
    touches: [],
    masks: [],
    memories: [],
  };
}

/** Index of the first item at or after the tick. */
function firstFrom(length: number, tickAt: (i: number) => Tick, tick: Tick): number {
  let low = 0;
  let high = length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (tickAt(middle) < tick) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A store of its own that ends before `tick`; the original keeps all it knows. */
export function cutPulses(store: PulseStore, tick: Tick): PulseStore {
  const { pulses } = store;
  const untilTick = Math.min(store.untilTick, tick);
  const count = firstFrom(pulses.tick.length, (i) => pulses.tick[i]!, untilTick);
  return {
    ...store,
    untilTick,
    pulses: {
      tick: pulses.tick.slice(0, count),
      code: pulses.code.slice(0, count),
      signalUv: pulses.signalUv.slice(0, count),
      bearingDeg: pulses.bearingDeg.slice(0, count),
      xM: pulses.xM.slice(0, count),
      yM: pulses.yM.slice(0, count),
    },
    touches: store.touches.filter((touch) => touch.tick < untilTick),
    masks: store.masks.filter((mask) => mask.tick < untilTick),
    memories: store.memories.slice(0, Math.floor(untilTick / MEMORY_EVERY_TICKS)),
  };
}

/** What the lens is masked with in the tick to come: the controller's masks as of the tick before. */
function maskBits(state: SimState): number {
  return maskBitsOf(state.control.settings.maskedSectors);
}

/** Before a tick that is sensed: what will touch sensing. `due` are all its inputs, the script's first. */
export function noteTouches(store: PulseStore, state: SimState, due: readonly TimedInput[]): void {
  const { tick } = state;
  if (store.untilTick !== tick) throw new RangeError(`pulses are known until tick ${store.untilTick}, not ${tick}`);
  const bits = maskBits(state);
  if (store.masks.at(-1)?.bits !== bits) store.masks.push({ tick, bits });
  for (const { input } of due) if (touchesSensing(input)) store.touches.push({ tick, input });
}

/** After it: its pulses, and the detector's memory at a full minute. */
export function notePulses(store: PulseStore, state: SimState, pulses: readonly Pulse[]): void {
  const columns = store.pulses;
  for (const pulse of pulses) {
    columns.tick.push(store.untilTick);
    columns.code.push(codeOf(pulse));
    columns.signalUv.push(pulse.signalUv);
    columns.bearingDeg.push(pulse.bearingDeg ?? 0);
    columns.xM.push(pulse.atM?.[0] ?? 0);
    columns.yM.push(pulse.atM?.[1] ?? 0);
  }
  store.untilTick = state.tick;
  if (state.tick % MEMORY_EVERY_TICKS === 0) store.memories.push(JSON.stringify(state.movement));
}

/** Quadrant channels. Source: our own lens. */
const CHANNELS = 4;
/** Codes from here on name no cause: noise. */
const NO_CAUSE = 2 * LEVELS.length * CHANNELS * SUB_STEPS;

function codeOf(pulse: Pulse): number {
  const place = (pulse.subStep * CHANNELS + pulse.channel) * LEVELS.length + LEVELS.indexOf(pulse.level);
  return 2 * place + (pulse.polarity > 0 ? 1 : 0) + (pulse.atM ? 0 : NO_CAUSE);
}

function pulseAt(store: PulseStore, i: number): Pulse {
  const { pulses } = store;
  const caused = pulses.code[i]! < NO_CAUSE;
  const code = pulses.code[i]! % NO_CAUSE;
  const place = code >> 1;
  const detector = Math.floor(place / LEVELS.length);
  return {
    subStep: Math.floor(detector / CHANNELS),
    channel: detector % CHANNELS,
    polarity: (code & 1) === 1 ? 1 : -1,
    level: LEVELS[place % LEVELS.length]!,
    signalUv: pulses.signalUv[i]!,
    bearingDeg: caused ? pulses.bearingDeg[i]! : null,
    atM: caused ? [pulses.xM[i]!, pulses.yM[i]!] : null,
  };
}

/** A place in a store; carries nothing that could not be found again from the tick. */
export interface PulseReader {
  readonly store: PulseStore;
  tick: Tick;
  nextPulse: number;
  nextTouch: number;
  mask: number;
}

export function readPulses(store: PulseStore): PulseReader {
  return { store, tick: -1, nextPulse: 0, nextTouch: 0, mask: -1 };
}

/** Brings the reader to a tick: a step or none from the tick before, a search from elsewhere. */
function turnTo(reader: PulseReader, tick: Tick): void {
  if (reader.tick === tick) return;
  const { pulses, touches, masks } = reader.store;
  if (tick !== reader.tick + 1) {
    reader.nextPulse = firstFrom(pulses.tick.length, (i) => pulses.tick[i]!, tick);
    reader.nextTouch = firstFrom(touches.length, (i) => touches[i]!.tick, tick);
    reader.mask = firstFrom(masks.length, (i) => masks[i]!.tick, tick + 1) - 1;
  }
  while (pulses.tick[reader.nextPulse]! < tick) reader.nextPulse++;
  while (reader.nextTouch < touches.length && touches[reader.nextTouch]!.tick < tick) reader.nextTouch++;
  while (reader.mask + 1 < masks.length && masks[reader.mask + 1]!.tick <= tick) reader.mask++;
  reader.tick = tick;
}

/**
 * Whether the stored pulses are those of the tick to come, asked before it is worked; `due` are all its inputs. False:
 * it is not known, or something touches sensing otherwise than in the stored run: this tick and all later ones must be
 * sensed.
 */
export function fitsNextTick(reader: PulseReader, state: SimState, due: readonly TimedInput[]): boolean {
  const { touches, masks, untilTick } = reader.store;
  const { tick } = state;
  if (tick >= untilTick) return false;
  turnTo(reader, tick);
  if (masks[reader.mask]?.bits !== maskBits(state)) return false;
  let touch = reader.nextTouch;
  for (const { input } of due) {
    if (!touchesSensing(input)) continue;
    const known = touches[touch++];
    if (known?.tick !== tick || canonicalJson(known.input) !== canonicalJson(input)) return false;
  }
  return touches[touch]?.tick !== tick;
}

const NO_PULSES: Pulse[] = [];

/** The pulses of a tick that the reader fits. */
export function pulsesOf(reader: PulseReader, tick: Tick): Pulse[] {
  turnTo(reader, tick);
  const { store, nextPulse } = reader;
  const at = store.pulses.tick;
  if (at[nextPulse] !== tick) return NO_PULSES;
  const pulses: Pulse[] = [];
  for (let i = nextPulse; at[i] === tick; i++) pulses.push(pulseAt(store, i));
  return pulses;
}

/**
 * After a tick whose pulses were read: at a full minute the detector's memory is put back and the state is whole, as if
 * it had been sensed; in between it says how old that memory is. `sceneKey`: the tables in force; two rooms that sense
 * alike may carry different ones.
 */
export function recallMemory(store: PulseStore, state: SimState, nextTick: Tick, sceneKey: number): void {
  const minute = nextTick / MEMORY_EVERY_TICKS;
  const memory = Number.isInteger(minute) ? store.memories[minute - 1] : undefined;
  if (memory === undefined) {
    state.movementAsOfTick ??= nextTick - 1;
    return;
  }
  state.movement = { ...(JSON.parse(memory) as SimState['movement']), sceneKey };
  delete state.movementAsOfTick;
}
