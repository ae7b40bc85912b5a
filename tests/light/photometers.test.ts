/** What the photometers see, and the parts of their readings; instruments never change a run. */
import { describe, expect, it } from 'vitest';
import { photometersOf, probesOf } from '../../src/engine/instruments.ts';
import { LIGHT_SOURCES, type ReadingParts, SEEN_PARTS, VIEW_PX } from '../../src/engine/light/detectorParts.ts';
import { daylitRoom, readingParts, roomExitance } from '../../src/engine/light/detectorShares.ts';
import { detectorView } from '../../src/engine/light/detectorView.ts';
import { buildLightTables, createLightState, lightField, lightRoom } from '../../src/engine/light/light.ts';
import { probeLight } from '../../src/engine/light/probe.ts';
import { type ProbePlace, probeTotalLx } from '../../src/engine/light/probePlace.ts';
import type { FieldFace } from '../../src/engine/light/types.ts';
import { createSimulation, digestOf, type StepResult, stepSimulation } from '../../src/engine/simulation.ts';
import type { Setup } from '../../src/engine/types.ts';
import { smallStory, timedActs } from '../support/smallStory.ts';
import { MODEL, moment, office, SITE, setupOf } from './support.ts';

const ROOM = office();
const LEVELS = { inner: 0.8, window: 1 };
const HALF_DOWN: Partial<Setup> = {
  blinds: [{ windowId: 'w1', closedShare: 0.4 }],
  doors: [{ doorId: 'door', open: true }],
};
const WHICH = [0, 1] as const;

const sum = (parts: ReadingParts): number =>
  LIGHT_SOURCES.reduce((all, source) => all + SEEN_PARTS.reduce((s, seen) => s + parts[source][seen], 0), 0);

const SKIES = [
  ['an overcast day', moment('2026-03-20', 11, 'overcast'), {}],
  ['a clear day with sun in the room', moment('2026-03-20', 11, 'clear'), {}],
  ['a clear day with a blind half down and the door open', moment('2026-01-20', 12, 'clear'), HALF_DOWN],
  ['the night', moment('2026-03-20', 23, 'clear'), {}],
] as const;

for (const [what, now, change] of SKIES) {
  describe(`the parts of a ceiling reading, ${what}`, () => {
    const setup = setupOf(ROOM, change);
    const tables = buildLightTables(ROOM, SITE, setup, MODEL);
    const later = { ...now, tick: 100, utcMs: now.utcMs + 10_000 };
    const { readings } = lightRoom(tables, createLightState(tables, now, later), 37, LEVELS, setup);
    const days = { before: daylitRoom(tables, now), after: daylitRoom(tables, later), share: 0.37 };
    const exitance = roomExitance(tables, days.before, LEVELS, setup.doors);

    for (const which of WHICH) {
      const reading = which === 0 ? readings.innerLx : readings.windowLx;
      it(`make the whole reading of photometer ${which}`, () => {
        const parts = readingParts(tables, days, LEVELS, setup.doors, which);
        expect(Math.abs(sum(parts) / reading - 1)).toBeLessThan(1e-6);
        for (const source of LIGHT_SOURCES)
          for (const seen of SEEN_PARTS) expect(parts[source][seen]).toBeGreaterThanOrEqual(0);
        expect(Object.values(parts.doors).some((lx) => lx > 0)).toBe(what.includes('door open'));
      });

      it(`agree with the picture of photometer ${which}: its mean in the cone is the reading`, () => {
        const { luminance, coneRadius } = detectorView(tables, days.before, exitance, LEVELS, which);
        let total = 0;
        let count = 0;
        for (let k = 0; k < luminance.length; k++) {
          const a = (((k % VIEW_PX) + 0.5) / VIEW_PX) * 2 - 1;
          const b = 1 - ((Math.floor(k / VIEW_PX) + 0.5) / VIEW_PX) * 2;
          if (a * a + b * b > coneRadius * coneRadius) continue;
          total += luminance[k]!;
          count++;
        }
        expect(Math.abs((Math.PI * total) / count / reading - 1)).toBeLessThan(0.02);
      });
    }
  });
}

