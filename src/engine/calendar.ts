/**
 * Civil calendar by arithmetic: no clock, no zone table, no daylight saving. Gregorian calendar for every year.
 * Source of the day count: the Gregorian leap-year rule (ISO 8601); the count from 1970-01-01 is its running sum.
 */

/** Milliseconds in a day of 86 400 s. Source: ISO 8601 (leap seconds are not counted, as in Unix time). */
export const DAY_MS = 86_400_000;
/** Days in 400 Gregorian years. Source: 400 x 365 + 97 leap days. */
const DAYS_PER_ERA = 146_097;
/** Days from 0000-03-01 to 1970-01-01. Source: the leap-year rule, counted. */
const DAYS_BEFORE_1970 = 719_468;

export interface CivilDate {
  year: number;
  month: number;
  day: number;
}

function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Days since 1970-01-01, negative before. Years start in March here, so the leap day comes last. */
export function daysFromCivil(year: number, month: number, day: number): number {
  const marchYear = month > 2 ? year : year - 1;
  const monthFromMarch = (month + 9) % 12;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  // 153 days in every five months from March (31 30 31 30 31): the rounding spreads them over the months.
  const dayOfMarchYear = Math.floor((153 * monthFromMarch + 2) / 5) + day - 1;
  const leapDays = Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100);
  return era * DAYS_PER_ERA + yearOfEra * 365 + leapDays + dayOfMarchYear - DAYS_BEFORE_1970;
}

/** Inverse of `daysFromCivil`. */
export function civilFromDays(days: number): CivilDate {
  const shifted = days + DAYS_BEFORE_1970;
  const era = Math.floor(shifted / DAYS_PER_ERA);
  const dayOfEra = shifted - era * DAYS_PER_ERA;
  const leapDays = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36_524) + Math.floor(dayOfEra / 146_096);
  const yearOfEra = Math.floor((dayOfEra - leapDays) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day };
}

/** Reads 'YYYY-MM-DD'. Throws a RangeError that names the text when it is no date of the calendar. */
export function parseLocalDate(localDate: string): CivilDate {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(localDate);
  const date = match && { year: Number(match[1]), month: Number(match[2]), day: Number(match[3]) };
  if (!date || date.month < 1 || date.month > 12 || date.day < 1 || date.day > daysInMonth(date.year, date.month)) {
    throw new RangeError(`"${localDate}" is not a date of the form YYYY-MM-DD`);
  }
  return date;
}

/** Reads 'HH:MM' or 'HH:MM:SS' as seconds after local midnight. Throws a RangeError that names the text. */
export function parseLocalTimeS(localTime: string): number {
  const match = /^(\d{2}):(\d{2})(?::(\d{2}))?$/.exec(localTime);
  const hours = Number(match?.[1]);
  const minutes = Number(match?.[2]);
  const seconds = Number(match?.[3] ?? 0);
  if (!match || hours > 23 || minutes > 59 || seconds > 59) {
    throw new RangeError(`"${localTime}" is not a time of the form HH:MM or HH:MM:SS`);
  }
  return hours * 3600 + minutes * 60 + seconds;
}

function two(value: number): string {
  return value < 10 ? `0${value}` : `${value}`;
}

/** 'YYYY-MM-DD' (years 0 to 9999). */
export function formatLocalDate(date: CivilDate): string {
  return `${`000${date.year}`.slice(-4)}-${two(date.month)}-${two(date.day)}`;
}

/**
 * Unix time in ms of a local date and time of day. `localTimeS` may lie outside one day (a run that goes past
 * midnight); `utcOffsetH` is local minus UTC and constant, there is no daylight saving.
 */
export function localToUtcMs(localDate: string, localTimeS: number, utcOffsetH: number): number {
  const { year, month, day } = parseLocalDate(localDate);
  return daysFromCivil(year, month, day) * DAY_MS + localTimeS * 1000 - utcOffsetH * 3_600_000;
}

/** Local date and seconds after its midnight (0 up to, not including, 86 400) of a Unix time in ms. */
export function utcMsToLocal(utcMs: number, utcOffsetH: number): { localDate: string; localTimeS: number } {
  const localMs = utcMs + utcOffsetH * 3_600_000;
  const days = Math.floor(localMs / DAY_MS);
  return { localDate: formatLocalDate(civilFromDays(days)), localTimeS: (localMs - days * DAY_MS) / 1000 };
}

/** Day of the year, 1 = 1 January. */
export function dayOfYear(localDate: string): number {
  const { year, month, day } = parseLocalDate(localDate);
  return daysFromCivil(year, month, day) - daysFromCivil(year, 1, 1) + 1;
}

/** Day of the year of the UTC date that holds this instant. */
export function dayOfYearUtc(utcMs: number): number {
  const days = Math.floor(utcMs / DAY_MS);
  return days - daysFromCivil(civilFromDays(days).year, 1, 1) + 1;
}

/** Seconds since the UTC midnight before this instant. */
export function utcSecondsOfDay(utcMs: number): number {
  const ms = utcMs % DAY_MS;
  return (ms < 0 ? ms + DAY_MS : ms) / 1000;
}

/** Unix time in ms of an instant written 'YYYY-MM-DDTHH:MM:SSZ'. Throws a RangeError that names the text. */
export function parseUtcMs(utc: string): number {
  const match = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2}(?::\d{2})?)Z$/.exec(utc);
  if (!match) throw new RangeError(`"${utc}" is not an instant of the form YYYY-MM-DDTHH:MM:SSZ`);
  return localToUtcMs(match[1]!, parseLocalTimeS(match[2]!), 0);
}
