/** What real light does and a formula per desk would not: one test for each behaviour, in rooms of the engine. */
import { describe, expect, it } from 'vitest';
import { buildLightTables, lightRoom, outsideLight, sampleSky } from '../../src/engine/light/light.ts';
import type { OutsideLight } from '../../src/engine/light/parts.ts';
import { buildBlindPart, sensorDaylight } from '../../src/engine/light/parts.ts';
import type { LightTables } from '../../src/engine/light/types.ts';
import { cos, sin, tan } from '../../src/engine/math.ts';
import type { FaceId, RoomSpec, Setup } from '../../src/engine/types.ts';
import { degToRad } from '../../src/engine/units.ts';
import {
  INNER_DESK,
  INNER_PHOTOMETER,
  MODEL,
  moment,
  office,
  REFLECTANCE,
  SITE,
  setupOf,
  WINDOW_DESK,
  WINDOW_PHOTOMETER,
} from './support.ts';

function tablesOf(change: Partial<RoomSpec> = {}, setup: Partial<Setup> = {}): LightTables {
  const room = office(change);
  return buildLightTables(room, SITE, setupOf(room, setup), MODEL);
}

/** Sun at a height and true azimuth over a sky; 0 lx of beam = sky alone. */
function outside(
  t: LightTables,
  cieType: number,
  skyLx: number,
  beamLx = 0,
  altitudeDeg = 40,
  azimuthDeg = 180,
): OutsideLight {
  const altitude = degToRad(altitudeDeg);
  const bearing = degToRad(azimuthDeg - t.scene.yBearingDeg);
  return {
    cieType,
    sunAltitudeDeg: altitudeDeg,
    sunAzimuthDeg: azimuthDeg,
    horizontalSkyLx: skyLx,
    directNormalLx: beamLx,
    sunDirection: [cos(altitude) * sin(bearing), cos(altitude) * cos(bearing), sin(altitude)],
  };
}

function day(t: LightTables, light: OutsideLight): number[] {
  return sensorDaylight(t.parts.geometry, t.scene, t.parts.sensors, t.parts.blinds, light);
}

const BASE = tablesOf();
const CLEAR_SKY = outside(BASE, 12, 10_000);

describe('sky', () => {
  it('overcast: turning the house changes nothing; clear: it changes desk lux more than twofold', () => {
    const turned = tablesOf({ backWallFacesDeg: 0 });
    const overcast = day(BASE, outside(BASE, 1, 10_000));
    day(turned, outside(turned, 1, 10_000)).forEach((lx, s) => {
      expect(lx / overcast[s]!).toBeCloseTo(1, 6);
    });
    const clear = day(BASE, CLEAR_SKY)[INNER_DESK]! / day(turned, outside(turned, 12, 10_000))[INNER_DESK]!;
    expect(clear).toBeGreaterThan(2);
  });

  it('the same lux outside gives different lux inside under each sky, and another fall from window to depth', () => {
    const types = [1, 16, 5, 12];
    const inner = types.map((type) => day(BASE, outside(BASE, type, 10_000))[INNER_DESK]!);
    for (let k = 1; k < types.length; k++) expect(inner[k]!).toBeGreaterThan(inner[k - 1]! * 1.03);
    expect(inner[3]! / inner[0]!).toBeGreaterThan(2);
    const fall = types.map((type) => {
      const lx = day(BASE, outside(BASE, type, 10_000));
      return lx[WINDOW_DESK]! / lx[INNER_DESK]!;
    });
    expect(Math.max(...fall) / Math.min(...fall)).toBeGreaterThan(1.2);
  });

  it('overcast light inside is proportional to light outside; with sun it is not', () => {
    const one = day(BASE, outside(BASE, 1, 8000));
    day(BASE, outside(BASE, 1, 24_000)).forEach((lx, s) => {
      expect(lx / one[s]!).toBeCloseTo(3, 9);
    });
    const share = (altitudeDeg: number) => {
      const light = outside(BASE, 12, 10_000, 80_000, altitudeDeg);
      return day(BASE, light)[INNER_DESK]! / (10_000 + 80_000 * sin(degToRad(altitudeDeg)));
    };
    expect(share(20) / share(60)).toBeGreaterThan(2);
  });

  it('a cloud takes the beam, not the sky: window desks fall, desks away from the sun lose only light of the ground', () => {
    const keptInNorth = (groundReflectance: number) => {
      const room = office({ backWallFacesDeg: 0 });
      const north = buildLightTables(room, { ...SITE, groundReflectance }, setupOf(room), MODEL);
      const [sunny, hidden] = [80_000, 0].map((beam) => day(north, outside(north, 8, 20_000, beam))[INNER_DESK]!);
      return hidden! / sunny!;
    };
    expect(keptInNorth(0)).toBeCloseTo(1, 9);
    expect(keptInNorth(0.2)).toBeGreaterThan(0.5);
    const southSunny = day(BASE, outside(BASE, 8, 20_000, 80_000, 30));
    const southHidden = day(BASE, outside(BASE, 8, 20_000, 0, 30));
    expect(southHidden[WINDOW_DESK]! / southSunny[WINDOW_DESK]!).toBeLessThan(0.2);
  });

  it('a cloud passes within a minute, beam and all', () => {
    let steepest = 0;
    for (let s = 0; s < 7200; s += 10) {
      const at = (more: number) =>
        outsideLight(BASE, moment('2026-06-10', 10 + (s + more) / 3600, 'passingClouds')).directNormalLx;
      steepest = Math.max(steepest, Math.abs(at(10) - at(0)));
    }
    expect(steepest).toBeGreaterThan(15_000);
  });
});

