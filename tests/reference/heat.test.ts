/** Outside truth of heat radiation and of clothed surfaces. */
import { describe, expect, it } from 'vitest';
import { clothingSurfaceC } from '../../src/engine/heat/comfort.ts';
import {
  bandRadiance8to14,
  bandRadianceFast,
  bandRadianceSlope,
  blackbodyFraction,
} from '../../src/engine/heat/planck.ts';
import { heatRows } from '../../src/engine/heat/rows.ts';
import rows from './physics.json' with { type: 'json' };

interface Row {
  id: string;
  quantity: string;
  inputs: Record<string, unknown>;
  expected: unknown;
  tolerance: { abs?: number; rel?: number };
  source: string;
}

const ours = (rows as Row[]).filter((row) => row.quantity in heatRows);

describe('reference rows of heat', () => {
  for (const row of ours) {
    it(`${row.id} (${row.source})`, () => {
      const got = heatRows[row.quantity]!(row.inputs);
      const expected = row.expected as number;
      const allowed = row.tolerance.abs ?? Math.abs(expected) * row.tolerance.rel!;
      expect(Math.abs((got as number) - expected)).toBeLessThanOrEqual(allowed);
    });
  }

  it('leaves no quantity of ours without a row', () => {
    for (const quantity of Object.keys(heatRows)) {
      expect(ours.filter((row) => row.quantity === quantity).length, quantity).toBeGreaterThanOrEqual(3);
    }
  });
});

/** Printed fractions below lambda T. Source: tables in Siegel and Howell and in Incropera, from memory; those tables use
 *  a slightly older second radiation constant, hence the tolerance of 6e-5. */
const FRACTIONS = [
  [1000, 0.000321],
  [2000, 0.066728],
  [2400, 0.140256],
  [2898, 0.250108],
  [4000, 0.480877],
  [6000, 0.737818],
  [10000, 0.914199],
] as const;

describe('radiation of a black surface', () => {
  it.each(FRACTIONS)('emits, below %d um K, the printed share %d', (lambdaT, share) => {
    expect(Math.abs(blackbodyFraction(lambdaT) - share)).toBeLessThan(6e-5);
  });

  it('agrees with a quadrature of Planck’s law over 8-14 um to one part in 10^8', () => {
    // Source: Planck's law with CODATA 2018 h, c, k; Simpson, 2000 intervals.
    const h = 6.62607015e-34;
    const c = 299792458;
    const k = 1.380649e-23;
    for (const tC of [-10, 5, 20, 34, 60]) {
      const tK = tC + 273.15;
      const planck = (m: number) => (2 * h * c * c) / m ** 5 / Math.expm1((h * c) / (m * k * tK));
      const n = 2000;
      const step = 6e-6 / n;
      let sum = 0;
      for (let i = 0; i <= n; i++) {
        sum += planck(8e-6 + i * step) * (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2);
      }
      expect(Math.abs(bandRadiance8to14(tC) / ((sum * step) / 3) - 1)).toBeLessThan(1e-8);
    }
  });

  it('has the slope of its own difference quotient', () => {
    for (const tC of [-20, 0, 22, 36]) {
      const quotient = (bandRadiance8to14(tC + 0.01) - bandRadiance8to14(tC - 0.01)) / 0.02;
      expect(Math.abs(bandRadianceSlope(tC) / quotient - 1)).toBeLessThan(1e-6);
    }
  });

  it('is the same by the quick table to 1e-7, and outside the table exactly', () => {
    let worst = 0;
    for (let tC = -39.9; tC < 80; tC += 0.37) {
      worst = Math.max(worst, Math.abs(bandRadianceFast(tC) - bandRadiance8to14(tC)));
    }
    expect(worst).toBeLessThan(1e-7);
    expect(bandRadianceFast(95)).toBe(bandRadiance8to14(95));
    expect(bandRadianceFast(-60)).toBe(bandRadiance8to14(-60));
  });
});

describe('clothed surface by ISO 7730:2005', () => {
  it('without clothes is the skin itself', () => {
    const climate = { airC: 24, radiantC: 24, airSpeedMps: 0.1 };
    expect(clothingSurfaceC(climate, 1.2, 0)).toBeCloseTo(35.7 - 0.028 * 1.2 * 58.15, 6);
  });

  it('gets nearer to the room with more clothing and with more wind', () => {
    const at = (clo: number, airSpeedMps: number) =>
      clothingSurfaceC({ airC: 21, radiantC: 21, airSpeedMps }, 1.2, clo);
    expect(at(1, 0.1)).toBeLessThan(at(0.5, 0.1));
    expect(at(1, 0.4)).toBeLessThan(at(1, 0.1));
  });
});
