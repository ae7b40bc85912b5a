/** What each test costs, and which are left out of the sums. Source: the product's own table of minutes. */
import { canonicalJson } from '../../engine/digest.ts';
import type { Instrument, Test } from './types.ts';

const MINUTES: Record<Instrument, number> = {
  ask: 0.5,
  drawing: 0.5,
  look: 0.5,
  repeat: 2,
  settings: 1,
  handHeld: 0.5,
  luxMeter: 2,
  thermometer: 0.5,
  seenAt: 2,
  stopwatch: 2,
  button: 0.5,
  log: 1,
  watch: 2,
  cloth: 1,
  torch: 1,
};

/** A part swapped counts as a test of so many minutes. Source: the product's own marking rule. */
export const SWAP_MIN = 15;

/** Left out of the sums of strategy and efficiency, once each. Source: the product's own marking rule. */
const FREE_ONCE: readonly Instrument[] = ['ask', 'drawing', 'look', 'repeat'];

export function minutesOf(test: Test): number {
  return MINUTES[test.instrument];
}

export function isFreeOnce(test: Test): boolean {
  return FREE_ONCE.includes(test.instrument);
}

/** The same test has the same key, in whatever order its parameters were written. */
export function testKey(test: Test): string {
  return canonicalJson(test);
}

export function isAllowed(tests: readonly Test[], test: Test): boolean {
  const key = testKey(test);
  return tests.some((allowed) => testKey(allowed) === key);
}