describe('sun', () => {
  const roomWithoutDesks = (heightM: number) => {
    // A line of points from the façade inwards, on the axis of the left window.
    const points = Array.from({ length: 54 }, (_, k) => ({
      id: `p${k}`,
      label: '',
      row: 'inner' as const,
      atM: [1.7, 5.35 - 0.1 * k] as [number, number],
      heightM,
    }));
    const room = office({ furniture: [], deskPoints: points });
    room.windows = room.windows.map((w) => ({ ...w, revealM: 0 }));
    return buildLightTables(room, SITE, setupOf(room), MODEL);
  };
  /** Distance from the façade of the last point that the beam meets. */
  const depthM = (t: LightTables, altitudeDeg: number) => {
    const beam = day(t, outside(t, 12, 0, 90_000, altitudeDeg)).slice(2);
    let last = -1;
    beam.forEach((lx, k) => {
      if (lx > 5000) last = k;
    });
    return last < 0 ? 0 : 0.05 + 0.1 * last;
  };

  // Source: geometry, depth = (head - plane) / tan(altitude) for sun square to the façade.
  for (const altitudeDeg of [30, 45, 60]) {
    for (const heightM of [0, 0.74]) {
      it(`at ${altitudeDeg} degrees ends where geometry says, on a plane ${heightM} m high`, () => {
        const expected = (2.4 - heightM) / tan(degToRad(altitudeDeg));
        expect(Math.abs(depthM(roomWithoutDesks(heightM), altitudeDeg) - expected)).toBeLessThan(0.11);
      });
    }
  }

  it('reaches the inner desks in winter and not in summer', () => {
    expect(day(BASE, outside(BASE, 12, 0, 60_000, 18, 180))[INNER_DESK]!).toBeGreaterThan(5000);
    expect(day(BASE, outside(BASE, 12, 0, 90_000, 60, 180))[INNER_DESK]!).toBeLessThan(2000);
  });

  it('stands in the north at noon south of the equator', () => {
    const t = buildLightTables(office(), { ...SITE, latitudeDeg: -35, longitudeDeg: 0 }, setupOf(office()), MODEL);
    const light = outsideLight(t, moment('2026-06-10', 12));
    expect(light.sunAltitudeDeg).toBeGreaterThan(20);
    expect(Math.abs(((light.sunAzimuthDeg + 180) % 360) - 180)).toBeLessThan(15);
    // The room's windows face south: no beam.
    expect(sampleSky(t, moment('2026-06-10', 12)).daylightLx[WINDOW_DESK]!).toBeLessThan(3000);
  });

  it('drifts half an hour against the clock over the year', () => {
    // Azimuth at clock noon on the meridian; 15 degrees of hour angle an hour.
    const t = buildLightTables(office(), { ...SITE, longitudeDeg: 0 }, setupOf(office()), MODEL);
    const noon = (date: string) => {
      let best = 0;
      let height = -90;
      for (let minute = -25; minute <= 25; minute++) {
        const { sunAltitudeDeg } = outsideLight(t, moment(date, 12 + minute / 60));
        if (sunAltitudeDeg > height) {
          height = sunAltitudeDeg;
          best = minute;
        }
      }
      return best;
    };
    // Source: equation of time, -14.2 min in February, +16.4 min in November.
    expect(noon('2026-02-11') - noon('2026-11-03')).toBeGreaterThan(28);
    expect(noon('2026-02-11') - noon('2026-11-03')).toBeLessThan(33);
  });

  it('is weakened by glass when it grazes the façade', () => {
    const perBeam = (azimuthDeg: number) => {
      const light = outside(BASE, 12, 0, 90_000, 5, azimuthDeg);
      const { geometry, blinds } = BASE.parts;
      const lit = sensorDaylight(geometry, BASE.scene, BASE.parts.sensors, blinds, light);
      return lit[INNER_PHOTOMETER]! / cos(degToRad(azimuthDeg - 180));
    };
    // Light per cosine on the glass: at 80 degrees about half passes; the reveal takes its share too.
    expect(perBeam(180 + 80) / perBeam(180)).toBeLessThan(0.55);
  });

  it('lights the room evenly as it moves: no step of ten seconds jumps on a desk in the shade', () => {
    const room = office({ backWallFacesDeg: 150 });
    const t = buildLightTables(room, SITE, setupOf(room), MODEL);
    let before = sampleSky(t, moment('2026-06-10', 9)).daylightLx;
    for (let s = 10; s < 1200; s += 10) {
      const now = sampleSky(t, moment('2026-06-10', 9 + s / 3600)).daylightLx;
      expect(Math.abs(now[INNER_PHOTOMETER]! / before[INNER_PHOTOMETER]! - 1)).toBeLessThan(0.03);
      before = now;
    }
  });
});

