/** What an assessor says of an attempt beside its computed mark: both are kept, neither changes the other. */
import { canonicalJson } from '../../engine/digest.ts';
import { PASS_POINTS } from '../diagnose/score.ts';
import type { Mark } from '../types.ts';
import { type CriterionMark, criteriaOf, isEnough } from './criteria.ts';

/** A verdict in place of the computed one, or where nothing was computed. */
export interface Ruling {
  verdict: 'met' | 'half' | 'missed';
  /** Whole points; counted up to what the criterion is worth. */
  points: number;
  /** Needed wherever something was computed. */
  reason: string;
}

export interface Note {
  criterion: string;
  /** What the college calls this criterion. */
  code: string;
  comment: string;
  ruling: Ruling | null;
}

export interface Assessment {
  /** As typed. */
  assessor: string;
  date: string;
  /** At most one for a criterion; a criterion without one stands as computed. */
  notes: Note[];
}

export const NO_ASSESSMENT: Assessment = { assessor: '', date: '', notes: [] };

export function noteOf({ notes }: Assessment, criterion: string): Note {
  return notes.find((note) => note.criterion === criterion) ?? { criterion, code: '', comment: '', ruling: null };
}

/** The assessment with one note changed; a note that says nothing any more is left out. */
export function withNote(assessment: Assessment, note: Note): Assessment {
  const others = assessment.notes.filter(({ criterion }) => criterion !== note.criterion);
  const isBare = note.code === '' && note.comment === '' && note.ruling === null;
  return { ...assessment, notes: isBare ? others : [...others, note] };
}

/** Whether two sheets say the same, in whatever order they were written. */
export function isSame(a: Assessment, b: Assessment): boolean {
  const inOrder = (one: Assessment): Assessment => ({
    ...one,
    notes: [...one.notes].sort((x, y) => (x.criterion < y.criterion ? -1 : 1)),
  });
  return canonicalJson(inOrder(a)) === canonicalJson(inOrder(b));
}

export function isBlank({ assessor, date, notes }: Assessment): boolean {
  return assessor === '' && date === '' && notes.length === 0;
}

/** An override tells why; where the program has no verdict there is nothing to override. */
export function lacksReason(computed: Pick<CriterionMark, 'verdict'>, ruling: Ruling | null): boolean {
  return ruling !== null && computed.verdict !== 'lecturer' && ruling.reason.trim() === '';
}

/** Most whole points that can be given for a criterion. */
export function mostPoints({ of }: Pick<CriterionMark, 'of'>): number {
  return Math.ceil(of);
}

/** Whole points that go with a verdict before somebody changes them. */
export function pointsFor(of: number, verdict: Ruling['verdict']): number {
  return verdict === 'met' ? Math.ceil(of) : verdict === 'half' ? Math.round(of / 2) : 0;
}

export interface AssessedCriterion {
  computed: CriterionMark;
  note: Note;
  /** What counts: the assessor's where there is a ruling with its reason, else the computed. */
  verdict: CriterionMark['verdict'];
  points: number;
  ruled: boolean;
}

function assessedCriterion(computed: CriterionMark, note: Note): AssessedCriterion {
  const { ruling } = note;
  if (ruling === null || lacksReason(computed, ruling)) {
    return { computed, note, verdict: computed.verdict, points: computed.points, ruled: false };
  }
  return { computed, note, verdict: ruling.verdict, points: Math.min(ruling.points, computed.of), ruled: true };
}

export interface Assessed {
  criteria: AssessedCriterion[];
  /** Whole points of 100, by the computed mark and with what the assessor gives. */
  computed: number;
  total: number;
  pass: boolean;
  /** Something counts that the assessor gave. */
  ruled: boolean;
}

/** A total as a whole number that never reads like a pass when it is none. */
export function wholeTotal(total: number): number {
  const whole = Math.round(total);
  return total < PASS_POINTS ? Math.min(whole, PASS_POINTS - 1) : whole;
}

/** The mark with the assessor's rulings in it, by the same rule for a pass as the computed one. */
export function assessed(mark: Mark, assessment: Assessment): Assessed {
  const criteria = criteriaOf(mark).map((one) => assessedCriterion(one, noteOf(assessment, one.id)));
  const sum = criteria.reduce((total, { points }) => total + points, 0);
  const most = criteria.map(({ computed, verdict }) => (verdict === 'met' ? null : computed.mostWithout));
  // To 0.1, as the computed total is: sums of thirds must not miss a pass by their last binary digit.
  const total = Math.min(Math.round(sum * 10) / 10, 100, ...most.map((points) => points ?? 100));
  const enough = criteria.every(({ computed, verdict }) => isEnough({ verdict, must: computed.must }));
  return {
    criteria,
    computed: wholeTotal(mark.total),
    total: wholeTotal(total),
    pass: total >= PASS_POINTS && enough,
    ruled: criteria.some(({ ruled }) => ruled),
  };
}
