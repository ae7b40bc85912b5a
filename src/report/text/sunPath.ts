/** Words of the sun's path. */
export const pathWords = {
  region: "The sun's path",
  inRoom: "Draw the sun's path in the room",
  chart: "Chart of the sun's path over the plan, the horizon outside, the zenith in the middle",
  june: '21 June',
  december: '21 December',
  equinox: '20 March',
  key: 'The sky laid flat over the plan: horizon outside, zenith in the middle. Thick: this day. Thin: 21 June and 21 December. Dashed: 20 March. Bars outside: windows.',
  sunNow: (altitude: number, azimuth: number) =>
    altitude > 0
      ? `The sun stands ${altitude}° high, at ${azimuth}° from north.`
      : `The sun is ${-altitude}° below the horizon, at ${azimuth}° from north.`,
  upFrom: (rise: string, set: string, noon: number) =>
    `Up from ${rise} to ${set}; ${noon}° high when it stands highest.`,
  upAll: (noon: number) => `Up all day; ${noon}° high when it stands highest.`,
  never: 'It does not rise on this day.',
  compass: { n: 'N', e: 'E', s: 'S', w: 'W' },
} as const;
