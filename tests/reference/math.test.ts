/**
 * engine/math.ts against values to 60 digits. The values were made by tests/support/makeMathReference.ts (series in
 * whole-number arithmetic) and agree with mpmath 1.3.0 at 700 digits in all 60 (compared once, 449 rows, worst
 * relative difference 5e-60).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as engineMath from '../../src/engine/math.ts';
import { MATH_DIGEST, mathDigest } from '../support/mathDigest.ts';
import { ulpError } from '../support/ulp.ts';

interface Row {
  function: keyof typeof FUNCTIONS;
  arguments: number[];
  value: string;
}

const { sin, cos, tan, asin, acos, atan, atan2, exp, log, pow, cbrt } = engineMath;
const FUNCTIONS = { sin, cos, tan, asin, acos, atan, atan2, exp, log, pow, cbrt };

/** Bounds in ulps, and in the comment the worst of the rows (SHOW_ULPS=1 prints them). */
const BOUND_ULP = {
  sin: 1, // 0.49
  cos: 1, // 0.54
  tan: 1, // 0.54
  asin: 1, // 0.59
  acos: 1, // 0.71
  atan: 1, // 0.48
  atan2: 1, // 0.96: the quotient is rounded before the arc tangent
  exp: 1, // 0.67
  log: 1, // 0.50
  pow: 1, // 0.57
  cbrt: 1, // 0.46
};

const rows = JSON.parse(readFileSync(new URL('./math.json', import.meta.url), 'utf8')) as Row[];

describe('the engine’s own functions', () => {
  for (const [name, bound] of Object.entries(BOUND_ULP)) {
    it(`${name} stays within ${bound} ulp of the 60-digit values`, () => {
      const own = rows.filter((row) => row.function === name);
      expect(own.length).toBeGreaterThanOrEqual(30);
      const call = FUNCTIONS[name as keyof typeof FUNCTIONS] as (x: number, y?: number) => number;
      const worst = own
        .map((row) => ({ row, ulps: ulpError(call(row.arguments[0]!, row.arguments[1]), row.value) }))
        .reduce((a, b) => (b.ulps > a.ulps ? b : a));
      if (process.env.SHOW_ULPS) console.log(name, worst.ulps, worst.row.arguments);
      expect(worst.ulps, JSON.stringify(worst.row)).toBeLessThanOrEqual(bound);
    });
  }

  it('leaves no function of math.ts and no row unchecked', () => {
    const plain = ['sqrt', 'hypot2', 'hypot3', 'clamp', 'lerp'];
    const exported = Object.entries(engineMath).filter(([, value]) => typeof value === 'function');
    expect(
      exported
        .map(([name]) => name)
        .filter((name) => !(name in FUNCTIONS))
        .sort(),
    ).toEqual(plain.sort());
    expect(rows.filter((row) => !(row.function in FUNCTIONS))).toEqual([]);
  });

  it('gives, bit for bit, the digest that every host must give', () => {
    expect(mathDigest()).toBe(MATH_DIGEST);
  });

  it('notices a single wrong bit', () => {
    expect(ulpError(0.1, '1.00000000000000005551115123125782702118158340454101562500000e-1')).toBe(0);
    expect(ulpError(0.10000000000000002, '1.00000000000000005551115123125782702118158340454101562500000e-1')).toBe(1);
  });
});
