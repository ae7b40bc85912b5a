import { getPosition } from 'suncalc';
import { describe, expect, it } from 'vitest';
import { localToUtcMs } from '../../src/engine/calendar.ts';
import { declinationDeg, equationOfTimeMin, skyDirection, sunPosition } from '../../src/engine/light/sky/sun.ts';

/** Difference of two bearings, degrees, as an angle on the sky at this altitude. */
function bearingApart(a: number, b: number, altitudeDeg: number): number {
  const apart = Math.abs(a - b) % 360;
  return Math.min(apart, 360 - apart) * Math.cos((altitudeDeg * Math.PI) / 180);
}

describe('the sun', () => {
  it('stands where the published worked example puts it', () => {
    // Reda & Andreas, NREL/TP-560-34302, table A5: zenith 50.11162, azimuth 194.34024 (delta T 67 s, 820 mbar, 11 C).
    // Left over: 0.0001 degrees, mostly another refraction formula.
    const options = { elevationM: 1830.14, pressureMbar: 820, temperatureC: 11 };
    const sun = sunPosition(Date.UTC(2003, 9, 17, 19, 30, 30), 39.742476, -105.1786, options);
    expect(Math.abs(sun.altitudeDeg - (90 - 50.11162))).toBeLessThan(0.0005);
    expect(Math.abs(sun.azimuthDeg - 194.34024)).toBeLessThan(0.0005);
  });

  it('agrees with another library everywhere on earth above 2 degrees', () => {
    // suncalc 2.0.2 (BSD): a short series, itself good to about 0.013 degrees.
    let checked = 0;
    for (const latitude of [-77.8, -54.8, -33.9, -18, -1.3, 0, 20, 39.7, 52.5, 69.6]) {
      for (let k = 0; k < 400; k++) {
        const utcMs = Date.UTC(2024, 0, 1) + k * 3.9 * 86_400_000 + k * 3_100_000;
        const longitude = ((k * 37) % 360) - 180;
        const own = sunPosition(utcMs, latitude, longitude);
        if (own.altitudeDeg < 2) continue;
        checked++;
        const other = getPosition(new Date(utcMs), latitude, longitude);
        const where = `${new Date(utcMs).toISOString()} at ${latitude}, ${longitude}`;
        expect(Math.abs(own.altitudeDeg - other.altitude), where).toBeLessThan(0.015);
        expect(bearingApart(own.azimuthDeg, other.azimuth, own.altitudeDeg), where).toBeLessThan(0.015);
      }
    }
    expect(checked).toBeGreaterThan(1500);
  });

  it('is in the north at noon in the southern hemisphere, in the south in the northern', () => {
    for (const localDate of ['2026-03-20', '2026-06-21', '2026-12-21']) {
      const south = sunPosition(localToUtcMs(localDate, 12 * 3600, 10), -43.5, 150);
      const north = sunPosition(localToUtcMs(localDate, 12 * 3600, 1), 48.2, 15);
      expect(Math.abs(((south.azimuthDeg + 180) % 360) - 180)).toBeLessThan(8);
      expect(Math.abs(north.azimuthDeg - 180)).toBeLessThan(8);
    }
  });

  it('never rises in the polar night and never sets on the polar day', () => {
    const altitudes = (localDate: string) =>
      Array.from({ length: 48 }, (_, k) => sunPosition(localToUtcMs(localDate, k * 1800, 1), 69.65, 18.96).altitudeDeg);
    expect(Math.max(...altitudes('2026-12-21'))).toBeLessThan(-2);
    expect(Math.min(...altitudes('2026-06-21'))).toBeGreaterThan(2);
  });

  it('lifts by refraction in proportion to air density, and not at all when asked not to', () => {
    const utcMs = localToUtcMs('2026-03-20', 7 * 3600, 1);
    const at = (options: object) => sunPosition(utcMs, 48.2, 16.4, options).altitudeDeg;
    const bare = at({ refraction: false });
    const lift = at({}) - bare;
    expect(lift).toBeGreaterThan(0.05);
    expect((at({ pressureMbar: 505 }) - bare) / lift).toBeCloseTo(0.5, 2);
    expect((at({ temperatureC: 40 }) - bare) / lift).toBeCloseTo(283 / 313, 2);
  });

  it('enters the engine in steps of 1e-5 degrees', () => {
    for (let k = 0; k < 50; k++) {
      const sun = sunPosition(1.77e12 + k * 12_345_678, 50, 8);
      for (const deg of [sun.altitudeDeg, sun.azimuthDeg]) expect(Math.round(deg * 1e5) / 1e5).toBe(deg);
      expect(sun.azimuthDeg).toBeGreaterThanOrEqual(0);
      expect(sun.azimuthDeg).toBeLessThan(360);
    }
  });

  it('is a sundial that runs from 14 minutes slow in February to 16 fast in November', () => {
    // Printed tables: -14 min 20 s around 11 February, +16 min 24 s around 3 November (differ by year by some seconds).
    expect(equationOfTimeMin(Date.UTC(2026, 1, 11, 12))).toBeCloseTo(-14.2, 0);
    expect(equationOfTimeMin(Date.UTC(2026, 10, 3, 12))).toBeCloseTo(16.4, 1);
    // A second of time of day moves nothing: the value belongs to the date, also across midnight.
    const midnight = Date.UTC(2026, 10, 4);
    expect(Math.abs(equationOfTimeMin(midnight) - equationOfTimeMin(midnight - 1000))).toBeLessThan(0.001);
    expect(declinationDeg(Date.UTC(2026, 5, 21, 8, 24))).toBeCloseTo(23.44, 2);
    expect(declinationDeg(Date.UTC(2026, 11, 21, 20, 50))).toBeCloseTo(-23.44, 2);
  });

  it('has directions of length one, east for a bearing of 90', () => {
    const [x, y, z] = skyDirection(0, 90);
    expect([x, y, z].map((v) => Math.round(v * 1e12) / 1e12)).toEqual([1, 0, 0]);
    const tilted = skyDirection(37, 211);
    expect(Math.hypot(...tilted)).toBeCloseTo(1, 12);
    expect(tilted[2]).toBeCloseTo(Math.sin((37 * Math.PI) / 180), 12);
  });
});
