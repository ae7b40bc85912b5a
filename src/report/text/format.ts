/** Numbers, clocks and lengths of time as people read them. Pure; English and 24-hour clock. */
import type { Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';

const DAY_S = 86_400;
const THIN_SPACE = ' ';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

export interface ClockStart {
  localDate: string;
  /** HH:MM or HH:MM:SS */
  localTime: string;
}

const two = (n: number): string => String(n).padStart(2, '0');

/** Seconds after midnight of a clock text; NaN when it is none. */
export function clockToSeconds(text: string): number {
  const [h, m, s] = text.split(':').map(Number);
  if (h === undefined || m === undefined) return Number.NaN;
  return h * 3600 + m * 60 + (s ?? 0);
}

/** Seconds after local midnight at a tick, wrapped into the day. */
export function localSeconds(tick: Tick, start: ClockStart): number {
  const s = clockToSeconds(start.localTime) + tick / TICKS_PER_S;
  return ((s % DAY_S) + DAY_S) % DAY_S;
}

/** 11:24 */
export function hourMinute(s: number): string {
  const whole = Math.floor((((s % DAY_S) + DAY_S) % DAY_S) + 1e-6);
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}`;
}

/** 11:24:10 */
export function hourMinuteSecond(s: number): string {
  const whole = Math.floor((((s % DAY_S) + DAY_S) % DAY_S) + 1e-6);
  return `${hourMinute(whole)}:${two(whole % 60)}`;
}

/** Clock text of a tick: 11:24:10 */
export function clockAt(tick: Tick, start: ClockStart): string {
  return hourMinuteSecond(localSeconds(tick, start));
}

/** 4:12, or 1:04:12 from an hour on. Counts down without showing 0:00 before the end: rounds up. */
export function minuteSecond(s: number, round: 'up' | 'down' = 'up'): string {
  const whole = Math.max(0, round === 'up' ? Math.ceil(s - 1e-6) : Math.floor(s + 1e-6));
  const h = Math.floor(whole / 3600);
  const m = Math.floor(whole / 60) % 60;
  return h > 0 ? `${h}:${two(m)}:${two(whole % 60)}` : `${m}:${two(whole % 60)}`;
}

function counted(n: number, one: string): string {
  return `${n} ${one}${n === 1 ? '' : 's'}`;
}

/** 48 seconds; 3 minutes 12 seconds; 2 hours 5 minutes */
export function spokenLength(s: number): string {
  const whole = Math.max(0, Math.floor(s + 1e-6));
  if (whole < 60) return counted(whole, 'second');
  if (whole < 3600) {
    const rest = whole % 60;
    return counted(Math.floor(whole / 60), 'minute') + (rest ? ` ${counted(rest, 'second')}` : '');
  }
  const minutes = Math.floor(whole / 60) % 60;
  return counted(Math.floor(whole / 3600), 'hour') + (minutes ? ` ${counted(minutes, 'minute')}` : '');
}

/** Whole number with thin spaces: 1 000 */
export function grouped(n: number): string {
  return String(Math.round(n)).replace(/\B(?=(\d{3})+(?!\d))/g, THIN_SPACE);
}

/** Lux to read at a glance: steps of 1 under 50, 5 under 1 000, 10 above. The model holds no finer difference. */
export function luxNumber(lx: number): string {
  const step = lx < 50 ? 1 : lx < 1000 ? 5 : 10;
  return grouped(Math.max(0, Math.round(lx / step) * step));
}

export function luxText(lx: number): string {
  return `${luxNumber(lx)} lx`;
}

/** Lux beside the limit it meets: never rounded onto the other side of the limit. */
export function luxBeside(lx: number, limitLx: number): string {
  const rounded = luxText(lx);
  if (lx === limitLx || rounded !== luxText(limitLx)) return rounded;
  const exact = lx < limitLx ? Math.min(Math.floor(lx), limitLx - 1) : Math.max(Math.ceil(lx), limitLx);
  return `${grouped(exact)} lx`;
}

/** Light outside: 850 lx, 4.2 klx, 38 klx */
export function outsideText(lx: number): string {
  if (lx < 1000) return luxText(lx);
  return lx < 10_000 ? `${(lx / 1000).toFixed(1)} klx` : `${Math.round(lx / 1000)} klx`;
}

/** 22 September */
export function dayMonth(localDate: string): string {
  const [, month, day] = localDate.split('-').map(Number);
  return month && day ? `${day} ${MONTHS[month - 1] ?? ''}` : localDate;
}

/** Lengths of the months, February in a common year. */
const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 && leap ? 29 : (MONTH_DAYS[month - 1] ?? 30);
}

/** Date moved by whole days, as YYYY-MM-DD (Gregorian calendar; no zone is involved). */
export function shiftDate(localDate: string, days: number): string {
  let [year = 2000, month = 1, day = 1] = localDate.split('-').map(Number);
  day += days;
  while (day > daysIn(year, month)) {
    day -= daysIn(year, month);
    month = month === 12 ? 1 : month + 1;
    if (month === 1) year++;
  }
  while (day < 1) {
    month = month === 1 ? 12 : month - 1;
    if (month === 12) year--;
    day += daysIn(year, month);
  }
  return `${year}-${two(month)}-${two(day)}`;
}

/** 3.25 m, 2 m */
export function metres(m: number): string {
  return `${Number(m.toFixed(2))} m`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "a", "a and b", "a, b and c" */
export function joined(parts: readonly string[], last: 'and' | 'or' = 'and'): string {
  if (parts.length <= 1) return parts[0] ?? '';
  return `${parts.slice(0, -1).join(', ')} ${last} ${parts[parts.length - 1]}`;
}
