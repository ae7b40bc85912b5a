/** Where a run differs from what was expected: one line each, with both sides. */
import type { FlagLine, Outcome, StateLine, Timeline } from './types.ts';

/** Times are tenths of a second held in binary; this much is rounding, s. Assumed: far below a tick. */
const ROUNDING_S = 1e-9;

/** Differences, in words. Empty: passed. */
export function mismatches(timeline: Timeline, got: Outcome): string[] {
  const { id, expected, toleranceS } = timeline;
  return [
    ...differing(
      `${id} states`,
      expected.states,
      got.states,
      stateText,
      (a, b) => near(a[0], b[0], toleranceS) && same(a.slice(1), b.slice(1)),
    ),
    ...differing(
      `${id} flags`,
      expected.flags ?? [],
      got.flags ?? [],
      flagText,
      (a, b) => near(a.t, b.t, toleranceS) && flagName(a) === flagName(b),
    ),
    ...differing(
      `${id} adaptive_delay_changes`,
      expected.adaptive_delay_changes ?? [],
      got.adaptive_delay_changes ?? [],
      (c) => `${c.t} s ${c.adaptive_delay_s} s`,
      (a, b) => near(a.t, b.t, toleranceS) && a.adaptive_delay_s === b.adaptive_delay_s,
    ),
  ];
}

function differing<T>(
  what: string,
  expected: readonly T[],
  got: readonly T[],
  textOf: (line: T) => string,
  agree: (a: T, b: T) => boolean,
): string[] {
  const lines: string[] = [];
  for (let i = 0; i < Math.max(expected.length, got.length); i++) {
    const wanted = expected[i];
    const found = got[i];
    if (wanted !== undefined && found !== undefined && agree(wanted, found)) continue;
    const show = (line: T | undefined) => (line === undefined ? 'nothing' : textOf(line));
    lines.push(`${what}[${i}]: expected ${show(wanted)}, got ${show(found)}`);
  }
  return lines;
}

function near(a: number, b: number, toleranceS: number): boolean {
  return Math.abs(a - b) <= toleranceS + ROUNDING_S;
}

function same(a: readonly number[], b: readonly number[]): boolean {
  return a.every((n, i) => n === b[i]);
}

function stateText([t, inner, window, air]: StateLine): string {
  return `${t} s inner ${inner} window ${window} air ${air}`;
}

function flagName(line: FlagLine): string {
  return [line.flag, line.input, line.state].filter((part) => part !== undefined).join(', ');
}

function flagText(line: FlagLine): string {
  return `${line.t} s ${flagName(line)}`;
}
