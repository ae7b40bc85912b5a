import { describe, expect, it } from 'vitest';
import { lightUp, skyElementLx } from '../../src/engine/light/balance.ts';
import { glazingRatio } from '../../src/engine/light/glass.ts';
import { trialOutside, trialRoom } from '../../src/engine/light/invariants.ts';
import { buildLightTables, outsideLight } from '../../src/engine/light/light.ts';
import { traceSun } from '../../src/engine/light/sunlight.ts';
import { MODEL, moment, office, SITE, setupOf } from './support.ts';

const room = trialRoom({ boxes: [] });
const windowOnly = lightUp({ ...room, openings: room.openings.slice(0, 1) });

describe('light through a window', () => {
  it('of one shining cell lands somewhere: factors add up to the area of each cell', () => {
    const { mesh, cells, coupling } = windowOnly.geometry;
    const caught = new Float64Array(cells.cellCount);
    for (let e = 0; e < mesh.count; e++) {
      for (let i = coupling.start[e]!; i < coupling.start[e + 1]!; i++) {
        caught[coupling.cell[i]!]! += coupling.factor[i]! * mesh.areaM2[e]!;
      }
    }
    const { us, vs } = cells.grids[0]!.grid;
    for (const m2 of caught) expect(m2 / ((us[1]! - us[0]!) * (vs[1]! - vs[0]!))).toBeCloseTo(1, 4);
  });

  it('is shared rightly between sky and ground: under an even sky over black ground 99.5 % arrive', () => {
    const scene = { ...windowOnly.scene, groundReflectance: 0 };
    const { elementLx, enteredLm } = skyElementLx({ ...windowOnly, scene }, trialOutside(5, 10_000, 0));
    const { mesh } = windowOnly.geometry;
    const arrived = elementLx.reduce((sum, lx, e) => sum + lx * mesh.areaM2[e]!, 0);
    expect(Math.abs(arrived / enteredLm - 1)).toBeLessThan(5e-3);
  });

  for (const cosine of [0.17, 0.5, 0.9]) {
    it(`of the sun at cosine ${cosine} carries the flux that the glass lets through`, () => {
      const { sunPoints, cells, sunScratch } = windowOnly.geometry;
      const open = new Float64Array(cells.rowCount).fill(1);
      const rest = Math.sqrt(1 - cosine * cosine);
      const sun: [number, number, number] = [rest * 0.8, cosine, rest * 0.6];
      const patch = traceSun(windowOnly.scene, sunPoints, open, sun, 50_000, sunScratch);
      let lm = 0;
      for (let i = 0; i < patch.count; i++) lm += patch.fluxLm[i]!;
      expect(lm / (50_000 * cosine * 3 * 1.4 * 0.6 * glazingRatio(cosine))).toBeCloseTo(1, 3);
    });
  }

  it('comes from the true direction of the sun, whatever the house faces', () => {
    for (const backWallFacesDeg of [0, 77, 180, 290]) {
      const house = office({ backWallFacesDeg, furniture: [], luminaires: [], deskPoints: [] });
      const t = buildLightTables(house, SITE, setupOf(house), MODEL);
      const { sunDirection, sunAzimuthDeg } = outsideLight(t, moment('2026-05-01', 9));
      const bearingDeg = (Math.atan2(sunDirection[0], sunDirection[1]) * 180) / Math.PI;
      expect((((bearingDeg + backWallFacesDeg - sunAzimuthDeg + 540) % 360) + 360) % 360).toBeCloseTo(180, 6);
    }
  });
});
