import { describe, expect, it } from 'vitest';
import { contours, type RaySamples } from '../../../src/exercise/reach/contour.ts';

/** Twelve rays with places every metre up to 5 m; a wall 5.5 m away. */
function rays(share: (bearingDeg: number, radiusM: number) => number): RaySamples[] {
  return Array.from({ length: 12 }, (_, i) => {
    const bearingDeg = 15 + 30 * i;
    const radiusM = [1, 2, 3, 4, 5];
    return { bearingDeg, limitM: 5.5, radiusM, share: radiusM.map((r) => share(bearingDeg, r)) };
  });
}

describe('the line around what is seen', () => {
  it('is one closed ring half way between the last place seen and the first not seen', () => {
    const [ring, ...others] = contours(rays((_, r) => (r <= 3 ? 1 : 0)));
    expect(others).toEqual([]);
    expect(ring).toHaveLength(13);
    expect(ring![0]![1]).toBe(ring![12]![1]);
    for (const [, radiusM] of ring!) expect(radiusM).toBeCloseTo(3.5, 9);
  });

  it('lies where the share passes one half', () => {
    const [ring] = contours(rays((_, r) => (r <= 2 ? 1 : r === 3 ? 0.6 : 0.2)));
    for (const [, radiusM] of ring!) expect(radiusM).toBeCloseTo(3.25, 9);
  });

  it('runs along the wall where everything up to it is seen', () => {
    const [ring] = contours(rays(() => 1));
    for (const [, radiusM] of ring!) expect(radiusM).toBe(5.5);
  });

  it('goes round a place that is not seen as a ring of its own', () => {
    const lines = contours(rays((b, r) => (b === 105 && r === 3 ? 0 : 1)));
    expect(lines).toHaveLength(2);
    const hole = lines.find((line) => line.length === 5)!;
    expect(hole[0]).toEqual(hole[4]);
    expect(hole.slice(0, 4).sort()).toEqual([
      [105, 2.5],
      [105, 3.5],
      [120, 3],
      [90, 3],
    ]);
  });

  it('stays open where a slice is not seen at all', () => {
    const lines = contours(rays((b, r) => (b > 60 && b < 120 ? 0 : r <= 3 ? 1 : 0)));
    expect(lines).toHaveLength(1);
    const [line] = lines;
    expect(line![0]).not.toEqual(line!.at(-1));
    // Both ends reach in to the nearest places that were tried, at the edges of the slice.
    for (const [bearingDeg, radiusM] of [line![0]!, line!.at(-1)!]) {
      expect(radiusM).toBe(1);
      expect([60, 120]).toContain(bearingDeg);
    }
    for (const [bearingDeg] of line!) expect(bearingDeg > 60 && bearingDeg < 120).toBe(false);
  });

  it('of nothing seen is nothing', () => {
    expect(contours(rays(() => 0))).toEqual([]);
  });
});
