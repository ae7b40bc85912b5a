/** Predictions beside what happened: credit by instant, order and number. Tolerances are the product's own marking rule. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HALF_WITHIN, matched, predictionScore, toleranceS } from '../../src/exercise/predict/match.ts';

const truth = (atS: number, on: boolean, delayS = 0) => ({ atS, on, delayS });

describe('a foretold switching', () => {
  it('earns all within the larger of 5 s and a twentieth of its delay, half within three times as much', () => {
    expect(toleranceS(0, 0)).toBe(5);
    expect(toleranceS(900, 5)).toBe(45);
    const credit = (apartS: number) =>
      matched([truth(1000, false, 300)], [{ atS: 1000 + apartS, on: false }], 5)[0]!.credit;
    expect(credit(15)).toBe(1);
    expect(credit(-15)).toBe(1);
    expect(credit(16)).toBe(0.5);
    expect(credit(15 * HALF_WITHIN)).toBe(0.5);
    expect(credit(15 * HALF_WITHIN + 1)).toBe(0);
  });

  it('earns nothing in the other direction', () => {
    const judged = matched([truth(100, false)], [{ atS: 100, on: true }], 5);
    expect(predictionScore(judged)).toBe(0);
    expect(judged).toHaveLength(2);
  });

  it('is paired with its own partner when one before it was forgotten', () => {
    const truths = [truth(100, false), truth(200, true), truth(300, false)];
    const judged = matched(
      truths,
      [
        { atS: 200, on: true },
        { atS: 300, on: false },
      ],
      5,
    );
    expect(judged.map(({ credit }) => credit)).toEqual([0, 1, 1]);
  });

  it('of six with one release 300 s early and one forgotten gives four sixths', () => {
    const rows = matched(
      [truth(0, true), truth(10, true), truth(900, false, 300), truth(1500, false, 600)],
      [
        { atS: 0, on: true },
        { atS: 10, on: true },
        { atS: 600, on: false },
        { atS: 1500, on: false },
      ],
      5,
    );
    const air = matched([truth(30, true, 30), truth(2400, false, 900)], [{ atS: 30, on: true }], 5);
    expect(predictionScore([...rows, ...air])).toBeCloseTo(66.7, 1);
  });

  it('costs points when it never comes: the larger count is the measure', () => {
    const judged = matched(
      [truth(100, false)],
      [
        { atS: 100, on: false },
        { atS: 200, on: true },
      ],
      5,
    );
    expect(predictionScore(judged)).toBe(50);
  });

  it('never earns more than one, pairs never cross, and nothing is lost, whatever was foretold', () => {
    const edge = fc.record({ atS: fc.integer({ min: 0, max: 600 }), on: fc.boolean() });
    const list = fc.array(edge, { maxLength: 8 }).map((edges) => edges.sort((a, b) => a.atS - b.atS));
    fc.assert(
      fc.property(list, list, (truths, said) => {
        const judged = matched(
          truths.map((t) => ({ ...t, delayS: 60 })),
          said,
          5,
        );
        expect(judged.filter((j) => j.truth)).toHaveLength(truths.length);
        expect(judged.filter((j) => j.said)).toHaveLength(said.length);
        expect(judged.flatMap((j) => (j.truth ? [j.truth.atS] : []))).toEqual(truths.map((t) => t.atS));
        expect(judged.flatMap((j) => (j.said ? [j.said.atS] : []))).toEqual(said.map((s) => s.atS));
        const score = predictionScore(judged);
        expect(score).toBeGreaterThanOrEqual(0);
        expect(score).toBeLessThanOrEqual(100);
      }),
      { numRuns: 200 },
    );
  });
});
