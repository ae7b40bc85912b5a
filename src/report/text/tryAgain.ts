/** Words of trying again from a moment of a result. */
export const tryWords = {
  from: 'try from here',
  region: 'Trying again',
  head: (clock: string): string => `A copy of your run, from ${clock} on`,
  how: 'Do something else in it, here or further back, and let it run: any act is open. The copy is never marked. Your attempt and its result stay as they are.',
  back: 'Back to the result',
} as const;
