/**
 * Weights of things that move (curtain, fan, robot) remembered by pose: rooms run side by side, and all benches of an
 * exercise, show them to the same scene at the same ticks again and again. The numbers are those that weighing would
 * give; a memo changes nothing but the time, so it is no part of the state.
 */
import { type BodyBuffer, PARTS_PER_BODY } from '../types.ts';
import { CHANNELS } from './lens.ts';
import { WEIGHTS_PER_CHANNEL } from './lookup.ts';
import type { MovementTables, Surroundings } from './types.ts';

/** Poses kept, a power of two. Assumed: five things that never rest, for half an hour; 36 MB, touched as they are filled. */
const SLOTS = 1 << 19;
/** Kind of all parts of a thing, which alone have weights, and the background that they hide. Source: PART_KINDS. */
const THING = 4;
const BACKGROUND = WEIGHTS_PER_CHANNEL - 1;
/** Numbers kept of each: of each channel the thing and the background. */
const NUMBERS = 2 * CHANNELS;
/** Multipliers and first values of the two halves of a fingerprint. Source: MurmurHash3 and FNV-1a, public algorithms. */
const FIRST = [0x811c9dc5, 0x9747b28c] as const;
const TIMES = [0xcc9e2d51, 0x85ebca6b] as const;

export interface WeightMemo {
  /** Both halves of each slot's fingerprint; an unused slot has two zeros. */
  readonly prints: Int32Array;
  readonly weights: Float64Array;
  /** Scenes and what lies behind bodies in them, by number: two never share a pose. */
  readonly scenes: WeakMap<Surroundings, Map<string, number>>;
  count: number;
}

export function createWeightMemo(): WeightMemo {
  return {
    prints: new Int32Array(2 * SLOTS),
    weights: new Float64Array(NUMBERS * SLOTS),
    scenes: new WeakMap(),
    count: 0,
  };
}

/** Scratch: a pose key, and the same as two words. */
const key = new Float64Array(1);
const words = new Int32Array(key.buffer);
/** Fingerprint at hand, and the slot that is its own or may be taken. */
let low = 0;
let high = 0;
let slot = 0;

function mix(word: number): void {
  low = Math.imul(low ^ word, TIMES[0]);
  low ^= low >>> 15;
  high = Math.imul(high ^ word, TIMES[1]);
  high ^= high >>> 13;
}

/** Things come last in the buffer and are those of the tables, so that they are counted from its end. */
function mixBody(buffer: BodyBuffer, body: number): void {
  key[0] = buffer.poseKey[body]!;
  mix(isThing(buffer, body) ? buffer.count - body : 0);
  mix(words[0]!);
  mix(words[1]!);
}

function sceneNumber(memo: WeightMemo, tables: MovementTables): number {
  const { surroundings, background } = tables;
  let numbers = memo.scenes.get(surroundings);
  if (!numbers) {
    numbers = new Map();
    memo.scenes.set(surroundings, numbers);
  }
  const known = numbers.get(background);
  if (known !== undefined) return known;
  memo.count++;
  numbers.set(background, memo.count);
  return memo.count;
}

/** Whether a body is a thing, so that it may be kept. */
export function isThing({ partKind }: BodyBuffer, body: number): boolean {
  return partKind[body * PARTS_PER_BODY] === THING;
}

/** Looks at the two slots of the fingerprint; leaves in `slot` where it is, else where it may be put. */
function find({ prints }: WeightMemo): boolean {
  slot = low & (SLOTS - 1);
  if (prints[2 * slot] === low && prints[2 * slot + 1] === high) return true;
  const free = prints[2 * slot] === 0 && prints[2 * slot + 1] === 0;
  if (free) return false;
  slot ^= 1;
  return prints[2 * slot] === low && prints[2 * slot + 1] === high;
}

/**
 * Fills `out` from memory; false: this pose is not known, and the next `keepWeights` is for it. The fingerprint is of all
 * that the weights of a thing depend on: scene, clips, its pose and its hiders' poses. It has 64 bits: beside the 10^5
 * poses kept, a new one is taken for another once in 10^14 times.
 */
export function recallWeights(
  memo: WeightMemo,
  tables: MovementTables,
  buffer: BodyBuffer,
  body: number,
  hiders: readonly number[],
  maskBits: number,
  out: number[],
): boolean {
  low = FIRST[0];
  high = FIRST[1];
  mix(sceneNumber(memo, tables));
  mix(maskBits);
  mixBody(buffer, body);
  for (const hider of hiders) mixBody(buffer, hider);
  if (!find(memo)) return false;
  let from = slot * NUMBERS;
  for (let at = 0; at < CHANNELS * WEIGHTS_PER_CHANNEL; at += WEIGHTS_PER_CHANNEL) {
    for (let kind = 0; kind < THING; kind++) out[at + kind] = 0;
    out[at + THING] = memo.weights[from++]!;
    out[at + BACKGROUND] = memo.weights[from++]!;
  }
  return true;
}

/** Keeps what was weighed after `recallWeights` had not known it; the pose that had its slot is forgotten. */
export function keepWeights(memo: WeightMemo, weights: readonly number[]): void {
  memo.prints[2 * slot] = low;
  memo.prints[2 * slot + 1] = high;
  let to = slot * NUMBERS;
  for (let at = 0; at < CHANNELS * WEIGHTS_PER_CHANNEL; at += WEIGHTS_PER_CHANNEL) {
    memo.weights[to++] = weights[at + THING]!;
    memo.weights[to++] = weights[at + BACKGROUND]!;
  }
}
