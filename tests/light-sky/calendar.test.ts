import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  civilFromDays,
  dayOfYear,
  dayOfYearUtc,
  daysFromCivil,
  localToUtcMs,
  parseLocalDate,
  parseLocalTimeS,
  parseUtcMs,
  utcMsToLocal,
  utcSecondsOfDay,
} from '../../src/engine/calendar.ts';

const SEED = 20261125;

describe(`the calendar (seed ${SEED})`, () => {
  it('agrees with the host’s own for every day from year 1 to 9998', () => {
    for (let days = daysFromCivil(1, 1, 1); days < daysFromCivil(9999, 1, 1); days += 13) {
      const date = new Date(days * 86_400_000);
      const civil = civilFromDays(days);
      const same =
        civil.year === date.getUTCFullYear() &&
        civil.month === date.getUTCMonth() + 1 &&
        civil.day === date.getUTCDate() &&
        daysFromCivil(civil.year, civil.month, civil.day) === days;
      if (!same) expect(civil, date.toISOString()).toEqual({});
    }
  });

  it('turns local time into UTC and back, whatever the offset', () => {
    const moment = fc.record({
      days: fc.integer({ min: -100_000, max: 100_000 }),
      tenths: fc.integer({ min: 0, max: 863_999 }),
      quarterHours: fc.integer({ min: -48, max: 56 }),
    });
    fc.assert(
      fc.property(moment, ({ days, tenths, quarterHours }) => {
        const utcMs = days * 86_400_000 + tenths * 100;
        const { localDate, localTimeS } = utcMsToLocal(utcMs, quarterHours / 4);
        expect(localToUtcMs(localDate, localTimeS, quarterHours / 4)).toBe(utcMs);
        expect(localTimeS).toBeGreaterThanOrEqual(0);
        expect(localTimeS).toBeLessThan(86_400);
      }),
      { seed: SEED },
    );
  });

  it('goes on past midnight', () => {
    expect(localToUtcMs('2027-12-31', 86_400 + 60, 1)).toBe(Date.UTC(2027, 11, 31, 23, 1));
    expect(utcMsToLocal(Date.UTC(2027, 11, 31, 23, 30), 1)).toEqual({ localDate: '2028-01-01', localTimeS: 1800 });
  });

  it('counts the days of a year, leap years too', () => {
    expect(dayOfYear('2027-12-31')).toBe(365);
    expect(dayOfYear('2028-12-31')).toBe(366);
    expect(dayOfYear('2028-03-01')).toBe(61);
    expect(dayOfYearUtc(Date.UTC(2028, 2, 1, 23, 59))).toBe(61);
    expect(dayOfYearUtc(Date.UTC(2026, 0, 1))).toBe(1);
    expect(utcSecondsOfDay(Date.UTC(1969, 11, 31, 23, 0))).toBe(23 * 3600);
  });

  it('refuses dates and times that do not exist, naming them', () => {
    for (const bad of ['2027-02-29', '2100-02-29', '2026-13-01', '2026-04-31', '2026-1-1', '26-01-01', '']) {
      expect(() => parseLocalDate(bad)).toThrow(`"${bad}"`);
    }
    expect(parseLocalDate('2000-02-29')).toEqual({ year: 2000, month: 2, day: 29 });
    for (const bad of ['24:00', '7:30', '07:60', '07:30:61', '07.30']) {
      expect(() => parseLocalTimeS(bad)).toThrow(`"${bad}"`);
    }
    expect(parseLocalTimeS('07:30:15')).toBe(27_015);
    expect(parseUtcMs('2003-10-17T19:30:30Z')).toBe(Date.UTC(2003, 9, 17, 19, 30, 30));
    expect(() => parseUtcMs('2003-10-17 19:30:30')).toThrow('2003-10-17 19:30:30');
  });
});
