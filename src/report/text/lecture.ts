/** Words of the lecture: questions to a class, hands, the covered card, the recap. Read from the last row: short. */
import { outputName } from './names.ts';

/** `own`: the story's own question, answered by up to four guesses said aloud; no run can tell which was meant. */
export type QuestionKind = 'own' | 'first' | 'firstOff' | 'lastOff' | 'dark' | 'measure';

const GUESSES = ['First guess', 'Second guess', 'Third guess', 'Fourth guess'];

/** Options in the order that `report/tally.ts` counts them; of a measurement they are the tests that were proposed. */
const OPTIONS: Record<Exclude<QuestionKind, 'measure'>, string[]> = {
  own: GUESSES,
  first: [outputName.innerRow, outputName.windowRow, outputName.airContact, 'Two at once'],
  firstOff: [outputName.innerRow, outputName.windowRow, 'Both at once', 'Neither'],
  lastOff: [outputName.innerRow, outputName.windowRow, outputName.airContact, 'Two at once'],
  dark: GUESSES.slice(0, 3),
};

const hands = (n: number): string => (n === 1 ? '1 hand' : `${n} hands`);

export const lectureWords = {
  name: 'Lecture',
  leave: 'Workshop',
  strip: 'Questions of this lecture',
  tools: 'Lecture tools',
  questions: {
    own: 'The story’s own question',
    first: 'Which switches first?',
    firstOff: 'Which row goes off first?',
    lastOff: 'What goes off last?',
    dark: 'When do both rows go dark?',
    measure: 'Which measurement next?',
  } satisfies Record<QuestionKind, string>,
  options: OPTIONS,
  ask: 'Ask the class',
  askAnother: 'Ask another question',
  withdraw: 'Take it back',
  hands,
  total: (n: number): string => `${hands(n)} in all`,
  ofAll: (n: number, all: number): string => `${n} of ${hands(all)}`,
  tally: 'Show of hands',
  tallyKeys: 'Keys 1 to 4 add a hand, with Shift they take one away',
  more: (option: string): string => `One hand more: ${option}`,
  fewer: (option: string): string => `One hand fewer: ${option}`,
  lock: 'Lock answers',
  locked: 'Answers locked. Run.',
  whatSeen: 'What did you see?',
  show: 'Show what happened',
  happened: 'What happened',
  nothingYet: 'Nothing has switched since.',
  onAt: (output: string, on: boolean, clock: string): string => `${output} ${on ? 'on' : 'off'} ${clock}`,
  itWas: 'so it was',
  nearest: 'nearest',
  chosen: 'chosen',
  reveal: 'Reveal the reason',
  cover: 'Cover the reason',
  reason: 'Reason Card',
  whyOf: 'Reason of',
  guess: (n: number): string => GUESSES[n] ?? `Guess ${n + 1}`,
  placeGuess: (n: number): string => `Place on the strip: ${(GUESSES[n] ?? '').toLowerCase()}`,
  tapStrip: (n: number): string => `Tap the strip where the ${(GUESSES[n] ?? '').toLowerCase()} lies.`,
  earlier: (n: number): string => `${GUESSES[n]}: a minute earlier`,
  later: (n: number): string => `${GUESSES[n]}: a minute later`,
  tap: 'tap strip',
  floor: 'On the floor',
  view: 'View',
  recap: 'Recap',
  recapNote: 'What happened, and why',
  recapEmpty: 'Nothing has happened yet. Run the room first.',
  recapClose: 'Close',
  toWorkshop: 'The same room in Workshop',
  code: 'Short code',
  qr: 'The address as a QR code',
  localOnly:
    'This page runs on this machine alone. Others open the room in their own copy: under Class they type the short code.',
  lastPulse: (output: string): string =>
    `The last pulse before the ${output.replace(/^the /, '')} went off: its off-delay counted from here.`,
  too: (output: string): string => `${output} too.`,
  more2: 'More',
  drawer: 'Fault Drawer',
  drawerIntro: 'Pick a number. Which cause it is stands in the list of the Class page, not here.',
  pick: (n: number, of: number): string => `Pick ${n} of ${of}`,
  pickBy: (by: number): string => `${Math.abs(by)} ${by > 0 ? 'on' : 'back'}`,
  openPick: 'Put it into the room, hidden',
  splitBench: 'Split Bench',
  stepOf: (n: number): string => `Question ${n}`,
  candidates: 'Causes that still fit',
  stillFit: (n: number, of: number): string => `${n} of ${of} causes still fit`,
  trail: (counts: readonly number[]): string => counts.join(' → '),
  proposed: (n: number): string => `Measurement ${n + 1}`,
  measure: 'Take this measurement',
  measured: 'What we measured',
  measuring: 'Measuring',
} as const;
