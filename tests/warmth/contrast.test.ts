import { describe, expect, it } from 'vitest';
import { equivalentK, excessRadiance, glassInsideC, sunWarmedK } from '../../src/engine/heat/contrast.ts';
import { areaM2, clipConvex, hullOf, rectangle } from '../../src/engine/room/clip.ts';
import { sunOnLevel } from '../../src/engine/stillSurfaces.ts';
import { bareRoom } from '../detection/stage.ts';

describe('contrast in kelvin', () => {
  /** Independent: Simpson's rule over Planck's spectral radiance, 8-14 um, SI constants. */
  function bandRadiance(kelvin: number): number {
    const spectral = (m: number) => {
      const x = 0.01438776877 / (m * kelvin);
      return (2 * 6.62607015e-34 * 299792458 ** 2) / m ** 5 / (Math.exp(x) - 1);
    };
    const [from, to, n] = [8e-6, 14e-6, 400];
    const h = (to - from) / n;
    let sum = spectral(from) + spectral(to);
    for (let i = 1; i < n; i++) sum += (i % 2 ? 4 : 2) * spectral(from + i * h);
    return (sum * h) / 3;
  }

  it('is the difference of radiance by Planck over its slope at the background', () => {
    const slope = (bandRadiance(295.16) - bandRadiance(295.14)) / 0.02;
    const delta = bandRadiance(305.15) - bandRadiance(295.15);
    expect(excessRadiance(10, 22)).toBeCloseTo(delta, 4);
    // Series and quadrature agree to 1e-5; the slope here is a difference quotient.
    expect(equivalentK(delta, 22)).toBeCloseTo(delta / slope, 2);
  });

  it('is the true difference for small ones, and more than it for large ones', () => {
    expect(equivalentK(excessRadiance(0.1, 20), 20)).toBeCloseTo(0.1, 3);
    expect(equivalentK(excessRadiance(40, 20), 20)).toBeGreaterThan(44);
    expect(equivalentK(excessRadiance(-20, 20), 20)).toBeGreaterThan(-20);
  });

  /** Closed form: temperature factor 1 - U R_si, as ISO 13788 defines it (from memory); 2.8 x .13 = .364. */
  it('puts old double glazing at 11 °C when it freezes by 5 K outside', () => {
    expect(glassInsideC(20, -5, 2.8)).toBeCloseTo(20 - 25 * 0.364, 9);
    expect(glassInsideC(20, 20)).toBe(20);
  });

  it('warms a surface in the sun in proportion to what it absorbs', () => {
    // By hand: 10500 lx are 100 W/m2; half of it stays, .65 of that goes up through 10 W/m2K.
    expect(sunWarmedK(10_500, 0.5)).toBeCloseTo(3.25, 9);
    expect(sunWarmedK(10_500, 1)).toBe(0);
  });
});

describe('outlines', () => {
  it('cut as squares do', () => {
    const shared = clipConvex(rectangle(0, 0, 2, 2), rectangle(1, 1, 3, 3));
    expect(areaM2(shared)).toBeCloseTo(1, 12);
    expect(clipConvex(rectangle(0, 0, 1, 1), rectangle(2, 2, 3, 3))).toEqual([]);
  });

  it('have a hull that leaves inner points out', () => {
    expect(hullOf([...rectangle(0, 0, 1, 1), [0.5, 0.5]])).toHaveLength(4);
  });

  /** Closed form: at 45 degrees a point h above the floor throws its light h away; a reveal d cuts d off its height. */
  it('put the sun through a deep reveal where a ruler would', () => {
    const room = bareRoom([8, 6, 3]);
    const window = {
      ...{ id: 'w', wall: 'back' as const, fromM: 2, widthM: 2, sillM: 1, headM: 2 },
      ...{ transmittance: 0.7, frameFactor: 0.8, dirtFactor: 0.9, revealM: 0.3 },
    };
    const patch = sunOnLevel(room, window, { altitudeDeg: 45, bearingDeg: 0, directNormalLx: 5e4 }, 0);
    const ys = patch.map(([, y]) => y);
    // Outer rim: y = 6.3 - z; inner rim: y = 6 - z, z from 1 to 2. Shared: 4.3 to 5.
    expect(Math.min(...ys)).toBeCloseTo(4.3, 9);
    expect(Math.max(...ys)).toBeCloseTo(5, 9);
    expect(areaM2(patch)).toBeCloseTo(2 * 0.7, 9);
    expect(sunOnLevel(room, window, { altitudeDeg: 45, bearingDeg: 180, directNormalLx: 5e4 }, 0)).toEqual([]);
  });
});
