/** Words of the year: what was assumed, said before any figure, and the heads of its table. */

export const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

export const yearWords = {
  open: 'The year',
  title: 'The year',
  close: 'Close',
  start: 'Work out the year',
  again: 'Work it out again',
  stop: 'Stop',
  stopped: 'Stopped before it was done.',
  progress: (share: number) => `${Math.floor(share * 100)} % worked out`,
  outdated: 'The room or its settings have changed since. These figures are of the room as it was.',
  failed: 'The year could not be worked out.',
  takes: 'About one to three minutes on this machine. The room behind goes on as it is.',
  assumed: 'What is assumed',
  days: (shares: { clear: number; passingClouds: number; overcast: number }) =>
    `36 days stand for the year: the 15th of each month under a clear sky, under passing clouds and under an overcast one, weighed ${percent(shares.clear)}, ${percent(shares.passingClouds)} and ${percent(shares.overcast)} in every month. Five days in seven are worked.`,
  typical: 'These are typical skies, not a forecast. Real weather may differ by half or by twice, real people more.',
  promise: 'Nothing here is a promise. It shows how this room, with these settings, answers to the seasons.',
  storyDay: (people: string, from: string, to: string) => `${people}, as in the story, from ${from} to ${to}.`,
  officeDay: (people: string, from: string, to: string) =>
    `${people} of the story in an office day of our own: coming from ${from}, out for lunch from 12:00 to 12:45, once to the door and back in the morning and in the afternoon, gone by ${to}. In between everybody types. Nobody presses a button, blinds and doors stay as they are now.`,
  persons: (count: number) => (count === 1 ? 'One person' : `${count} persons`),
  watts: 'Watts of one lamp',
  wattsHint: 'For kilowatt-hours, type what one lamp takes.',
  chart: 'Hours in each month',
  chartKey:
    'From left: I Inner row, W Window row, A Air contact. Solid: on. Hatched: someone there, off because daylight is enough.',
  table: 'The year as a table',
  month: 'Month',
  wholeYear: 'Year',
  lit: 'on, h',
  byDaylight: 'daylight enough, h',
  timesOn: 'times on',
  air: 'on, h',
  energy: 'kWh',
  hours: 'hours',
} as const;

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
