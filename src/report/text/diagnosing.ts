/** Words of making a diagnosis: the room and its hidden cause, the complaint, candidates, tools, the recorded way. */
import type { FiguresByCause } from '../../exercise/authoring/figures.ts';
import { amountIn } from '../../exercise/authoring/figures.ts';
import type { Complaint, RecordedWay } from '../../exercise/diagnose/types.ts';
import { minuteSecond } from './format.ts';
import { outputName } from './names.ts';

export const diagnosingWords = {
  head: 'Make a diagnosis of your own',
  intro:
    'Hide a cause in a room, say what the client complains of, and solve it once yourself: what you do becomes the proof that it can be solved.',
  room: 'Room',
  storyRoom: (title: string): string => `The story as it is shown: ${title}`,
  jobRoom: (job: number, title: string): string => `As in job ${job}, ${title}`,
  begin: 'Hide a cause',
  goOn: (title: string): string => `Go on with ${title || 'the diagnosis begun'}`,
  notInJob: 'A job is open, and its room belongs to it. Open a story first, or take the room of a bundled diagnosis.',
  title: 'Your diagnosis',
  close: 'Back to the class',
  words: 'Words of the Job Card',
  fields: {
    title: 'Title (no word of the cause)',
    says: "The complaint in the client's words",
    question: 'Question, at most nine words',
    brief: 'Brief',
  },
  /** What a draft begins with. */
  first: {
    title: '',
    says: '',
    question: 'What is wrong here?',
    brief: 'A client complains. Find the cause, put it right, and prove it. Nothing need be broken.',
    hints: [
      'Begin with what costs least: ask, look, press, and read what the hand-held setter shows.',
      'Compare what the device says that it does with what the lamps and the people do.',
      'In another room the stopwatch showed 1:30 from the last movement: movement was counted, and the off-delay was the cause.',
    ] as [string, string, string],
  },
  hidden: 'The hidden cause',
  cause: 'Cause',
  second: 'And at the same time',
  none: 'no second one',
  healthy: 'nothing broken',
  scene: 'The complaint',
  from: 'Shows from',
  to: 'until',
  comes: 'The learner comes at',
  play: 'Play the room with every cause',
  playing: (share: number): string => `The room is played with every cause: ${Math.round(share * 100)} %`,
  kind: 'It shows as',
  notShown: 'In this scene nothing differs from the sound room. Choose another cause, a longer scene or another room.',
  limit: 'Counts from more than',
  times: (n: number): string => (n === 1 ? 'one switching' : `${n} switchings`),
  candidates: 'Causes that the learner chooses among',
  candidatesNote: (n: number): string =>
    `${n} chosen; 4 to 12 are needed, exactly one of them with nothing broken. Only causes that give the same complaint can stand here.`,
  doNotFit: (titles: readonly string[]): string => `Do not give this complaint here: ${titles.join('; ')}.`,
  tools: 'Tools in the Kit Bag',
  aid: 'Level of aid',
  skill: 'Counts for the skill',
  way: 'Your own way',
  wayNote:
    'Work the job as a learner would: readings until one cause is left, name it, put it right, prove it. Then keep it.',
  record: 'Record what I do',
  recordAgain: 'Record again',
  notRecorded: 'Nothing is recorded yet; without it the proofs are played by rule alone.',
  recorded: ({ answers, inputs }: RecordedWay): string =>
    `Recorded: ${answers.clips.length} readings, ${answers.claims.length === 0 ? 'no cause named' : 'a cause named'}, ${inputs.length} acts.`,
  band: 'You are recording your own way.',
  bandNote: 'Readings until one cause is left, the cause named, put right, and proved.',
  keepWay: 'Keep this as the solution',
  back: 'Back to the sheet',
} as const;

/** "Inner row off while somebody is there". */
export function complaintText(complaint: Complaint): string {
  const output = outputName[complaint.output];
  if (complaint.kind === 'switchings') return `${output} switches`;
  const who = { someone: ' while somebody is there', nobody: ' while nobody is there', either: '' }[complaint.who];
  return `${output} ${complaint.is}${who}`;
}

export function amountText(complaint: Complaint, amount: number): string {
  return complaint.kind === 'switchings' ? diagnosingWords.times(amount) : minuteSecond(amount, 'down');
}

/** How much of a complaint the cause shows, beside the sound room. */
export function shownText(complaint: Complaint, figures: FiguresByCause, cause: string): string {
  const of = (id: string): string => {
    const own = figures[id];
    return own ? amountText(complaint, amountIn(own, complaint)) : '?';
  };
  return `${complaintText(complaint)}: ${of(cause)} (sound room ${of('')})`;
}
