/** Words of the class page: a code for a class, its key, and the tray that marks attempts again. */
import type { SkillId } from '../../exercise/types.ts';

/** What a pair has done about a job of its class; points where it has been handed in. */
export type JobProgress = { state: 'new' | 'begun' } | { state: 'passed' | 'handedIn'; points: number };

const STATE_WORD = { begun: 'begun', passed: 'passed', handedIn: 'handed in' } as const;

function progressText(progress: JobProgress): string {
  if (progress.state === 'new') return '';
  const points = 'points' in progress ? `, ${progress.points} of 100` : '';
  return ` · ${STATE_WORD[progress.state]}${points}`;
}

export const classWords = {
  title: 'Class',
  intro: 'Nothing leaves this machine. A code stands for a plan; every page works out the same rooms from it.',
  workHead: 'Work with a code',
  code: 'Class code',
  bench: 'Bench',
  notACode: 'That is not a class code: six digits and letters, as the lecturer wrote them.',
  shortCode: 'Short code of a lecture',
  openShort: 'Open',
  shortFault: {
    unknown:
      'No story or job has this short code. It is a name and a number, as Recap shows it: stays-dark 17, for example.',
    classCode: 'That is a class code. It goes into the field for the class code.',
    noNumber: 'The number is missing: the same job in another room is another job.',
    otherNumber: 'This story has another number here: the lecture came from another version.',
  },
  openJob: (job: number, title: string, progress: JobProgress): string =>
    `Open ${job} ${title}${progressText(progress)}`,
  room: (code: string, seed: number): string => `Class ${code.trim().toUpperCase()}, room ${seed}`,
  nextJob: (job: number, title: string): string => `Next job: ${job} ${title}`,
  allJobs: 'Jobs of the class',
  noJobs: 'This version has none of the jobs of this code.',
  makeHead: 'Make a code',
  jobs: 'Jobs',
  aid: 'Level of aid',
  separate: 'Every bench gets a room of its own',
  series: 'Series',
  seriesHint: 'Another series gives other rooms for the same jobs.',
  codeIs: 'The code of this class',
  key: 'Key for the lecturer',
  keyOf: (job: string, bench: number | null, room: number): string =>
    `${job}, ${bench === null ? '' : `bench ${bench}, `}room ${room}`,
  makeKey: (benches: number): string => `Work out the key of ${benches} benches`,
  keyBusy: (done: number, of: number): string => `Working: ${done} of ${of} rooms`,
  keyNote: 'What each room does. Print it, or keep this page closed while the class looks on.',
  print: 'Print',
  stays: 'does not switch',
  trayHead: 'Class Tray',
  trayNote: 'Choose the attempts of a class, or drop them here. Each is played again and marked anew.',
  chooseFiles: 'Choose attempts',
  marking: (done: number, of: number): string => `Marking: ${done} of ${of}`,
  columns: ['file', 'names', 'job', 'room', 'total', 'result', 'assessed', 'remarks'],
  pass: 'pass',
  notYet: 'not yet',
  csv: 'Save as CSV',
  look: 'look at it',
  unread: 'Not marked',
  profile: 'Skills of this class',
  skillColumns: ['skill', 'right', 'of', 'estimate', 'result'],
  mastered: 'mastered',
  close: 'Close',
} as const;

export const skillName: Record<SkillId, string> = {
  powerUp: 'power-up and phases',
  delays: 'delays, and what restarts them',
  brightness: 'brightness, release and mixed light',
  buttons: 'what buttons hold',
  airContact: 'air contact',
  extensions: 'extension pulses',
  wiring: 'wiring faults',
  safeIsolation: 'safe isolation',
};
