/**
 * The fast method against a slow unbiased one (own ray tracing, own sums) in rooms drawn at random: glass or bare
 * openings in two walls, desks, a cabinet, any of the fifteen skies, sun and a lamp, four sensors each.
 */
import { describe, expect, it } from 'vitest';
import { evaluateRoom } from '../../src/cli/rooms.ts';
import type { Point, ReferenceRoom, RoomSource, SurfaceName } from '../../src/cli/roomsFile.ts';
import { pathTraced, randomFrom } from './pathTracer.ts';

/** Room seeds; those that once failed stay in the list. */
const SEEDS = [11, 12, 13, 14];
const PATHS = 40_000;
/**
 * Allowed besides three standard errors of the paths, relative: the accuracy that the product promises of its own model.
 * Causes: patches of 0.9 m and one point an element (lamps); besides, 577 even patches of the sky (sky), a strip of sun
 * on elements of 0.3 m (sun).
 */
const PROMISED: Record<RoomSource['kind'], number> = { lamps: 0.03, sky: 0.05, sun: 0.06 };

function drawRoom(seed: number): ReferenceRoom {
  const random = randomFrom(seed);
  const between = (low: number, high: number) => low + (high - low) * random();
  const size: Point = [between(4, 8), between(4, 7), between(2.6, 3.4)];
  const shade = () => between(0.1, 0.8);
  const glass = random() < 0.7 ? { normalTransmittance: between(0.4, 0.8), insideReflectance: 0.1 } : null;
  const south = size[0] * between(0.1, 0.4);
  const desk = (x: number, y: number) => ({
    min_m: [x, y, 0.7] as Point,
    max_m: [x + 1.4, y + 0.8, 0.74] as Point,
    reflectance: shade(),
  });
  const cabinetM = between(1, 2);
  const sunAltitude = between(15, 60);
  const sunAzimuth = between(120, 240);
  const reflectance = {} as Record<SurfaceName, number>;
  for (const face of ['floor', 'ceiling', 'south', 'north', 'west', 'east'] as const) reflectance[face] = shade();
  return {
    id: `random room, seed ${seed}`,
    title: '',
    size_m: size,
    reflectance,
    groundReflectance: between(0.05, 0.3),
    openings: [
      { id: 'S', surface: 'south', min_m: [south, 0, 0.85], max_m: [size[0] * 0.9, 0, 2.35], glass },
      { id: 'E', surface: 'east', min_m: [size[0], 1, 1], max_m: [size[0], between(2, 3.5), 2.2], glass },
    ],
    boxes: [
      desk(0.6, 0.8),
      desk(size[0] - 2.2, size[1] - 1.8),
      { min_m: [0, size[1] - 1.2, 0], max_m: [0.5, size[1], cabinetM], reflectance: shade() },
    ],
    sources: [
      {
        id: 'sky',
        kind: 'sky',
        skyType: 1 + Math.floor(random() * 15),
        horizontalIlluminance_lx: 10_000,
        sunAltitude_deg: sunAltitude,
        sunAzimuth_deg: sunAzimuth,
      },
      {
        id: 'sun',
        kind: 'sun',
        directNormalIlluminance_lx: 70_000,
        altitude_deg: sunAltitude,
        azimuth_deg: sunAzimuth,
      },
      {
        id: 'lamps',
        kind: 'lamps',
        lamps: [{ id: 'a', min_m: [1, 1, size[2]], max_m: [2.2, 1.3, size[2]], flux_lm: 4000 }],
      },
    ],
    sensors: [
      { id: 'window desk', position_m: [1.3, 1.2, 0.745], normal: [0, 0, 1] },
      { id: 'inner desk', position_m: [size[0] - 1.5, size[1] - 1.4, 0.745], normal: [0, 0, 1] },
      { id: 'ceiling', position_m: [size[0] / 2, size[1] / 2, size[2] - 0.01], normal: [0, 0, -1] },
      { id: 'eye', position_m: [size[0] / 2, size[1] * 0.7, 1.2], normal: [0.6, -0.8, 0] },
    ],
    expected: {},
    tolerance: {},
  };
}

describe('random rooms against path tracing', () => {
  for (const seed of SEEDS) {
    it(`seed ${seed}: sky within 5 %, sun within 6 %, lamps within 3 %, besides the noise of the paths`, () => {
      const room = drawRoom(seed);
      const random = randomFrom(seed * 7919);
      const errors: Record<string, number> = {};
      for (const source of room.sources) {
        room.tolerance[source.id] = { rel: PROMISED[source.kind] };
        room.expected[source.id] = {};
        for (const { id, position_m, normal } of room.sensors) {
          const { lx, error } = pathTraced(room, source, position_m, normal, PATHS, random);
          room.expected[source.id]![id] = { illuminance_lx: lx };
          errors[`${source.id} ${id}`] = error;
        }
      }
      for (const r of evaluateRoom(room)) {
        const where = `${r.sourceId} ${r.sensorId}: ${r.gotLx} lx, paths ${r.expectedLx} lx`;
        const off = Math.abs(r.gotLx / r.expectedLx - 1);
        expect(off, where).toBeLessThan(r.tolerance + 3 * errors[`${r.sourceId} ${r.sensorId}`]!);
      }
    });
  }
});