describe('what the photometer sees', () => {
  const withDesks = (reflectance: number) =>
    tablesOf({}, { furniture: office().furniture.map((f) => ({ ...f, reflectance })) });
  const withFaces = (change: Partial<Record<FaceId, number>>) =>
    tablesOf({}, { reflectance: { ...REFLECTANCE, ...change } });
  const overcast = (t: LightTables) => day(t, outside(t, 1, 15_000));

  it('white paper on the desks raises its reading by more than 20 % and desk lux by less than 6 %', () => {
    const dark = withDesks(0.1);
    const light = withDesks(0.8);
    const reading = (t: LightTables) => t.rowLx.inner[INNER_PHOTOMETER]!;
    expect(reading(light) / reading(dark)).toBeGreaterThan(1.2);
    expect(light.rowLx.inner[INNER_DESK]! / dark.rowLx.inner[INNER_DESK]!).toBeLessThan(1.06);
  });

  it('a light carpet raises its reading two- to fourfold, desk lux by 3 to 20 %', () => {
    const dark = withFaces({ floor: 0.05 });
    const light = withFaces({ floor: 0.5 });
    const readings = light.rowLx.inner[INNER_PHOTOMETER]! / dark.rowLx.inner[INNER_PHOTOMETER]!;
    expect(readings).toBeGreaterThan(2);
    expect(readings).toBeLessThan(4.5);
    const desks = light.rowLx.inner[INNER_DESK]! / dark.rowLx.inner[INNER_DESK]!;
    expect(desks).toBeGreaterThan(1.03);
    expect(desks).toBeLessThan(1.2);
  });

  it('has no single ratio to desk lux: lamps and daylight differ by half and more', () => {
    const lamps = BASE.rowLx.inner[INNER_PHOTOMETER]! / BASE.rowLx.inner[INNER_DESK]!;
    const sky = overcast(BASE);
    const ratio = sky[INNER_PHOTOMETER]! / sky[INNER_DESK]! / lamps;
    expect(Math.max(ratio, 1 / ratio)).toBeGreaterThan(1.3);
  });

  it('a light ceiling helps inner desks more than window desks', () => {
    const dark = overcast(withFaces({ ceiling: 0.3 }));
    const light = overcast(withFaces({ ceiling: 0.85 }));
    const inner = light[INNER_DESK]! / dark[INNER_DESK]!;
    const window = light[WINDOW_DESK]! / dark[WINDOW_DESK]!;
    expect(inner).toBeGreaterThan(1.25);
    expect(window).toBeLessThan(inner - 0.1);
    expect(light[INNER_PHOTOMETER]! / dark[INNER_PHOTOMETER]!).toBeLessThan(inner);
  });

  it('each row of lamps shines into the other photometer too', () => {
    const cross = BASE.rowLx.inner[WINDOW_PHOTOMETER]! / BASE.rowLx.window[WINDOW_PHOTOMETER]!;
    expect(cross).toBeGreaterThan(0.15);
    expect(cross).toBeLessThan(0.8);
  });

  it('turning the detector round swaps its two photometers', () => {
    const turned = tablesOf({}, { mount: { atM: [3, 2.7], heightM: 2.8, turnDeg: 180 } });
    for (const row of ['inner', 'window'] as const) {
      expect(turned.rowLx[row][0]! / BASE.rowLx[row][1]!).toBeCloseTo(1, 2);
      expect(turned.rowLx[row][1]! / BASE.rowLx[row][0]!).toBeCloseTo(1, 2);
    }
  });
});

