import { describe, expect, it } from 'vitest';
import { type LineInput, lightLines, withinCircle } from '../../../src/app/scene/lines/lightLines.ts';
import { dashes } from '../../../src/app/scene/overlay/WalkLine.tsx';
import { isFree } from '../../../src/app/scene/tags/arrange.ts';
import { isolinePlaces } from '../../../src/app/scene/tags/isolines.ts';
import type { FieldFace, LightField } from '../../../src/engine/light/types.ts';
import type { Vector3 } from '../../../src/engine/types.ts';

/** A floor of 8 x 6 m whose lux rises evenly along x: 100 lx per metre from the lamps of one row alone. */
function ramp(): LightField {
  const [nu, nv] = [40, 30];
  const face: FieldFace = {
    id: 'floor',
    kind: 'floor',
    furnitureId: null,
    originM: [0, 0, 0],
    uM: [8, 0, 0],
    vM: [0, 6, 0],
    normal: [0, 0, 1],
    nu,
    nv,
    offset: 0,
    reflectance: 0.2,
  };
  const zero = new Float32Array(nu * nv);
  const inner = Float32Array.from(zero, (_, k) => ((k % nu) + 0.5) * 0.2 * 100);
  return { faces: [face], daylightLx: zero, innerRowLx: inner, windowRowLx: zero, doorLx: zero };
}

const ON = { inner: 1, window: 0 };
const ROOM = { widthM: 8, depthM: 6 };
const INPUT = { lamps: ON, setpointLx: null, sunLx: [], furniture: [] };
const everywhere = () => true;

describe('lines of the Light Map', () => {
  it('run where the lux is, from edge to edge of the surface, without a bend at the edges', () => {
    const lines = lightLines(ramp(), INPUT);
    expect(lines.map(({ lux }) => lux)).toEqual([100, 200, 300, 500]);
    for (const { lux, points } of lines) {
      for (const [x] of points) expect(x).toBeCloseTo(lux / 100, 3);
      expect(points.map(([, y]) => y).sort((p, q) => p - q)).toEqual(expect.arrayContaining([0, 6]));
    }
  });

  it('are as round as the light is: a lamp above a floor makes circles', () => {
    const field = ramp();
    const radius = (lux: number) => Math.sqrt(900 / lux - 1);
    field.innerRowLx = field.innerRowLx.map((_, k) => {
      const [x, y] = [((k % 40) + 0.5) * 0.2 - 4, (Math.floor(k / 40) + 0.5) * 0.2 - 3];
      return 900 / (1 + x * x + y * y);
    });
    const rings = lightLines(field, INPUT).filter(({ lux }) => lux >= 200);
    expect(rings.map(({ lux }) => lux)).toEqual([200, 300, 500]);
    for (const { lux, points } of rings) {
      expect(points.at(-1)).toEqual(points[0]);
      const away = points.map(([x, y]) => Math.hypot(x - 4, y - 3));
      // A tenth of a cell out of round; smoothing pulls all of it in by less than a third of a cell.
      expect(Math.max(...away) - Math.min(...away)).toBeLessThan(0.02);
      expect(Math.abs(away[0]! - radius(lux))).toBeLessThan(0.06);
    }
  });

  it('of the setpoint are among them, once', () => {
    const lux = (setpointLx: number) => lightLines(ramp(), { ...INPUT, setpointLx }).map((line) => line.lux);
    expect(lux(500)).toEqual([100, 200, 300, 500]);
    expect(lux(450)).toEqual([100, 200, 300, 500, 450]);
  });

  it('in the sun run where its lux and the room light add up to them', () => {
    const sunny = lightLines(ramp(), { ...INPUT, sunLx: [250] }).filter(({ sunLx }) => sunLx > 0);
    expect(sunny.map(({ lux }) => lux)).toEqual([300, 500, 1000]);
    for (const { lux, points } of sunny) for (const [x] of points) expect(x * 100 + 250).toBeCloseTo(lux, 0);
  });

  it('know nothing of other surfaces, and leave out rings too small for a shadow', () => {
    const field = ramp();
    const alone = lightLines(field, INPUT);
    const cells = field.innerRowLx.length;
    const grown = (values: Float32Array) => Float32Array.from({ length: cells + 4 }, (_, k) => values[k] ?? 9000);
    const desk: FieldFace = {
      ...field.faces[0]!,
      id: 'd',
      kind: 'furniture',
      furnitureId: 'd',
      offset: cells,
      nu: 2,
      nv: 2,
    };
    const [d, i, w, o] = [field.daylightLx, field.innerRowLx, field.windowRowLx, field.doorLx].map(grown);
    const both = { faces: [...field.faces, desk], daylightLx: d!, innerRowLx: i!, windowRowLx: w!, doorLx: o! };
    expect(lightLines(both, INPUT)).toEqual(alone);
    field.innerRowLx[15 * 40 + 8]! += 200;
    expect(lightLines(field, INPUT)).toHaveLength(alone.length);
  });

  it('end at the rim of a round table', () => {
    const across: Vector3[] = [0, 1, 2, 3, 4].map((x) => [x, 1, 0.7]);
    const [part, ...more] = withinCircle(across, [2, 1], 1.5);
    expect(more).toEqual([]);
    expect(part!.map(([x]) => x)).toEqual([0.5, 1, 2, 3, 3.5]);
  });
});

