import { describe, expect, it } from 'vitest';
import { ladders, nextStep } from '../../src/app/panels/ladders.ts';
import { LIGHT_STOPS, lightShare } from '../../src/app/panels/plan/lightImage.ts';
import { planOf } from '../../src/app/panels/walkPlan.ts';
import { corridorStrip } from '../../src/engine/room/corridor.ts';
import type { WindowSpec } from '../../src/engine/types.ts';
import { placeRound } from '../../src/report/places.ts';
import { planScale, sunPatch, toRoom } from '../../src/report/planGeometry.ts';

const room = { widthM: 9, depthM: 6 };
const window: WindowSpec = {
  id: 'w',
  wall: 'back',
  fromM: 2,
  widthM: 2,
  sillM: 1,
  headM: 2,
  transmittance: 0.7,
  frameFactor: 0.8,
  dirtFactor: 0.9,
  revealM: 0.2,
};

describe('the plan', () => {
  it('takes a place in the room to the paper and back', () => {
    const scale = planScale(room, 800, 500);
    const back = toRoom(scale, scale.x(3.25), scale.y(1.5));
    expect(back[0]).toBeCloseTo(3.25, 9);
    expect(back[1]).toBeCloseTo(1.5, 9);
    expect(scale.x(9.26)).toBeLessThanOrEqual(800);
    expect(scale.y(6.26)).toBeGreaterThanOrEqual(0);
  });

  it('keeps its size where nobody uses a corridor, and holds the whole of one that is used', () => {
    expect(planScale(room, 800, 500, [])).toMatchObject({ pxPerM: planScale(room, 800, 500).pxPerM });
    for (const wall of ['left', 'right', 'front', 'back'] as const) {
      const scale = planScale(room, 800, 500, [wall]);
      const { minM, maxM } = corridorStrip(room, wall);
      expect(scale.x(minM[0])).toBeGreaterThanOrEqual(-1e-9);
      expect(scale.x(maxM[0])).toBeLessThanOrEqual(800 + 1e-9);
      expect(scale.y(maxM[1])).toBeGreaterThanOrEqual(-1e-9);
      expect(scale.y(minM[1])).toBeLessThanOrEqual(500 + 1e-9);
      // The room and its other walls are on it too.
      expect(scale.x(-0.26)).toBeGreaterThanOrEqual(-1e-9);
      expect(scale.x(room.widthM + 0.26)).toBeLessThanOrEqual(800 + 1e-9);
      expect(scale.y(room.depthM + 0.26)).toBeGreaterThanOrEqual(-1e-9);
      expect(scale.y(-0.26)).toBeLessThanOrEqual(500 + 1e-9);
    }
  });

  /** Closed form: a point z above the floor throws its light z / tan(altitude) from the wall, straight away from the sun. */
  it('puts the sun patch where a ruler would', () => {
    const patch = sunPatch(room, window, { altitudeDeg: 45, bearingDeg: 0, directNormalLx: 50_000 });
    expect(patch?.map((p) => p.map((n) => Math.round(n * 1e9) / 1e9))).toEqual([
      [2, 5],
      [4, 5],
      [4, 4],
      [2, 4],
    ]);
    const low = sunPatch(room, window, { altitudeDeg: 26.56505117707799, bearingDeg: 0, directNormalLx: 50_000 });
    expect(low?.[0]?.[1]).toBeCloseTo(4, 9);
  });

  it('has no sun patch at night, from behind, or under cloud', () => {
    expect(sunPatch(room, window, { altitudeDeg: -5, bearingDeg: 0, directNormalLx: 0 })).toBeNull();
    expect(sunPatch(room, window, { altitudeDeg: 40, bearingDeg: 180, directNormalLx: 50_000 })).toBeNull();
    expect(sunPatch(room, window, { altitudeDeg: 40, bearingDeg: 0, directNormalLx: 0 })).toBeNull();
  });

  it('moves a tag out of the way of what must be read', () => {
    const inside = { left: 0, right: 400, top: 0, bottom: 300 };
    const blocked = [{ box: { left: 120, right: 180, top: 170, bottom: 230 }, weight: 1 }];
    const [free, other] = placeRound(
      [
        { x: 180, y: 150, radiusPx: 20 },
        { x: 190, y: 150, radiusPx: 20 },
      ],
      blocked,
      inside,
    );
    for (const tag of [free!, other!]) {
      const covers = tag.x + 20 > 120 && tag.x - 20 < 180 && tag.y + 20 > 170 && tag.y - 20 < 230;
      expect(covers).toBe(false);
    }
    expect(Math.max(Math.abs(free!.x - other!.x), Math.abs(free!.y - other!.y))).toBeGreaterThanOrEqual(40);
  });
});

describe('the Light Map', () => {
  /** CIE 1976 L* from sRGB (IEC 61966-2-1), published formulas. */
  function lightness([r, g, b]: readonly [number, number, number]): number {
    const linear = (c: number) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
    const y = 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
    return 116 * Math.cbrt(y) - 16;
  }

  it('gets lighter with every step, so that it reads in grey', () => {
    const steps = LIGHT_STOPS.map(lightness);
    for (let i = 1; i < steps.length; i++) expect(steps[i]! - steps[i - 1]!).toBeGreaterThan(7);
  });

  it('is logarithmic from 50 to 2 000 lx', () => {
    expect(lightShare(50)).toBe(0);
    expect(lightShare(2000)).toBe(1);
    expect(lightShare(Math.sqrt(50 * 2000))).toBeCloseTo(0.5, 9);
  });
});

describe('steps of settings', () => {
  it('rise, and end where the controller ends', () => {
    for (const [key, ladder] of Object.entries(ladders)) {
      for (let i = 1; i < ladder.length; i++) expect(ladder[i]!, key).toBeGreaterThan(ladder[i - 1]!);
      expect(nextStep(ladder, ladder.at(-1)!, 1)).toBe(ladder.at(-1));
      expect(nextStep(ladder, ladder[0]!, -1)).toBe(ladder[0]);
    }
    expect([ladders.innerSetpointLx[0], ladders.innerSetpointLx.at(-1)]).toEqual([10, 1000]);
    expect([ladders.innerOffDelayS[0], ladders.innerOffDelayS.at(-1)]).toEqual([60, 1800]);
  });

  it('lead back onto the ladder from a value between two steps', () => {
    expect(nextStep(ladders.innerSetpointLx, 475, 1)).toBe(500);
    expect(nextStep(ladders.innerSetpointLx, 475, -1)).toBe(450);
  });
});

describe('a Walk Line', () => {
  it('arrives when its paces say, and stays at the end', () => {
    const { plan, afterS } = planOf(
      [0, 0],
      [
        [3, 4],
        [3, 10],
      ],
      [
        { pace: 'brisk', doing: 'read' },
        { pace: 'slow', doing: 'on' },
      ],
    );
    expect(afterS[0]).toBeCloseTo(5 / 1.6, 9);
    expect(afterS[1]).toBeCloseTo(5 / 1.6 + 30 + 10, 9);
    expect(plan.map((s) => s.act)).toEqual(['walk', 'read', 'walk', 'stand']);
  });
});
