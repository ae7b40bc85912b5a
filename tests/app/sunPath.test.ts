import { getPosition, getTimes } from 'suncalc';
import { describe, expect, it } from 'vitest';
import { riseAndSet } from '../../src/app/panels/insight/SunChart.tsx';
import { domeOf, onDome, waysAbove } from '../../src/app/scene/overlay/sunDome.ts';
import { localToUtcMs } from '../../src/engine/calendar.ts';
import { declinationDeg } from '../../src/engine/light/sky/sun.ts';
import { boundingDates, PATH_EVERY_S, sunPath } from '../../src/engine/light/sky/sunPath.ts';
import { smallStory } from '../support/smallStory.ts';

/** Places with their zone and a date; the day's path is drawn from them. */
const PLACES = [
  { name: 'middle of Europe', latitudeDeg: 50.6, longitudeDeg: 10.2, utcOffsetH: 1, date: '2026-09-22' },
  { name: 'far south', latitudeDeg: -41.3, longitudeDeg: 174.8, utcOffsetH: 12, date: '2026-07-08' },
  { name: 'near the equator', latitudeDeg: 1.3, longitudeDeg: 103.8, utcOffsetH: 8, date: '2026-03-20' },
  { name: 'beyond the polar circle', latitudeDeg: 69.6, longitudeDeg: 18.9, utcOffsetH: 1, date: '2026-06-21' },
];

function pathAt(i: number, date = PLACES[i]!.date) {
  const { latitudeDeg, longitudeDeg, utcOffsetH } = PLACES[i]!;
  return sunPath(latitudeDeg, longitudeDeg, date, utcOffsetH).points;
}

describe("the sun's path", () => {
  for (const [i, { name, latitudeDeg, longitudeDeg, utcOffsetH, date }] of PLACES.entries()) {
    it(`agrees with suncalc at every point above 2 degrees: ${name}`, () => {
      // suncalc 2 (BSD-2, another ephemeris): degrees, azimuth from north. The rest is its shorter series and refraction.
      let compared = 0;
      for (const point of pathAt(i)) {
        if (point.altitudeDeg < 2 || point.altitudeDeg > 88) continue;
        const utcMs = localToUtcMs(date, point.localS, utcOffsetH);
        const other = getPosition(new Date(utcMs), latitudeDeg, longitudeDeg);
        compared++;
        expect(Math.abs(point.altitudeDeg - other.altitude)).toBeLessThan(0.05);
        const turn = ((point.azimuthDeg - other.azimuth + 540) % 360) - 180;
        expect(Math.abs(turn) * Math.cos((point.altitudeDeg * Math.PI) / 180)).toBeLessThan(0.05);
      }
      expect(compared).toBeGreaterThan(30);
    });
  }

  it('culminates at 90 degrees less latitude, plus declination: between the limits of the two solstices', () => {
    // Spherical astronomy: at upper culmination altitude = 90 - |latitude - declination|.
    for (const [i, { latitudeDeg, longitudeDeg, utcOffsetH, date }] of PLACES.entries()) {
      for (const day of [date, ...Object.values(boundingDates(date))]) {
        const { points } = sunPath(latitudeDeg, longitudeDeg, day, utcOffsetH, 60);
        const high = Math.max(...points.map((p) => p.altitudeDeg));
        const noon = points.find((p) => p.altitudeDeg === high)!;
        const declination = declinationDeg(localToUtcMs(day, noon.localS, utcOffsetH));
        // A minute's step near the zenith, refraction of up to 0.1 degrees near 10, parallax of 0.002.
        if (high > 10)
          expect(Math.abs(high - (90 - Math.abs(latitudeDeg - declination))), `${i} ${day}`).toBeLessThan(0.15);
        expect(Math.abs(declination)).toBeLessThanOrEqual(23.45);
      }
    }
    const { june, december, equinox } = boundingDates('2026-09-22');
    expect(declinationDeg(localToUtcMs(june, 43_200, 0))).toBeCloseTo(23.44, 1);
    expect(declinationDeg(localToUtcMs(december, 43_200, 0))).toBeCloseTo(-23.44, 1);
    expect(Math.abs(declinationDeg(localToUtcMs(equinox, 43_200, 0)))).toBeLessThan(0.5);
  });

  it('stands in the north at noon in the far south', () => {
    const points = pathAt(1);
    const noon = points.reduce((best, p) => (p.altitudeDeg > best.altitudeDeg ? p : best));
    expect(Math.min(noon.azimuthDeg, 360 - noon.azimuthDeg)).toBeLessThan(3);
  });

  it('never ends on a polar day, never begins on a polar night', () => {
    expect(riseAndSet(pathAt(3))).toMatchObject({ riseS: null, setS: null });
    expect(Math.min(...pathAt(3).map((p) => p.altitudeDeg))).toBeGreaterThan(0);
    const night = riseAndSet(pathAt(3, '2026-12-21'));
    expect(night).toMatchObject({ riseS: null, setS: null });
    expect(night.highDeg).toBeLessThan(0);
  });

  it('rises and sets when suncalc says so, within a minute and a half', () => {
    // Both mean the upper edge of the disc with mean refraction. Left over: refraction formulas differ by 0.1 degrees at the
    // horizon, and a chord of ten minutes.
    for (const i of [0, 1]) {
      const { latitudeDeg, longitudeDeg, utcOffsetH, date } = PLACES[i]!;
      const { riseS, setS } = riseAndSet(pathAt(i));
      const times = getTimes(new Date(localToUtcMs(date, 43_200, utcOffsetH)), latitudeDeg, longitudeDeg);
      const midnight = localToUtcMs(date, 0, utcOffsetH);
      expect(Math.abs(riseS! - (times.sunrise!.getTime() - midnight) / 1000)).toBeLessThan(90);
      expect(Math.abs(setS! - (times.sunset!.getTime() - midnight) / 1000)).toBeLessThan(90);
    }
  });

  it('has both midnights and a point every ten minutes', () => {
    expect(pathAt(0)).toHaveLength(86_400 / PATH_EVERY_S + 1);
  });
});

describe('the dome over the model', () => {
  const room = { ...smallStory().room, backWallFacesDeg: 180 };
  const dome = domeOf(room);

  it('puts a sun in the south before a back wall that faces south, one in the zenith overhead', () => {
    const [x, y, z] = onDome(dome, 0, 180);
    expect(x).toBeCloseTo(room.widthM / 2, 9);
    expect(y).toBeCloseTo(room.depthM / 2 + dome.radiusM, 9);
    expect(z).toBeCloseTo(0, 9);
    expect(onDome(dome, 90, 12)[2]).toBeCloseTo(dome.radiusM, 9);
    // West of a room that looks south lies at its right.
    expect(onDome(dome, 0, 270)[0]).toBeGreaterThan(room.widthM);
  });

  it('draws one way by day, one whole ring on a polar day, none on a polar night', () => {
    expect(waysAbove(dome, pathAt(0))).toHaveLength(1);
    const [way] = waysAbove(dome, pathAt(0));
    expect(way![0]![2]).toBeCloseTo(0, 1);
    expect(way!.at(-1)![2]).toBeCloseTo(0, 1);
    const ring = waysAbove(dome, pathAt(3));
    expect(ring).toHaveLength(1);
    expect(ring[0]).toHaveLength(145);
    expect(waysAbove(dome, pathAt(3, '2026-12-21'))).toEqual([]);
  });
});
