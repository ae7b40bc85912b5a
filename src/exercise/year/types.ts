/** A year of a room in 36 days: what is asked, and what comes out. */
import type { ControllerSettings, Scenario, Setup, SkyCondition } from '../../engine/types.ts';

/** The room as it is now, for a year of days. */
export interface YearOrder {
  scenario: Scenario;
  setup: Setup;
  settings: ControllerSettings;
}

/** One of the 36 days: `weightDays` working days of the year are like it. */
export interface YearDay {
  /** 1 = January. */
  month: number;
  sky: SkyCondition;
  localDate: string;
  weightDays: number;
}

/** One row over one day. Lit: its contact is closed. By daylight: off, with people there, because daylight is enough. */
export interface RowDay {
  litS: number;
  daylightS: number;
  timesOn: number;
}

export interface DayResult extends YearDay {
  inner: RowDay;
  window: RowDay;
  airS: number;
}

/** Who was there, for the words above the figures. Clock times in s after midnight. */
export interface Schedule {
  /** The story's own day, or the simple office day that stands in for a short story. */
  kind: 'story' | 'office';
  people: number;
  fromS: number;
  toS: number;
}

export interface YearResult {
  schedule: Schedule;
  days: DayResult[];
  lamps: { inner: number; window: number };
}
