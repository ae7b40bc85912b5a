import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aimBeam, beamElement, chooseStrip, makeBeam } from '../../src/engine/light/beam.ts';
import { buildLightTables } from '../../src/engine/light/light.ts';
import { TREGENZA_FINE } from '../../src/engine/light/sky/patches.ts';
import { skyPatchVector } from '../../src/engine/light/sky/sky.ts';
import { traceElement } from '../../src/engine/light/trace.ts';
import { MODEL, office, SITE, setupOf } from './support.ts';

const room = office();
const { mesh, cells } = buildLightTables(room, SITE, setupOf(room), MODEL).parts.geometry;
const unit = fc.nat(1000).map((n) => n / 1000);

describe('a beam of parallel rays', () => {
  it('meets exactly the elements that its rays meet one by one, furniture included', () => {
    const beam = makeBeam(mesh);
    let onFurniture = 0;
    fc.assert(
      fc.property(unit, unit, unit, fc.constantFrom(...cells.grids), (across, down, place, { grid }) => {
        const inwards = grid.fixedM > 0 ? -1 : 1;
        const d = [0.7 * (2 * across - 1), 0.7 * (2 * across - 1), -1.4 * down];
        d[grid.fixedAxis] = inwards;
        aimBeam(beam, grid, d[0]!, d[1]!, d[2]!);
        const [fromV, toV] = [grid.vs[0]!, grid.vs[grid.nv]!];
        const u = grid.us[0]! + (grid.us[grid.nu]! - grid.us[0]!) * place;
        for (let j = 0; j < 8; j++) {
          const v = fromV + ((toV - fromV) * (j + place)) / 8;
          chooseStrip(beam, fromV + ((toV - fromV) * j) / 8, fromV + ((toV - fromV) * (j + 1)) / 8);
          const at = [0, 0, 0];
          at[grid.fixedAxis] = grid.fixedM;
          at[grid.uAxis] = u;
          at[grid.vAxis] = v;
          const alone = traceElement(mesh, at[0]!, at[1]!, at[2]!, d[0]!, d[1]!, d[2]!);
          if (mesh.surfaceOf[alone]! >= 6) onFurniture++;
          expect(beamElement(beam, u, at[0]!, at[1]!, at[2]!)).toBe(alone);
        }
      }),
      { seed: 7, numRuns: 400 },
    );
    expect(onFurniture).toBeGreaterThan(200);
  });
});

describe('an overcast sky', () => {
  it('is alike all round, wherever the sun stands behind it', () => {
    const patches = new Float64Array(TREGENZA_FINE.count);
    const turned = new Float64Array(TREGENZA_FINE.count);
    for (const type of [1, 3, 5, 16]) {
      skyPatchVector(type, 40, 90, 10_000, patches, TREGENZA_FINE);
      skyPatchVector(type, 12, 250, 10_000, turned, TREGENZA_FINE);
      expect(turned).toEqual(patches);
      for (const { first, count } of TREGENZA_FINE.bands) {
        expect(new Set(patches.subarray(first, first + count)).size).toBe(1);
      }
    }
  });
});
