/** Sentences that stand over the picture until they are closed. */
export const notices = {
  lockedInJob: 'This job does not allow that; its paper says what may be done.',
  storage: 'This browser stores nothing here, so a reload would lose the run.',
  saveDamaged: 'The run kept in this browser could not be read; it was put aside, and the story begins at its start.',
  pressWaits: 'The room stands still: the press acts as soon as it runs or steps on.',
  pausedHidden: 'Paused while the page was out of sight.',
  begunAnew: 'The story begins again from its start.',
  bringRunBack: 'Bring the run back',
  pageFailed: 'A part of this page could not be shown. Reload it; the run is kept.',
  idTaken: (file: string, id: string): string =>
    `${file}: id: expected one that no story of this app has, got “${id}”.`,
  storiesFailed: 'The stories could not be read. Reload the page.',
  unknownStory: (id: string): string => `There is no story called “${id}”. The first one is shown.`,
  shareFailed: (url: string): string => `The link could not be copied. It is: ${url}`,
} as const;
