/** Tables of outside truth about light: each row says what it is, what it must be, how near, by whom, and why not nearer. */
import { describe, expect, it } from 'vitest';

export type LightRow = [
  what: string,
  /** The engine's answer, in the unit of `expected`. */
  got: () => number,
  expected: number,
  /** Allowed difference, relative. */
  within: number,
  /** Published value or closed form behind `expected`. */
  source: string,
  /** What the model neglects, or what the expected value lacks: why `within` is not zero. */
  cause: string,
];

export function checkTable(title: string, rows: LightRow[]): void {
  describe(title, () => {
    for (const [what, got, expected, within, source, cause] of rows) {
      it(`${what}: ${Number(expected.toPrecision(6))} within ${percent(within)} (${source}; rest: ${cause})`, () => {
        const value = got();
        expect(Math.abs(value / expected - 1), `got ${value}, expected ${expected}`).toBeLessThan(within);
      });
    }
  });
}

function percent(share: number): string {
  return `${Number((share * 100).toPrecision(3))} %`;
}