describe('what a photometer looks at', () => {
  const part = (room: ReturnType<typeof office>, change: Partial<Setup>, which: 0 | 1) => {
    const setup = setupOf(room, change);
    const tables = buildLightTables(room, SITE, setup, MODEL);
    const day = daylitRoom(tables, moment('2026-03-20', 11, 'overcast'));
    return readingParts(tables, { before: day, after: day, share: 0 }, { inner: 0, window: 0 }, setup.doors, which)
      .daylight;
  };

  it('is the window for the window photometer only', () => {
    expect(part(ROOM, {}, 1).window).toBeGreaterThan(10 * part(ROOM, {}, 0).window);
  });

  it('sends twice as much from a desk as soon as white paper lies on it, and hardly more from the walls', () => {
    const dark = part(ROOM, {}, 0);
    const white = part(ROOM, { furniture: ROOM.furniture.map((f) => ({ ...f, reflectance: 0.8 })) }, 0);
    expect(white.desks / dark.desks).toBeGreaterThan(1.95);
    expect(white.walls / dark.walls).toBeLessThan(1.2);
  });
});

describe('a lux meter on the picture', () => {
  const cellCentre = (face: FieldFace, i: number, j: number): [number, number, number] => {
    const at = [0, 1, 2].map(
      (k) => face.originM[k]! + (face.uM[k]! * (i + 0.5)) / face.nu + (face.vM[k]! * (j + 0.5)) / face.nv,
    );
    return at as [number, number, number];
  };
  // Left over: elements of 0.2-0.3 m against a point, and the ray noise of the field; on the floor also shadows of desks.
  const TOLERANCE = { furniture: 0.01, floor: 0.05 };
  it('reads the lux of the picture at the middle of its cells', () => {
    const setup = setupOf(ROOM);
    const tables = buildLightTables(ROOM, SITE, setup, MODEL);
    const now = moment('2026-03-20', 11, 'overcast');
    const field = lightField(tables, now, setup);
    const off = { furniture: [] as number[], floor: [] as number[] };
    for (const face of field.faces.filter((f) => f.normal[2] === 1)) {
      const cells = [1, 2, 3].flatMap((i) =>
        [1, 2].map((j) => [Math.floor((i * face.nu) / 4), Math.floor((j * face.nv) / 3)] as const),
      );
      const places = cells.map(
        ([i, j], k): ProbePlace => ({ id: `${k}`, positionM: cellCentre(face, i, j), normal: [0, 0, 1] }),
      );
      const read = probeLight(tables, { before: now, after: now, share: 0 }, LEVELS, setup, places);
      cells.forEach(([i, j], k) => {
        if (read[k]!.covered) return;
        const cell = face.offset + j * face.nu + i;
        const shown =
          field.daylightLx[cell]! + LEVELS.inner * field.innerRowLx[cell]! + LEVELS.window * field.windowRowLx[cell]!;
        off[face.kind === 'floor' ? 'floor' : 'furniture'].push(shown / probeTotalLx(read[k]!) - 1);
      });
    }
    for (const kind of ['furniture', 'floor'] as const) {
      expect(off[kind].length).toBeGreaterThan(4);
      for (const o of off[kind]) expect(Math.abs(o)).toBeLessThan(TOLERANCE[kind]);
    }
  });
});

describe('instruments', () => {
  it('never change a run: digests are the same with and without them', () => {
    const story = smallStory();
    const script = timedActs();
    const run = (look: boolean): string[] => {
      const sim = createSimulation(story);
      const digests: string[] = [];
      for (let t = 0; t < 400; t++) {
        const step: StepResult = stepSimulation(
          sim,
          script.filter(({ tick }) => tick === t),
        );
        if (look && t % 25 === 0) {
          const places: ProbePlace[] = [{ id: 'p', positionM: [1 + t / 400, 2, 0], normal: [0, 0, 1] }];
          expect(probesOf(sim, step, places)[0]!.covered).toBe(false);
          expect(sum(photometersOf(sim, step).inner.parts) / step.light.readings.innerLx).toBeCloseTo(1, 6);
        }
        if (t % 50 === 0) digests.push(digestOf(sim.state));
      }
      return digests;
    };
    expect(run(true)).toEqual(run(false));
  });
});
