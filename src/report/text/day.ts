/** Words of the day graph: light alone over one day of the sun. */
import type { DayLamps } from '../../engine/dayLight.ts';

export const dayWords = {
  open: 'The whole day',
  title: 'Light over the whole day',
  close: 'Close',
  intro: (date: string, sky: string) =>
    `${date}, ${sky}. Light alone, a sample every ten minutes: sun, sky, blinds and settings as they are now. Nobody walks, no delay runs.`,
  progress: (share: number) => `${Math.floor(share * 100)} % worked out`,
  lamps: 'Lamps',
  lampWords: {
    off: 'all off',
    asNow: 'as they are now',
    bySetpoint: 'as the setpoints switch them',
  } satisfies Record<DayLamps, string>,
  bySetpoint: 'With somebody there all day; dwells are left out, so the run itself switches a few minutes later.',
  desks: 'Poorest desk, lux',
  readings: 'Ceiling reading, lux',
  estimates: 'Daylight estimate, lux',
  lit: 'Lamps',
  rowAt: (row: string, place: string) => `${row} · ${place}`,
  set: (lx: string) => `set ${lx}`,
  release: (lx: string) => `release ${lx}`,
  now: 'now',
  night: 'sun down',
  table: 'The day as a table, every hour',
  time: 'Time',
  tableDesk: (row: string) => `${row}: poorest desk, lx`,
  tableReading: (row: string) => `${row}: ceiling reading, lx`,
  tableEstimate: (row: string) => `${row}: daylight estimate, lx`,
  tableLit: (row: string) => `${row}: lamps`,
  on: 'on',
  off: 'off',
  under: (lx: number) => `under ${lx}`,
} as const;