describe('furniture, blinds, doors, dirt', () => {
  it('a cabinet before a window darkens the desk behind it, takes its sun, and moves a reading that cannot see it', () => {
    const cabinet = {
      id: 'cabinet',
      kind: 'cabinet' as const,
      atM: [1.7, 5.1] as [number, number],
      turnDeg: 0 as const,
      widthM: 2.2,
      depthM: 0.4,
      heightM: 2.2,
      reflectance: 0.4,
    };
    const t = tablesOf({}, { furniture: [...office().furniture, cabinet] });
    const sun = outside(BASE, 12, 10_000, 80_000, 20, 180);
    expect(day(BASE, sun)[WINDOW_DESK]!).toBeGreaterThan(10_000);
    expect(day(t, sun)[WINDOW_DESK]!).toBeLessThan(4000);
    const [skyBefore, skyAfter] = [day(BASE, outside(BASE, 1, 10_000)), day(t, outside(t, 1, 10_000))];
    expect(skyAfter[WINDOW_DESK]! / skyBefore[WINDOW_DESK]!).toBeLessThan(0.6);
    // The inner photometer looks away from the windows.
    expect(skyAfter[INNER_PHOTOMETER]! / skyBefore[INNER_PHOTOMETER]!).toBeLessThan(0.9);
  });

  it('a closed blind: less light, flatter from window to depth, no sun patch', () => {
    const closed = tablesOf({}, { blinds: office().windows.map((w) => ({ windowId: w.id, closedShare: 1 })) });
    const light = outside(BASE, 12, 10_000, 80_000, 25, 180);
    const open = day(BASE, light);
    const shut = day(closed, light);
    for (let s = 0; s < open.length; s++) expect(shut[s]!).toBeLessThan(open[s]! * 0.5);
    const sky = outside(BASE, 1, 15_000);
    const fall = (lx: number[]) => lx[WINDOW_DESK]! / lx[INNER_DESK]!;
    expect(fall(day(closed, sky))).toBeLessThan(fall(day(BASE, sky)));
    expect(shut[WINDOW_DESK]!).toBeLessThan(1500);
    expect(shut[WINDOW_DESK]!).toBeGreaterThan(50);
  });

  it('a blind half down: the more it covers, the less light, and the upper part matters more to the depth', () => {
    const shares = [0, 0.25, 0.5, 0.75, 1].map((closedShare) => {
      const t = tablesOf({}, { blinds: office().windows.map((w) => ({ windowId: w.id, closedShare })) });
      return day(t, outside(t, 1, 15_000));
    });
    for (let k = 1; k < shares.length; k++) {
      for (let s = 0; s < shares[k]!.length; s++) expect(shares[k]![s]!).toBeLessThan(shares[k - 1]![s]!);
    }
    const lost = (s: number) => 1 - shares[1]![s]! / shares[0]![s]!;
    expect(lost(INNER_DESK)).toBeGreaterThan(0.2);
  });

  it('an open door adds its own light at any hour, most at the desk beside it', () => {
    const open = setupOf(office(), { doors: [{ doorId: 'door', open: true }] });
    const at = moment('2026-03-20', 1);
    const state = { before: sampleSky(BASE, at), after: sampleSky(BASE, { ...at, tick: 100 }) };
    const dark = lightRoom(BASE, state, 0, { inner: 0, window: 0 }, setupOf(office()));
    const lit = lightRoom(BASE, state, 0, { inner: 0, window: 0 }, open);
    expect(dark.deskLx).toEqual([0, 0, 0, 0]);
    expect(lit.deskLx[2]!).toBeGreaterThan(0.5);
    expect(lit.deskLx[2]!).toBeGreaterThan(lit.deskLx[1]!);
  });

  it('dirty lamps give their share less, and dirty glass lets its share less through', () => {
    const dirty = tablesOf({
      maintenanceFactor: 0.8,
      windows: office().windows.map((w) => ({ ...w, dirtFactor: 0.72 })),
    });
    dirty.rowLx.inner.forEach((lx, s) => {
      expect(lx / BASE.rowLx.inner[s]!).toBeCloseTo(0.8, 9);
    });
    const sky = outside(BASE, 1, 15_000);
    day(dirty, sky).forEach((lx, s) => {
      expect(lx / day(BASE, sky)[s]!).toBeCloseTo(0.8, 9);
    });
  });

  it('a deep reveal takes light from the side and sun that comes aslant, and shines a little itself', () => {
    const withReveal = (revealM: number) => tablesOf({ windows: office().windows.map((w) => ({ ...w, revealM })) });
    const [flush, deep] = [withReveal(0), withReveal(0.6)];
    const sky = outside(BASE, 5, 15_000);
    const kept = day(deep, sky)[INNER_DESK]! / day(flush, sky)[INNER_DESK]!;
    expect(kept).toBeLessThan(0.95);
    expect(kept).toBeGreaterThan(0.4);
    // Sun 65 degrees off the façade's normal: the reveal of 0.6 m hides 1.3 m of a window of 2 m.
    const aslant = outside(BASE, 12, 0, 80_000, 20, 180 + 65);
    const ceilingSees = day(deep, aslant)[WINDOW_PHOTOMETER]! / day(flush, aslant)[WINDOW_PHOTOMETER]!;
    expect(ceilingSees).toBeLessThan(0.6);
    expect(ceilingSees).toBeGreaterThan(0.1);
  });

  it('a glass screen between desks takes no light, a solid one does', () => {
    const screen = (kind: 'screen' | 'glassScreen') => ({
      id: 's',
      kind,
      atM: [3, 2.9] as [number, number],
      turnDeg: 0 as const,
      widthM: 5,
      depthM: 0.04,
      heightM: 1.8,
      reflectance: 0.2,
    });
    const sky = outside(BASE, 1, 15_000);
    const inner = (t: LightTables) => day(t, sky)[INNER_DESK]!;
    expect(inner(tablesOf({}, { furniture: [...office().furniture, screen('glassScreen')] }))).toBe(inner(BASE));
    expect(inner(tablesOf({}, { furniture: [...office().furniture, screen('screen')] })) / inner(BASE)).toBeLessThan(
      0.7,
    );
  });

  it('an obstruction opposite takes sky and low sun', () => {
    const room = office();
    const t = buildLightTables(room, { ...SITE, obstructionAltitudeDeg: 30 }, setupOf(room), MODEL);
    const sky = outside(BASE, 1, 15_000);
    expect(day(t, sky)[INNER_DESK]! / day(BASE, sky)[INNER_DESK]!).toBeLessThan(0.7);
    expect(day(t, sky)[INNER_DESK]!).toBeGreaterThan(20);
    const low = outside(BASE, 12, 0, 60_000, 20);
    expect(day(t, low)[WINDOW_DESK]!).toBeLessThan(1000);
    expect(day(BASE, low)[WINDOW_DESK]!).toBeGreaterThan(10_000);
  });
});

