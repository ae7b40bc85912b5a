/** The year as rows of a table: the command line prints it, the page shows it, and the plot is drawn from it. */
import { SKY_SHARES } from '../exercise/year/days.ts';
import type { DayResult, RowDay, YearResult } from '../exercise/year/types.ts';
import { hourMinute } from './text/format.ts';
import { rowName } from './text/names.ts';
import { MONTHS, yearWords } from './text/year.ts';

export interface RowMonth {
  litH: number;
  daylightH: number;
  timesOn: number;
}

/** Sums over the working days of one month, or of the year. */
export interface YearLine {
  label: string;
  inner: RowMonth;
  window: RowMonth;
  airH: number;
}

const HOUR_S = 3600;

function rowSum(days: readonly DayResult[], pick: (day: DayResult) => RowDay): RowMonth {
  const sum = { litH: 0, daylightH: 0, timesOn: 0 };
  for (const day of days) {
    const row = pick(day);
    sum.litH += (day.weightDays * row.litS) / HOUR_S;
    sum.daylightH += (day.weightDays * row.daylightS) / HOUR_S;
    sum.timesOn += day.weightDays * row.timesOn;
  }
  return sum;
}

function lineOf(label: string, days: readonly DayResult[]): YearLine {
  return {
    label,
    inner: rowSum(days, (day) => day.inner),
    window: rowSum(days, (day) => day.window),
    airH: days.reduce((sum, day) => sum + (day.weightDays * day.airS) / HOUR_S, 0),
  };
}

/** Days that stand for a month. */
const DAYS_A_MONTH = Object.keys(SKY_SHARES).length;

/** Months that have been worked out whole, then the sum of all days. */
export function yearLines({ days }: YearResult): YearLine[] {
  const months = MONTHS.flatMap((label, i) => {
    const inMonth = days.filter((day) => day.month === i + 1);
    return inMonth.length < DAYS_A_MONTH ? [] : [lineOf(label, inMonth)];
  });
  return [...months, lineOf(yearWords.wholeYear, days)];
}

/** Energy of a row, kWh: hours on x lamps x watts of one lamp. */
export function energyKwh(litH: number, lamps: number, lampW: number): number {
  return (litH * lamps * lampW) / 1000;
}

/** What was assumed, in sentences, before any figure. */
export function yearAssumptions({ schedule }: YearResult): string[] {
  const { kind, people, fromS, toS } = schedule;
  const say = kind === 'story' ? yearWords.storyDay : yearWords.officeDay;
  return [
    yearWords.days(SKY_SHARES),
    say(yearWords.persons(people), hourMinute(fromS), hourMinute(toS)),
    yearWords.typical,
    yearWords.promise,
  ];
}

/** Figures of one line as texts; kWh only when watts are known. */
export function yearCells(line: YearLine, lamps: YearResult['lamps'], lampW: number | null): string[] {
  const whole = (n: number) => String(Math.round(n));
  const row = (r: RowMonth, count: number) => [
    whole(r.litH),
    whole(r.daylightH),
    whole(r.timesOn),
    ...(lampW === null ? [] : [whole(energyKwh(r.litH, count, lampW))]),
  ];
  return [...row(line.inner, lamps.inner), ...row(line.window, lamps.window), whole(line.airH)];
}

/** Heads over `yearCells`. */
export function yearHeads(withEnergy: boolean): string[] {
  const row = [yearWords.lit, yearWords.byDaylight, yearWords.timesOn, ...(withEnergy ? [yearWords.energy] : [])];
  return [...row, ...row, yearWords.air];
}

/** The whole of it as lines of plain text. */
export function yearText(result: YearResult, lampW: number | null): string[] {
  const heads = yearHeads(lampW !== null);
  const each = (heads.length - 1) / 2;
  const widths = heads.map((head) => Math.max(head.length, 6));
  const cells = (texts: readonly string[]) => texts.map((text, i) => text.padStart(widths[i]!)).join('  ');
  const span = (from: number) => widths.slice(from, from + each).reduce((sum, w) => sum + w + 2, -2);
  const groups = [rowName.inner.padEnd(span(0)), rowName.window.padEnd(span(each)), 'Air contact'].join('  ');
  return [
    ...yearAssumptions(result),
    '',
    `${''.padEnd(6)}${groups}`,
    `${yearWords.month.padEnd(6)}${cells(heads)}`,
    ...yearLines(result).map((line) => `${line.label.padEnd(6)}${cells(yearCells(line, result.lamps, lampW))}`),
  ];
}
