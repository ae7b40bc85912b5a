/** Lux meters read the same light as the desk points, wherever they lie. */
import { describe, expect, it } from 'vitest';
import { buildLightTables, createLightState, lightRoom } from '../../src/engine/light/light.ts';
import { probeLight } from '../../src/engine/light/probe.ts';
import { type ProbePlace, probeNormal, probeTotalLx, restingHeightM } from '../../src/engine/light/probePlace.ts';
import { roomBoxes } from '../../src/engine/room/boxes.ts';
import type { Setup, Vector3 } from '../../src/engine/types.ts';
import { MODEL, moment, office, SITE, setupOf } from './support.ts';

const ROOM = office();
const UP: Vector3 = [0, 0, 1];
const LEVELS = { inner: 0.8, window: 1 };
const HALF_DOWN: Partial<Setup> = {
  blinds: [{ windowId: 'w1', closedShare: 0.4 }],
  doors: [{ doorId: 'door', open: true }],
};

const SKIES = [
  ['an overcast day', moment('2026-03-20', 11, 'overcast'), {}],
  ['a clear day with sun in the room', moment('2026-03-20', 11, 'clear'), {}],
  ['a clear day with a blind half down and the door open', moment('2026-01-20', 12, 'clear'), HALF_DOWN],
  ['the night', moment('2026-03-20', 23, 'clear'), {}],
] as const;

describe('a lux meter', () => {
  for (const [what, now, change] of SKIES) {
    it(`laid on a desk point reads what the desk point reads: ${what}`, () => {
      const setup = setupOf(ROOM, change);
      const tables = buildLightTables(ROOM, SITE, setup, MODEL);
      const later = { ...now, tick: 100, utcMs: now.utcMs + 10_000 };
      const desks = lightRoom(tables, createLightState(tables, now, later), 37, LEVELS, setup).deskLx;
      const places = ROOM.deskPoints.map(
        (d): ProbePlace => ({ id: d.id, positionM: [d.atM[0], d.atM[1], d.heightM], normal: UP }),
      );
      const read = probeLight(tables, { before: now, after: later, share: 0.37 }, LEVELS, setup, places);
      expect(read.map(({ id }) => id)).toEqual(['a', 'b', 'c', 'd']);
      for (const [k, r] of read.entries()) expect(probeTotalLx(r)).toBeCloseTo(desks[k]!, 9);
    });
  }

  it('tells the sun on it from the light of sky and room', () => {
    const setup = setupOf(ROOM);
    const tables = buildLightTables(ROOM, SITE, setup, MODEL);
    const now = moment('2026-03-20', 11, 'clear');
    const places = [0.5, 1.5, 2.5, 3.5, 4.5].flatMap((x) =>
      [1, 2, 3, 4, 5].map((y): ProbePlace => ({ id: `${x}/${y}`, positionM: [x, y, 0], normal: UP })),
    );
    const read = probeLight(tables, { before: now, after: now, share: 0 }, LEVELS, setup, places);
    const sunny = read.filter(({ sunLx }) => sunLx > 0);
    expect(sunny.length).toBeGreaterThan(2);
    expect(sunny.length).toBeLessThan(places.length / 2);
    for (const r of sunny) expect(r.sunLx).toBeLessThan(r.daylightLx);
  });

  it('says where nothing can be measured: inside a desk top, outside the room', () => {
    const setup = setupOf(ROOM);
    const tables = buildLightTables(ROOM, SITE, setup, MODEL);
    const now = moment('2026-03-20', 11, 'overcast');
    const places: ProbePlace[] = [
      { id: 'inside', positionM: [1.6, 1.4, 0.72], normal: UP },
      { id: 'free', positionM: [3, 2.7, 0], normal: UP },
    ];
    const read = probeLight(tables, { before: now, after: now, share: 0 }, LEVELS, setup, places);
    expect(read.map(({ covered }) => covered)).toEqual([true, false]);
    expect(read.every((r) => Number.isFinite(probeTotalLx(r)))).toBe(true);
  });

  it('held at the eye reads more towards the windows than away from them', () => {
    const setup = setupOf(ROOM);
    const tables = buildLightTables(ROOM, SITE, setup, MODEL);
    const now = moment('2026-03-20', 11, 'overcast');
    const eye = (id: string, headingDeg: number): ProbePlace => ({
      id,
      positionM: [3, 2.7, 1.2],
      normal: probeNormal(90, headingDeg),
    });
    const [towards, away] = probeLight(tables, { before: now, after: now, share: 0 }, LEVELS, setup, [
      eye('towards', 0),
      eye('away', 180),
    ]);
    expect(towards!.daylightLx).toBeGreaterThan(2 * away!.daylightLx);
  });

  it('lies on the desk under a hand, on the floor beside it', () => {
    const boxes = roomBoxes(ROOM, ROOM.furniture);
    expect(restingHeightM(boxes, [1.6, 1.4])).toBeCloseTo(0.74, 9);
    expect(restingHeightM(boxes, [3, 2.7])).toBe(0);
  });
});