describe('lamps', () => {
  const withLamps = (change: Partial<RoomSpec['luminaires'][number]>) =>
    tablesOf({ luminaires: office().luminaires.map((l) => ({ ...l, ...change })) });

  it('light the desks less and the ceiling more when more of their light goes up', () => {
    const down = withLamps({ upShare: 0 });
    const up = withLamps({ upShare: 1 });
    expect(up.rowLx.inner[INNER_DESK]! / down.rowLx.inner[INNER_DESK]!).toBeLessThan(0.75);
    const ceilingLm = (t: LightTables) => {
      const { mesh, lampElementLx } = t.parts.geometry;
      let lm = 0;
      for (let e = 0; e < mesh.count; e++) if (mesh.surfaceOf[e] === 5) lm += lampElementLx[0]![e]! * mesh.areaM2[e]!;
      return lm;
    };
    expect(ceilingLm(down)).toBe(0);
    expect(ceilingLm(up) / 9600).toBeGreaterThan(0.95);
  });

  it('keep their lumens whatever their distribution', () => {
    for (const distribution of ['lambert', 'cosine3', 'batwing'] as const) {
      const { mesh, lampElementLx } = withLamps({ distribution }).parts.geometry;
      const caught = lampElementLx[1]!.reduce((sum, lx, e) => sum + lx * mesh.areaM2[e]!, 0);
      expect(caught).toBeCloseTo(9600, 6);
    }
  });

  it('a narrow lamp lights the desk below it more and walls less than a broad one', () => {
    const narrow = withLamps({ distribution: 'cosine3', upShare: 0 });
    const broad = withLamps({ distribution: 'batwing', upShare: 0 });
    expect(narrow.rowLx.inner[INNER_DESK]! / broad.rowLx.inner[INNER_DESK]!).toBeGreaterThan(1.2);
  });
});