describe('numbers on isolines', () => {
  const at = (
    field: LightField,
    input: LineInput,
    near: [number, number],
    drawn: (p: Vector3) => boolean = everywhere,
  ) => isolinePlaces(lightLines(field, input), ROOM, [{ lux: 300, near }], drawn)[0]!;

  it('stand on the line of their level, nearest to the wanted place', () => {
    const [first] = at(ramp(), INPUT, [0.5, 0.5]);
    expect(first![0]).toBeCloseTo(3, 1);
    expect(Math.abs(first![1] - 3)).toBeLessThan(0.15);
  });

  it('follow the level of the lamps', () => {
    const [first] = at(ramp(), { ...INPUT, lamps: { inner: 0.5, window: 0 } }, [0.5, 0.5]);
    expect(first![0]).toBeCloseTo(6, 1);
  });

  it('are missing where the level is not reached, and never stand where the line is not drawn', () => {
    const wishes = [{ lux: 1000, near: [0.5, 0.5] as const }];
    expect(isolinePlaces(lightLines(ramp(), INPUT), ROOM, wishes, everywhere)).toEqual([[]]);
    const places = at(ramp(), INPUT, [0.5, 0.5], ([, y]) => y <= 2);
    expect(places.length).toBeGreaterThan(5);
    for (const [, y] of places) expect(y).toBeLessThanOrEqual(2);
  });

  it('of one level keep a metre between them', () => {
    const wishes = [0.45, 0.55].map((y) => ({ lux: 300, near: [0.5, y] as const }));
    const [low, high] = isolinePlaces(lightLines(ramp(), INPUT), ROOM, wishes, everywhere);
    for (const p of low!) for (const q of high!) expect(Math.abs(p[1] - q[1])).toBeGreaterThanOrEqual(1);
  });

  it('stand only where they touch nothing, cover no head and lie on the stage', () => {
    const stage = { w: 400, h: 300 };
    const other = { x: 100, y: 100, w: 60, h: 20 };
    const free = (x: number, y: number) => isFree([x, y], [50, 20], stage, [other], [[300, 200]]);
    expect(free(200, 100)).toBe(true);
    expect([free(180, 110), free(130, 130), free(300, 190), free(20, 50), free(390, 290)]).toEqual(
      Array(5).fill(false),
    );
    expect(free(130, 140)).toBe(true);
  });
});

describe('the Walk Line', () => {
  it('is dashes over the whole way and nothing beyond its ends', () => {
    const triangles = dashes([
      [1, 1],
      [3, 1],
      [3, 2],
    ]);
    const xs = triangles.filter((_, k) => k % 3 === 0);
    const ys = triangles.filter((_, k) => k % 3 === 1);
    expect(Math.min(...xs)).toBeCloseTo(1, 6);
    expect(Math.max(...xs)).toBeLessThan(3.03);
    expect(Math.max(...ys)).toBeLessThan(2.03);
    // Eight dashes on two metres, four on one; six corners each.
    expect(triangles.length / 9).toBe((8 + 4) * 2);
  });
});
