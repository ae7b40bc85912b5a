import { describe, expect, it } from 'vitest';
import { fluxForPulseW, sightOfBodies } from '../../src/engine/detection/bodySight.ts';
import { createBodyBuffer } from '../../src/engine/types.ts';
import { createStage, DOME, fillBuffer, MANIKIN, peakUv, runStage, setRadiance } from './stage.ts';

const stage = createStage();
const { hold } = stage.tables.thresholdsUv;

/** How many times what a pulse needs a body gives at its best pace, at a radius from the detector. */
function strengthAt(radiusM: number, share: number): number {
  const buffer = createBodyBuffer(1);
  fillBuffer(buffer, [{ owner: 0, atM: [20 + radiusM, 20], parts: MANIKIN }]);
  const radiance = new Float64Array(5);
  setRadiance(radiance, 0, share);
  const [sight] = sightOfBodies(stage.tables, buffer, radiance, []);
  return sight!.bestFluxW / fluxForPulseW(stage.tables, DOME, hold);
}

/** Largest signal of walks across the beams there, at four paces, µV. */
function walkedUv(radiusM: number, share: number): number {
  const peaks = [0.3, 0.7, 1.2, 2].map((mps) => {
    const walk = createStage();
    setRadiance(walk.radiance, 0, share);
    const run = runStage(walk, Math.ceil(30 / mps), (step) => [
      { owner: 0, atM: [20 + radiusM, 18.5 + mps * step * 0.02], parts: MANIKIN },
    ]);
    return peakUv(run);
  });
  return Math.max(...peaks);
}

describe('contrast that the detector can use', () => {
  it('grows in proportion to the radiance', () => {
    expect(strengthAt(4, 0.5) / strengthAt(4, 1)).toBeCloseTo(0.5, 6);
  });

  it('is too little where no walk across the beams gives a pulse, and enough where it is four times as much', () => {
    for (const radiusM of [2.5, 4, 6, 9]) {
      const full = strengthAt(radiusM, 1);
      expect(walkedUv(radiusM, 0.85 / full)).toBeLessThan(hold);
      expect(walkedUv(radiusM, 4 / full)).toBeGreaterThan(hold);
    }
  });

  it('counts every direction once: a small sphere has the solid angle of its disc', () => {
    const buffer = createBodyBuffer(1);
    for (const [x, y] of [
      [3, 0],
      [0, 3],
      [2, 2],
    ] as const) {
      fillBuffer(buffer, [
        { owner: 0, atM: [20 + x, 20 + y], parts: [{ kind: 'thing', centreM: [0, 0, 1], halfM: [0.1, 0.1, 0.1] }] },
      ]);
      const [sight] = sightOfBodies(stage.tables, buffer, new Float64Array(5), []);
      const far2 = x * x + y * y + 4;
      // Rows of cells: 3 %.
      expect(sight!.totalSr / ((Math.PI * 0.01) / far2)).toBeGreaterThan(0.97);
      expect(sight!.totalSr / ((Math.PI * 0.01) / far2)).toBeLessThan(1.03);
      expect(sight!.freeSr).toBeCloseTo(sight!.totalSr, 9);
    }
  });
});
