/** Marked attempts of a class side by side: equal work, the table for a spreadsheet, skills. */
import { canonicalJson } from '../engine/digest.ts';
import { ENGINE_VERSION } from '../engine/simulation.ts';
import { type Assessment, assessed, isBlank, NO_ASSESSMENT } from './assessment/assessment.ts';
import { sealOf } from './attempt.ts';
import type { Attempt, Mark, SkillId } from './types.ts';

export interface Graded {
  file: string;
  attempt: Attempt;
  mark: Mark;
  /** Of the attempt; an assessor's sheet names it. */
  seal: string;
  remarks: string[];
}

export function gradedOf(file: string, attempt: Attempt, mark: Mark): Graded {
  const remarks: string[] = [];
  if (attempt.engine !== ENGINE_VERSION)
    remarks.push(`made with engine ${attempt.engine}, marked with ${ENGINE_VERSION}`);
  if (mark.firstMismatchTick !== null) remarks.push(`does not replay from tick ${mark.firstMismatchTick} on`);
  const strange = mark.diagnosis?.clipsNotAsShown ?? 0;
  if (strange > 0) remarks.push(`${strange} of its readings are not what the instrument shows when taken again`);
  return { file, attempt, mark, seal: sealOf(attempt), remarks };
}

/** The same list with remarks about equal work and about rooms used twice; what stands in `remarks` already stays. */
export function withTwins(graded: readonly Graded[]): Graded[] {
  const workOf = ({ attempt }: Graded): string => {
    const { exercise, seed, inputs, answers } = attempt;
    return canonicalJson({ exercise, seed, inputs, answers });
  };
  const roomOf = ({ attempt }: Graded): string => `${attempt.exercise}/${attempt.seed}`;
  return graded.map((one) => {
    const others = graded.filter((other) => other !== one);
    const same = others.filter((other) => workOf(other) === workOf(one));
    const room = others.filter((other) => roomOf(other) === roomOf(one) && !same.includes(other));
    const names = (list: readonly Graded[]): string => list.map(({ file }) => file).join(', ');
    return {
      ...one,
      remarks: [
        ...one.remarks,
        ...(same.length > 0 ? [`same work as ${names(same)}`] : []),
        ...(room.length > 0 ? [`same room as ${names(room)}`] : []),
      ],
    };
  });
}

function csvCell(value: string | number): string {
  const text = String(value);
  // A cell that begins like a formula would be worked by a spreadsheet.
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const SHEET_HEAD = ['computed', 'override', 'reason', 'assessed result', 'assessor', 'date of assessment'];

/** What an assessor's sheet adds to a line: both whole totals, why they differ, and who says so. */
function sheetCells({ mark }: Graded, sheet: Assessment = NO_ASSESSMENT): (string | number)[] {
  const { criteria, computed, total, pass, ruled } = assessed(mark, sheet);
  const reasons = criteria
    .filter((one) => one.ruled && one.note.ruling?.reason)
    .map(({ computed: { id }, note }) => `${id}: ${note.ruling?.reason}`);
  const result = isBlank(sheet) ? '' : resultWord(pass);
  return [computed, ruled ? total : '', reasons.join('; '), result, sheet.assessor, sheet.date];
}

const resultWord = (pass: boolean): string => (pass ? 'pass' : 'not yet');

/**
 * Comma-separated, one line an attempt, with a line of headings; a column for each part that any of the marks has.
 * `sheets`: assessor's sheets by the seal of their attempt.
 */
export function csvOf(graded: readonly Graded[], sheets: ReadonlyMap<string, Assessment> = new Map()): string {
  const parts = [...new Set(graded.flatMap(({ mark }) => mark.parts.map(({ id }) => id)))];
  const rows = graded.map((one) => {
    const { file, attempt, mark, remarks } = one;
    return [
      file,
      attempt.names.join(' and '),
      mark.exercise,
      mark.seed,
      mark.total,
      resultWord(mark.pass),
      ...parts.map((part) => mark.parts.find(({ id }) => id === part)?.points ?? ''),
      remarks.join('; '),
      ...sheetCells(one, sheets.get(one.seal)),
    ];
  });
  const head = ['file', 'names', 'exercise', 'seed', 'total', 'result', ...parts, 'remarks', ...SHEET_HEAD];
  return [head, ...rows].map((row) => `${row.map(csvCell).join(',')}\n`).join('');
}

/** A skill counts as mastered from so many attempts on. Source: the product's own profile. */
export const MASTERED_FROM = 4;
/** … and from this estimate. Source: the product's own profile. */
export const MASTERED_AT = 0.8;

export interface SkillLine {
  skill: SkillId;
  successes: number;
  attempts: number;
  /** (1 + successes) / (2 + attempts): Laplace's rule of succession. */
  estimate: number;
  mastered: boolean;
}

export function skillProfile(graded: readonly Graded[]): SkillLine[] {
  const sums = new Map<SkillId, { successes: number; attempts: number }>();
  for (const { mark } of graded) {
    for (const [skill, one] of Object.entries(mark.skills) as [SkillId, { successes: number; attempts: number }][]) {
      const sum = sums.get(skill) ?? { successes: 0, attempts: 0 };
      sums.set(skill, { successes: sum.successes + one.successes, attempts: sum.attempts + one.attempts });
    }
  }
  return [...sums].map(([skill, { successes, attempts }]) => {
    const estimate = (1 + successes) / (2 + attempts);
    return { skill, successes, attempts, estimate, mastered: attempts >= MASTERED_FROM && estimate >= MASTERED_AT };
  });
}
