import { describe, expect, it } from 'vitest';
import { countedPulseS, inTurn, otherPulseS } from '../../../src/app/state/job/edges.ts';
import type { Given } from '../../../src/exercise/predict/given.ts';

const given = { seenS: [10, 10.2, 40, 100] } as Given;

describe('edges being foretold', () => {
  it('are in order, none twice, off and on in turn from how the output begins', () => {
    const edges = [90, 30, 60, 30].map((atS) => ({ atS, on: true }));
    expect(inTurn(edges, true)).toEqual([
      { atS: 30, on: false },
      { atS: 60, on: true },
      { atS: 90, on: false },
    ]);
    expect(inTurn(edges, false).map(({ on }) => on)).toEqual([true, false, true]);
  });

  it('step from pulse to pulse, and stand still where there is none further', () => {
    expect(otherPulseS(given, 10.2, 1)).toBe(40);
    expect(otherPulseS(given, 40, -1)).toBe(10.2);
    expect(otherPulseS(given, 100, 1)).toBeNull();
    expect(otherPulseS(given, 10, -1)).toBeNull();
  });

  it('know the pulse that they stand a delay after', () => {
    expect(countedPulseS(given, { atS: 340, on: false }, 300)).toBe(40);
    expect(countedPulseS(given, { atS: 341, on: false }, 300)).toBeNull();
  });
});
