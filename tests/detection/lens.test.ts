import { describe, expect, it } from 'vitest';
import { bakeAngularMap, weightM2 } from '../../src/engine/detection/angularMap.ts';
import { imageOf, lensFacets } from '../../src/engine/detection/lens.ts';
import type { DetectorModel, Vector3 } from '../../src/engine/types.ts';
import { DOME } from './stage.ts';

const deg = Math.PI / 180;
const towards = (nadirDeg: number, bearingDeg: number): Vector3 => [
  Math.sin(nadirDeg * deg) * Math.sin(bearingDeg * deg),
  Math.sin(nadirDeg * deg) * Math.cos(bearingDeg * deg),
  -Math.cos(nadirDeg * deg),
];

/** One facet on each module's axis. */
const oneFacet = (nadirDeg: number): DetectorModel => ({
  ...DOME,
  rings: [{ nadirDeg, facets: 4, areaCm2: 0.2, staggerPitch: 0.5 }],
});

/** Where the weight of the middle of a + half crosses half its largest value, going outwards along its bearing. */
function halfPowerEdgesDeg(nadirDeg: number): number[] {
  const model = oneFacet(nadirDeg);
  const map = bakeAngularMap(model);
  const facet = lensFacets(model)[0]!;
  const middle = imageOf(model, facet, model.elementSpacingMm / 2, 0);
  // The half's middle line: element points along its length.
  const steps = Array.from({ length: 2001 }, (_, k) => (k / 1000 - 1) * 2);
  const profile = steps.map((alongMm) => {
    const d = imageOf(model, facet, model.elementSpacingMm / 2, alongMm);
    return { nadir: Math.acos(-d[2]) / deg, w: weightM2(map, 0, d) };
  });
  const half = weightM2(map, 0, middle) / 2;
  return profile.flatMap((p, k) => {
    const before = profile[k - 1];
    if (!before || (before.w - half) * (p.w - half) > 0) return [];
    return [before.nadir + ((half - before.w) / (p.w - before.w)) * (p.nadir - before.nadir)];
  });
}

describe('the lens', () => {
  // Closed form on the module's axis: edge at atan(l cos(nadir - tilt) / 2f) from the facet's direction (pinhole image).
  for (const nadirDeg of [79, 61, 40, 26]) {
    it(`has its half-power edges at ${nadirDeg} degrees where the pinhole image of the element ends`, () => {
      const model = oneFacet(nadirDeg);
      const facet = lensFacets(model)[0]!;
      const expected = [1, -1].map((end) => {
        const d = imageOf(model, facet, model.elementSpacingMm / 2, (end * model.elementLengthMm) / 2);
        return Math.acos(-d[2]) / deg;
      });
      const halfAngle = Math.atan((model.elementLengthMm * Math.cos((nadirDeg - 50) * deg)) / 2 / 30) / deg;
      const found = halfPowerEdgesDeg(nadirDeg).sort((a, b) => a - b);
      expect(found).toHaveLength(2);
      expected.sort((a, b) => a - b);
      // Remaining error: pixels of 0.1-0.2 degrees, read bilinearly.
      expect(Math.abs(found[0]! - expected[0]!)).toBeLessThan(0.06);
      expect(Math.abs(found[1]! - expected[1]!)).toBeLessThan(0.06);
      // The pair's middle line is a little off the axis plane, hence the wider band for the textbook angle.
      expect(Math.abs((found[1]! - found[0]!) / 2 - halfAngle)).toBeLessThan(0.1);
    });
  }

  it('gathers from a filled beam what conservation of radiance says', () => {
    for (const nadirDeg of [79, 47, 26]) {
      const model = oneFacet(nadirDeg);
      const map = bakeAngularMap(model);
      let plus = 0;
      let minus = 0;
      for (let j = 0; j < map.heightPx; j++) {
        for (let i = 0; i < map.widthPx; i++) {
          const x = (i + 0.5) / map.pxPerUnit + map.leftX;
          const y = (j + 0.5) / map.pxPerUnit + map.lowY;
          // Solid angle of a pixel of a plane at distance 1: (1 + x2 + y2)^-3/2 dx dy.
          const w = map.weightsM2[j * map.widthPx + i]! / (1 + x * x + y * y) ** 1.5 / map.pxPerUnit ** 2;
          if (w > 0) plus += w;
          else minus += w;
        }
      }
      const filled = (0.55 * 0.2e-4 * 1 * 2 * Math.cos((nadirDeg - 50) * deg)) / 30 ** 2;
      // Remaining error: the element is flat, so its image's solid angle is 1-2 % under w l cos / f2 off the axis.
      expect(plus / filled).toBeGreaterThan(0.97);
      expect(plus / filled).toBeLessThan(1.01);
      expect(Math.abs(plus + minus) / plus).toBeLessThan(1e-3);
    }
  });

  it('looks the same from every quadrant, a quarter turn on', () => {
    const map = bakeAngularMap(DOME);
    for (let k = 0; k < 200; k++) {
      const nadir = 4 + ((k * 37) % 78);
      const bearing = (k * 61.7) % 90;
      const w = weightM2(map, 0, towards(nadir, bearing));
      for (let q = 1; q < 4; q++) expect(weightM2(map, q, towards(nadir, bearing + 90 * q))).toBeCloseTo(w, 12);
    }
  });

  it('is buildable: its facets are no larger than the dome', () => {
    const total = DOME.rings.reduce((sum, ring) => sum + ring.facets * ring.areaCm2, 0);
    // Cap of a sphere of the focal length's radius down to 85 degrees.
    expect(total).toBeLessThan(2 * Math.PI * 3 ** 2 * (1 - Math.cos(85 * deg)));
  });

  it('refuses a ring that four quadrants cannot share', () => {
    const model = { ...DOME, rings: [{ nadirDeg: 40, facets: 10, areaCm2: 0.1, staggerPitch: 0 }] };
    expect(() => lensFacets(model)).toThrow(/rings\[0\]: facets must be a multiple of 4/);
  });
});
