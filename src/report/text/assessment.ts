/** Words of the assessor's sheet: criteria by name, what counts beside what was computed, and what is refused. */
import type { CriterionMark } from '../../exercise/assessment/criteria.ts';
import type { Verdict } from '../../exercise/commission/types.ts';
import { capital, joined } from './format.ts';
import { partName, proofName } from './marks.ts';
import { outputName, rowName } from './names.ts';

export const assessmentWords = {
  title: "Assessor's sheet",
  open: 'assess',
  openFor: (who: string): string => `Assess ${who}`,
  close: 'Back to the class',
  about: (job: string, room: number, names: readonly string[]): string =>
    `${job}, room ${room}${names.length > 0 ? `: ${joined(names)}` : ''}`,
  view: 'The class',
  views: { table: 'Attempts', matrix: 'Criteria' },
  matrixOf: (title: string): string => `${title}: criteria of the class`,
  learner: 'Learner',
  criterion: 'Criterion',
  byHand: 'given',
  next: (file: string): string => `Next: ${file}`,
  note: 'What was computed stays as it is; what you give stands beside it. Points are whole numbers.',
  simulated: 'Evidence from a simulated room, not from a measurement on site.',
  criteria: 'Criteria',
  columns: { criterion: 'Criterion and evidence', computed: 'Computed', assessor: 'Assessor' },
  written: 'Written by the learner',
  notWritten: 'Nothing was written.',
  code: 'College code',
  comment: 'Comment',
  ruling: 'What counts',
  asComputed: 'as computed',
  notMarked: 'not marked yet',
  points: 'Points',
  outOf: (most: number): string => `of ${most}`,
  reason: 'Reason',
  reasonNeeded: 'An override needs its reason. Until it has one, the computed verdict counts.',
  computed: 'Computed mark',
  counts: 'With what the assessor gives',
  of100: (points: number): string => `${points} of 100`,
  pass: 'pass',
  notYet: 'not yet',
  untouched: 'nothing given so far',
  assessor: 'Assessor',
  date: 'Date',
  signature: 'Signature',
  print: 'Print',
  save: 'Save as a file',
  openFile: 'Open a sheet',
  opened: (file: string): string => `${file} stands here now.`,
  backToBefore: 'Back to the sheet as it was before',
  withoutReason: (titles: readonly string[]): string =>
    `Not saved. ${joined(titles)}: an override needs its reason, or goes back to what was computed.`,
  notThisAttempt: (file: string, job: string, room: number, names: readonly string[]): string =>
    `${file} belongs to another attempt (${job}, room ${room}${names.length > 0 ? `, ${joined(names)}` : ''}). The sheet here stays as it is.`,
  otherCriteria: (file: string, ids: readonly string[]): string =>
    `${file} was written for another version of its job: this one has no criterion ${joined(ids, 'or')}. Nothing was taken from it.`,
  otherMark: (then: number, now: number): string =>
    `The sheet was written beside a computed mark of ${then}; computed again it is ${now}.`,
  hereAlready: (file: string): string =>
    `${file}: its attempt has another sheet in this browser. Open the file from that sheet to put it in its place.`,
  noAttempt: (file: string, job: string, room: number): string =>
    `${file}: it belongs to an attempt of ${job}, room ${room}, that is not among these files. Take both together.`,
  twice: (file: string): string => `${file}: another file here is the sheet of the same attempt.`,
  belongsInTray: (file: string): string =>
    `${file} is an assessor's sheet. Open it in the Class Tray, together with its attempt.`,
  notKept: 'This browser does not keep the sheet; save it as a file before you leave.',
} as const;

const OWN_TITLE: Readonly<Record<string, string>> = {
  'nothing-else': 'Nothing said that did not happen',
  'certain-before-repair': 'Cause certain before the first repair',
  'three-proofs': 'At least three of these shown',
  'complaint-gone': 'Complaint gone when the visit is played again',
  record: 'Record, as readings and acts fill it',
  advice: 'Advice to the client',
  'walk-pair': 'Two walks, one pace, two directions',
  'walk-seen-1': 'First walk: where it is seen',
  'walk-seen-2': 'Second walk: where it is seen',
  'walk-signal-1': 'First walk: largest signal',
  'walk-signal-2': 'Second walk: largest signal',
  'walk-earlier': 'Which is seen after the shorter way',
  'walk-why': 'Why',
};

/** What a criterion asks, in a few words. */
export function criterionTitle({ id, part, nth, lines }: Pick<CriterionMark, 'id' | 'part' | 'nth' | 'lines'>): string {
  const own = OWN_TITLE[id];
  if (own) return own;
  const say = lines[0]?.say;
  if (say?.code === 'criterion') return say.title;
  if (say && 'proof' in say) return `Shown: ${proofName[say.proof]}`;
  if (say && 'row' in say) return `Ratio of the ${rowName[say.row].toLowerCase()}`;
  if (say && 'output' in say && nth !== null) return `${outputName[say.output]}, switching ${nth}`;
  return capital(partName[part]);
}

/** Verdicts in the matrix and on the sheet, each beside its shape. */
export const criterionWord: Record<Verdict, string> = {
  met: 'met',
  half: 'half',
  missed: 'not yet',
  lecturer: 'to mark',
};
