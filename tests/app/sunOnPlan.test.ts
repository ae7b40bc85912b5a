import { expect, it } from 'vitest';
import { sunOnPlan } from '../../src/app/panels/plan/sunOnPlan.ts';
import { buildLightTables, outsideLight } from '../../src/engine/light/light.ts';
import { isCovered } from '../../src/engine/light/mesh.ts';
import { sunAtPoint } from '../../src/engine/light/sunlight.ts';
import { MODEL, moment, office, SITE, setupOf } from '../light/support.ts';

it('the plan lays the sun where a lux meter has it, with the same lux, past furniture and a half-closed blind', () => {
  const room = office();
  const setup = setupOf(room, { blinds: [{ windowId: 'w1', closedShare: 0.5 }] });
  const tables = buildLightTables(room, SITE, setup, MODEL);
  const { geometry, blinds } = tables.parts;
  const light = outsideLight(tables, moment('2026-02-10', 12, 'clear'));
  const sun = light.sunDirection;
  const bearingDeg = (Math.atan2(sun[0], sun[1]) * 180) / Math.PI;
  const { sunAltitudeDeg: altitudeDeg, directNormalLx } = light;
  const at = sunOnPlan(room, setup, { altitudeDeg, bearingDeg, directNormalLx });
  const unlike: string[] = [];
  let sunny = 0;
  let places = 0;
  for (const z of [0, 0.74]) {
    for (let x = 0.07; x < 6; x += 0.11) {
      for (let y = 0.05; y < 5.4; y += 0.13) {
        if (isCovered(geometry.mesh, x, y, z + 1e-3)) continue;
        places++;
        const through = sunAtPoint(
          geometry.mesh,
          tables.scene,
          geometry.cells,
          blinds.openShare,
          [x, y, z + 1e-3],
          sun,
        );
        const metered = directNormalLx * sun[2] * through;
        const shown = at(x, y, z);
        if (shown > 0) sunny++;
        if (shown > 0 !== metered > 1) unlike.push(`${x.toFixed(2)} ${y.toFixed(2)} ${z}: ${shown} ${metered}`);
        else if (shown > 0) expect(shown / metered).toBeCloseTo(1, 6);
      }
    }
  }
  expect(sunny).toBeGreaterThan(places / 20);
  expect(unlike).toEqual([]);
});
