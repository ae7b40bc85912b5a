import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautions } from '../../src/app/panels/kit/cautions.ts';
import { topPoint } from '../../src/app/scene/pick.ts';
import type { ProbeReading } from '../../src/engine/light/probePlace.ts';
import { lookWords, meterText, placeWords, splitWords, wholeParts } from '../../src/report/text/lux.ts';

const NONE: ProbeReading = {
  id: '1',
  daylightLx: 0,
  sunLx: 0,
  innerRowLx: 0,
  windowRowLx: 0,
  doorLx: 0,
  covered: false,
};
const DESKS = [{ id: 'c', label: 'Desk C', row: 'inner' as const, atM: [2, 2] as [number, number], heightM: 0.74 }];
const ON_DESK = { atM: [2.1, 2.1] as [number, number], heightM: 0.74, tiltDeg: 0 };

describe('a lux meter', () => {
  it('shows three figures, tenths only under ten lux', () => {
    expect([0, 0.04, 3.14, 9.96, 49.6, 312.4, 999.7, 1234, 8027, 12_345].map(meterText)).toEqual([
      '0.0 lx',
      '0.0 lx',
      '3.1 lx',
      '10 lx',
      '50 lx',
      '312 lx',
      '1 000 lx',
      '1 230 lx',
      '8 030 lx',
      '12 300 lx',
    ]);
  });

  it('says where it is, how it looks and what its light is made of', () => {
    expect(placeWords([2.1, 2.1], 0.74, { deskPoints: DESKS })).toBe(
      'at Desk C, 2.1 m from the left wall, 2.1 m from the front wall, 0.74 m up',
    );
    expect(placeWords([1, 1], 0, null)).toContain('on the floor');
    expect([lookWords(0, 0), lookWords(90, 90), lookWords(90, 45)]).toEqual([
      'facing up',
      'upright, facing the right wall',
      'upright, facing between the back wall and the right wall',
    ]);
    expect(splitWords({ ...NONE, daylightLx: 300, sunLx: 200, innerRowLx: 400 })).toBe(
      'Inner row 400 · daylight 300, of it sun 200',
    );
  });
});

describe('parts of a reading in whole lux', () => {
  it('add up to the rounded sum, each within one lux of itself', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 3000, noNaN: true }), { minLength: 1, maxLength: 8 }), (parts) => {
        const whole = wholeParts(parts);
        expect(whole.reduce((a, b) => a + b, 0)).toBe(Math.round(parts.reduce((a, b) => a + b, 0)));
        for (const [i, lx] of whole.entries()) expect(Math.abs(lx - parts[i]!)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('the help for the desk factor', () => {
  const kinds = (reading: Partial<ProbeReading>, meter = ON_DESK, row: 'inner' | 'window' = 'inner') =>
    cautions({ ...NONE, ...reading }, meter, row, DESKS).map(({ kind }) => kind);

  it('has nothing to say about daylight on a desk of the row, lamps off and no sun', () => {
    expect(kinds({ daylightLx: 400 })).toEqual([]);
  });

  it('warns at night under lamps, of own lamps, of the other row and of sun, each by its share of the reading', () => {
    expect(kinds({ daylightLx: 5, innerRowLx: 500 })).toEqual(['dark', 'own']);
    expect(kinds({ daylightLx: 300, innerRowLx: 500 })).toEqual(['own']);
    expect(kinds({ daylightLx: 300, windowRowLx: 100 })).toEqual(['other']);
    expect(kinds({ daylightLx: 9000, sunLx: 7000 })).toEqual(['sun']);
  });

  it('warns of a tilted meter, and of one that lies elsewhere or on a desk of the other row', () => {
    expect(kinds({ daylightLx: 300 }, { ...ON_DESK, tiltDeg: 15 })).toEqual(['tilted']);
    expect(kinds({ daylightLx: 300 }, { ...ON_DESK, heightM: 0 })).toEqual(['elsewhere']);
    expect(kinds({ daylightLx: 300 }, ON_DESK, 'window')).toEqual(['elsewhere']);
  });
});

describe('a tap with a lux meter in hand', () => {
  const table = {
    furnitureId: 't',
    minM: [1, 1, 0.71] as [number, number, number],
    maxM: [2, 2, 0.74] as [number, number, number],
  };
  const down = (x: number, y: number) => ({
    origin: [x, y, 5] as [number, number, number],
    direction: [0, 0, -1] as [number, number, number],
  });

  it('lands on the top that the eye sees, past the rim of a round one on the floor', () => {
    expect(topPoint(down(1.5, 1.5), [table], new Set())).toEqual({ atM: [1.5, 1.5], heightM: 0.74 });
    expect(topPoint(down(1.05, 1.05), [table], new Set())).not.toBeNull();
    expect(topPoint(down(1.05, 1.05), [table], new Set(['t']))).toBeNull();
    expect(topPoint(down(3, 3), [table], new Set())).toBeNull();
  });
});