describe('lamps and daylight together', () => {
  it('switching a row adds the same lux at noon as at midnight', () => {
    const added = [12, 0].map((hour) => {
      const at = moment('2026-06-10', hour);
      const state = { before: sampleSky(BASE, at), after: sampleSky(BASE, { ...at, tick: 100 }) };
      const [off, on] = [0, 1].map((level) =>
        lightRoom(BASE, state, 40, { inner: level, window: 0 }, setupOf(office())),
      );
      return on!.deskLx.map((lx, s) => lx - off!.deskLx[s]!);
    });
    added[0]!.forEach((lx, s) => {
      expect(lx).toBeCloseTo(added[1]![s]!, 6);
    });
    expect(added[0]![2]!).toBeGreaterThan(100);
  });

  it('coverage of the blind part equals a fresh sum over its rows', () => {
    const { geometry, sensors } = BASE.parts;
    const half = buildBlindPart(geometry, sensors, BASE.scene.openings.length, [0.5, 0.5, 0]);
    const total = (part: typeof half) => part.daylight.reduce((sum, v) => sum + v, 0);
    const open = total(BASE.parts.blinds);
    expect(total(half) / open).toBeGreaterThan(0.2);
    expect(total(half) / open).toBeLessThan(0.8);
    expect([...half.openShare].filter((share) => share === 0).length).toBeGreaterThan(0);
    expect([...half.openShare].filter((share) => share === 1).length).toBeGreaterThan(0);
  });
});
