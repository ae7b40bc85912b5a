import { describe, expect, it } from 'vitest';
import {
  buildLightTables,
  createLightState,
  lightField,
  lightRoom,
  outsideLight,
  rebuildPhotometers,
  sampleSky,
  skyNow,
} from '../../src/engine/light/light.ts';
import { forgetParts } from '../../src/engine/light/memory.ts';
import type { FieldFace, LightField, LightTables } from '../../src/engine/light/types.ts';
import type { RoomSpec, Setup } from '../../src/engine/types.ts';
import { INNER_DESK, MODEL, moment, office, SITE, setupOf } from './support.ts';

const ROOM = office({
  furniture: [
    ...office().furniture,
    {
      id: 'cabinet',
      kind: 'cabinet',
      atM: [0.3, 2.8],
      turnDeg: 90,
      widthM: 1.2,
      depthM: 0.5,
      heightM: 1.2,
      reflectance: 0.3,
    },
  ],
});
const build = (setup: Partial<Setup> = {}, room: RoomSpec = ROOM): LightTables =>
  buildLightTables(room, SITE, setupOf(room, setup), MODEL);
const TABLES = build();
const NOON = moment('2026-03-20', 11);

/** Everything that numbers depend on. */
function numbers(t: LightTables): unknown {
  return [t.rowLx, t.doors, [...t.parts.blinds.daylight], sampleSky(t, NOON)];
}

describe('light tables', () => {
  it('are bit-identical when built twice from nothing', () => {
    forgetParts();
    const first = build();
    forgetParts();
    const second = build();
    // Not by `not.toBe`, which would compare every number of the two for its message.
    expect(second.parts.geometry === first.parts.geometry).toBe(false);
    expect(numbers(second)).toEqual(numbers(first));
    expect([...second.parts.inter.lu.slice(0, 5000)]).toEqual([...first.parts.inter.lu.slice(0, 5000)]);
  });

  const changes: [string, Partial<Setup>][] = [
    ['the detector moved', { mount: { atM: [2, 3], heightM: 2.8, turnDeg: 40 } }],
    ['a blind half down', { blinds: [{ windowId: 'w1', closedShare: 0.5 }] }],
    ['white paper on a desk', { furniture: ROOM.furniture.map((f) => ({ ...f, reflectance: 0.8 })) }],
    ['a desk moved', { furniture: ROOM.furniture.map((f) => (f.id === 'c' ? { ...f, atM: [2, 1.6] } : f)) }],
    ['a darker carpet', { reflectance: { ...ROOM.reflectance, floor: 0.08 } }],
  ];
  for (const [what, change] of changes) {
    it(`after ${what} equal tables built from nothing, whatever was reused`, () => {
      forgetParts();
      const before = build();
      const reused = build(change);
      const differs = JSON.stringify(numbers(reused)) !== JSON.stringify(numbers(before));
      forgetParts();
      expect(numbers(reused)).toEqual(numbers(build(change)));
      expect(differs).toBe(true);
    });
  }

  it('keep geometry when only detector, blinds or reflectances change', () => {
    const { geometry, inter, sensors } = build().parts;
    const [detector, blind, paper, desk] = changes.map(([, change]) => change);
    const moved = build(detector).parts;
    expect([moved.geometry === geometry, moved.inter === inter]).toEqual([true, true]);
    expect(moved.sensors[INNER_DESK] === sensors[INNER_DESK]).toBe(true);
    expect(build(blind).parts.sensors.every((s, k) => s === sensors[k])).toBe(true);
    expect(build(paper).parts.geometry === geometry).toBe(true);
    expect(build(desk).parts.geometry === geometry).toBe(false);
  });

  it('rebuild only the photometers when asked to', () => {
    const setup = setupOf(ROOM, { mount: { atM: [4, 2], heightM: 2.8, turnDeg: 90 } });
    const moved = rebuildPhotometers(build(), ROOM, setup, MODEL);
    expect(numbers(moved)).toEqual(numbers(build(setup)));
  });

  it('stay below 20 MB', async () => {
    const { typedBytes } = await import('../bench/light.ts');
    expect(typedBytes(TABLES)).toBeLessThan(20e6);
  });
});

describe('light state', () => {
  const state = createLightState(
    TABLES,
    moment('2026-03-20', 8, 'passingClouds', 100),
    moment('2026-03-20', 8 + 10 / 3600, 'passingClouds', 200),
  );

  it('survives JSON and gives the same readings', () => {
    const copy = JSON.parse(JSON.stringify(state));
    expect(copy).toEqual(state);
    for (let tick = 100; tick <= 200; tick += 7) {
      const lamps = { inner: 0.4, window: 1 };
      expect(lightRoom(TABLES, copy, tick, lamps, setupOf(ROOM))).toEqual(
        lightRoom(TABLES, state, tick, lamps, setupOf(ROOM)),
      );
    }
  });

  it('meets its samples at both ends and runs straight between them', () => {
    const at = (tick: number) => lightRoom(TABLES, state, tick, { inner: 0, window: 0 }, setupOf(ROOM)).deskLx[0]!;
    expect(at(100)).toBeCloseTo(state.before.daylightLx[2]!, 9);
    expect(at(200)).toBeCloseTo(state.after.daylightLx[2]!, 9);
    expect(at(150)).toBeCloseTo((at(100) + at(200)) / 2, 9);
  });

  it('turns the sun the short way round north', () => {
    const near = (azimuthDeg: number, tick: number) => ({ ...state.before, azimuthDeg, tick });
    expect(skyNow({ before: near(359.8, 0), after: near(0.2, 100) }, 50).azimuthDeg).toBeCloseTo(0, 6);
  });

  it('is dark at night', () => {
    expect(Math.max(...sampleSky(TABLES, moment('2026-03-20', 0)).daylightLx)).toBe(0);
  });
});

