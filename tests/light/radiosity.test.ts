import { describe, expect, it } from 'vitest';
import { absorbedLm, lampsElementLx, lightUp } from '../../src/engine/light/balance.ts';
import { closedBox, daylightLx, invariantRows, trialOutside, trialRoom } from '../../src/engine/light/invariants.ts';

const invariant = (name: string, more = {}) => invariantRows.lightInvariant!({ case: name, ...more }) as number;

describe('identities of the whole calculation', () => {
  it('adds sources without remainder', () => {
    expect(invariant('superpositionError')).toBeLessThan(1e-12);
  });

  it('loses nothing in a closed room', () => {
    expect(Math.abs(invariant('energyBalanceClosedRoom') - 1)).toBeLessThan(1e-4);
  });

  it('loses at most 0.5 % of what lamps and sky bring into a room with openings', () => {
    expect(Math.abs(invariant('energyBalanceRoomWithOpenings') - 1)).toBeLessThan(5e-3);
  });

  it('keeps the lamps in balance at any reflectance', () => {
    for (const rho of [0, 0.3, 0.6, 0.95]) {
      const lit = lightUp(closedBox([5, 4, 2.8], rho, 3000));
      expect(Math.abs(absorbedLm(lit, lampsElementLx(lit)) / 3000 - 1)).toBeLessThan(1e-3);
    }
  });

  for (const skyType of [1, 3, 5, 16]) {
    it(`reads the same under sky ${skyType} when the building is turned`, () => {
      expect(Math.abs(invariant('overcastRotationRatio', { skyType }) - 1)).toBeLessThan(1e-6);
    });
  }

  it('reads differently under a clear sky when the building is turned', () => {
    const light = trialOutside(12, 10_000, 0);
    const [before] = daylightLx(lightUp(trialRoom()), light);
    const [after] = daylightLx(lightUp(trialRoom({ yBearingDeg: 230 })), light);
    expect(after! / before!).toBeGreaterThan(1.5);
  });

  it('has no reflected light at all in a black room', () => {
    expect(invariant('blackRoomIndirect')).toBe(0);
  });

  it('doubles with lamps and with the sky', () => {
    expect(invariant('doubleLampFlux')).toBeCloseTo(2, 9);
    expect(invariant('doubleSkyIlluminance')).toBeCloseTo(2, 9);
  });

  it('reads pi L in a uniform field, with every weighting', () => {
    expect(Math.abs(invariant('uniformFieldSensor') - 1)).toBeLessThan(1e-3);
  });

  it('refuses a case it does not know', () => {
    expect(() => invariant('perpetualMotion')).toThrow(/case/);
  });
});

describe('mesh', () => {
  it('moves no sensor by more than 3 % when elements, cells and rays double', () => {
    const light = trialOutside(12, 9000, 50_000);
    const coarse = lightUp(trialRoom());
    const fine = lightUp(trialRoom(), 2);
    const coarseDay = daylightLx(coarse, light);
    daylightLx(fine, light).forEach((lx, s) => {
      expect(Math.abs(coarseDay[s]! / lx - 1), `daylight of ${coarse.scene.sensors[s]!.id}`).toBeLessThan(0.03);
      fine.sensors[s]!.lampLx.forEach((lampLx, group) => {
        expect(Math.abs(coarse.sensors[s]!.lampLx[group]! / lampLx - 1)).toBeLessThan(0.03);
      });
    });
  });

  it('gives windows exactly their glass area', () => {
    const { mesh } = lightUp(trialRoom()).geometry;
    const area = [0, 0];
    for (let e = 0; e < mesh.count; e++) {
      const opening = mesh.opening[e]!;
      if (opening >= 0) area[opening]! += mesh.areaM2[e]!;
    }
    expect(area[0]).toBeCloseTo(3 * 1.4, 9);
    expect(area[1]).toBeCloseTo(0.8 * 0.6, 9);
  });

  it('hides what stands in furniture: floor under a cabinet has no area', () => {
    const { mesh } = lightUp(trialRoom()).geometry;
    let floor = 0;
    for (let e = 0; e < mesh.count; e++) if (mesh.surfaceOf[e] === 4) floor += mesh.areaM2[e]!;
    expect(Math.abs(floor - (20 - 0.6 * 1.2))).toBeLessThan(0.1);
  });
});
