import { describe, expect, it } from 'vitest';
import { createLab, type Lab, labPerson, peakWhile, placeAt, startWatch } from '../../src/exercise/reach/lab.ts';
import { DOME } from './stage.ts';

const lab = createLab({ model: DOME, mountingHeightM: 3, roomTemperatureC: 20 });
const fineLab: Lab = { ...lab, tables: { ...lab.tables, fineness: 16 } };

function peakUv(at: Lab, radiusM: number, bearing: number): number {
  const plan = [{ act: 'walk' as const, toM: placeAt(at, radiusM, bearing, 0.7), speedMps: 1 }];
  const person = labPerson(at, placeAt(at, radiusM, bearing, -0.7), plan, bearing + 90);
  return peakWhile(startWatch(at, [person], 1, false), 1.8);
}

describe('the grid around a body', () => {
  it('finds the peak of the signal as a sixteen times finer one does: 1 % off in half of the cases, 3 % in nine of ten', () => {
    const errors = [0.8, 1.5, 3, 5, 8, 11].flatMap((radiusM) =>
      [10, 47, 75, 133, 190, 278].map((bearing) => {
        const fine = peakUv(fineLab, radiusM, bearing);
        return Math.abs(peakUv(lab, radiusM, bearing) - fine) / fine;
      }),
    );
    errors.sort((a, b) => a - b);
    expect(errors[Math.floor(errors.length * 0.5)]).toBeLessThan(0.01);
    expect(errors[Math.floor(errors.length * 0.9)]).toBeLessThan(0.03);
    expect(errors[errors.length - 1]).toBeLessThan(0.06);
  });
});