/** Value of a face's grid at a point of its plane, between cell centres. */
function at(face: FieldFace, values: Float32Array, x: number, y: number): number {
  const s = ((x - face.originM[0]) / face.uM[0]) * face.nu - 0.5;
  const t = ((y - face.originM[1]) / face.vM[1]) * face.nv - 0.5;
  const i = Math.min(Math.max(Math.floor(s), 0), face.nu - 2);
  const j = Math.min(Math.max(Math.floor(t), 0), face.nv - 2);
  const [a, b] = [s - i, t - j];
  const v = (di: number, dj: number) => values[face.offset + (j + dj) * face.nu + i + di]!;
  return (1 - a) * (1 - b) * v(0, 0) + a * (1 - b) * v(1, 0) + (1 - a) * b * v(0, 1) + a * b * v(1, 1);
}

describe('the field for the picture', () => {
  const setup = setupOf(ROOM, { doors: [{ doorId: 'door', open: true }] });
  const cloudy = moment('2026-03-20', 11, 'overcast');
  const field: LightField = lightField(TABLES, cloudy, setup);

  it('has a number in every cell that can be seen, and no dark dots', () => {
    for (const values of [field.daylightLx, field.innerRowLx, field.windowRowLx]) {
      for (const face of field.faces) {
        const cells = values.subarray(face.offset, face.offset + face.nu * face.nv);
        expect(cells.every((lx) => Number.isFinite(lx) && lx >= 0)).toBe(true);
        if (face.kind !== 'furniture') expect(Math.min(...cells), face.id).toBeGreaterThan(1);
      }
    }
  });

  it('tells the desk tags their own lux: lamps and sky within 2 %', () => {
    const tops = field.faces.filter((f) => f.normal[2] === 1 && f.furnitureId !== null);
    const sample = sampleSky(TABLES, cloudy);
    ROOM.deskPoints.forEach((d, k) => {
      const face = tops.find((f) => f.furnitureId === d.id)!;
      const [x, y] = d.atM;
      const desk = (lx: number[]) => lx[2 + k]!;
      expect(Math.abs(at(face, field.innerRowLx, x, y) / desk(TABLES.rowLx.inner) - 1)).toBeLessThan(0.02);
      expect(Math.abs(at(face, field.daylightLx, x, y) / desk(sample.daylightLx) - 1)).toBeLessThan(0.02);
    });
  });

  it('carries sun reflected inside but not the patch itself', () => {
    const sunny = moment('2026-03-20', 11);
    const lit = lightField(TABLES, sunny, setup);
    const { directNormalLx, sunDirection } = outsideLight(TABLES, sunny);
    const floor = lit.faces.find((f) => f.kind === 'floor')!;
    const onFloor = lit.daylightLx.subarray(floor.offset, floor.offset + floor.nu * floor.nv);
    expect(Math.max(...onFloor)).toBeLessThan(0.3 * directNormalLx * sunDirection[2]);
    const ceiling = lit.faces.find((f) => f.kind === 'ceiling')!;
    const mean = (f: LightField) =>
      f.daylightLx.subarray(ceiling.offset, ceiling.offset + ceiling.nu * ceiling.nv).reduce((a, b) => a + b, 0);
    expect(mean(lit) / mean(field)).toBeGreaterThan(2);
  });

  it('agrees with a sensor in the shade of a sunlit room within 6 %', () => {
    const sunny = moment('2026-06-21', 11);
    const lit = lightField(TABLES, sunny, setup);
    const sample = sampleSky(TABLES, sunny);
    const top = lit.faces.find((f) => f.normal[2] === 1 && f.furnitureId === 'c')!;
    expect(Math.abs(at(top, lit.daylightLx, 1.6, 1.4) / sample.daylightLx[INNER_DESK]! - 1)).toBeLessThan(0.06);
  });

  it('lights doors only when they are open', () => {
    expect(Math.max(...field.doorLx)).toBeGreaterThan(5);
    expect(Math.max(...lightField(TABLES, cloudy, setupOf(ROOM)).doorLx)).toBe(0);
  });

  it('covers every face once, cell after cell', () => {
    let next = 0;
    for (const face of field.faces) {
      expect(face.offset).toBe(next);
      next += face.nu * face.nv;
    }
    expect(field.daylightLx.length).toBe(next);
    expect(new Set(field.faces.map((f) => f.id)).size).toBe(field.faces.length);
  });
});
