/** Assessor's sheets as files: the computed mark, what the assessor says, and the seal of the attempt they belong to. */
import { canonicalJson, fnv64 } from '../../engine/digest.ts';
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import { type Parsed, parseFile } from '../../scenario/parse.ts';
import { type AssessmentFile, assessmentFile } from '../../scenario/schemas/assessment.ts';
import { sentence } from '../../scenario/sentences.ts';
import { sealOf } from '../attempt.ts';
import type { Attempt, Mark } from '../types.ts';
import { type Assessment, lacksReason, mostPoints, noteOf } from './assessment.ts';
import { criteriaOf } from './criteria.ts';

/** A sheet as it was written, with what was computed then. */
export interface WrittenSheet extends Pick<AssessmentFile, 'attempt' | 'exercise' | 'seed' | 'names' | 'total'> {
  assessment: Assessment;
}

const sheetSeal = (content: Omit<AssessmentFile, 'seal'>): string => fnv64(canonicalJson(content));

export function assessmentText(attempt: Attempt, mark: Mark, assessment: Assessment): string {
  const { exercise, seed, names } = attempt;
  const criteria = criteriaOf(mark).map(({ id, verdict, points, of }) => {
    const { code, comment, ruling } = noteOf(assessment, id);
    return { id, computed: { verdict, points, of }, code, comment, ruling };
  });
  const { assessor, date } = assessment;
  const { total, pass } = mark;
  const whose = { attempt: sealOf(attempt), exercise, seed, names, engine: ENGINE_VERSION };
  const content = { format: 1 as const, ...whose, total, pass, criteria, assessor, date };
  const seal = sheetSeal({ kind: 'assessment', ...content });
  return `${JSON.stringify({ kind: 'assessment', ...content, seal }, null, 1)}\n`;
}

/** What the shape cannot say, one sentence a fault. */
function faultsOf(fileName: string, { criteria }: AssessmentFile): string[] {
  return criteria.flatMap(({ id, computed, ruling }, i) => {
    if (ruling === null) return [];
    const at = ['criteria', i, 'ruling'];
    const most = mostPoints(computed);
    if (lacksReason(computed, ruling))
      return [sentence(fileName, [...at, 'reason'], `the reason for overriding ${id}`, ruling.reason)];
    return ruling.points > most
      ? [sentence(fileName, [...at, 'points'], `a whole number from 0 to ${most} for ${id}`, ruling.points)]
      : [];
  });
}

/** `fileName` only appears in sentences. */
export function readAssessment(text: string, fileName: string): Parsed<WrittenSheet> {
  const parsed = parseFile(assessmentFile, text, fileName);
  if (!parsed.ok) return parsed;
  const { seal, ...content } = parsed.value;
  const sentences = faultsOf(fileName, parsed.value);
  if (sentences.length > 0) return { ok: false, sentences };
  if (seal !== sheetSeal(content)) {
    return { ok: false, sentences: [`${fileName}: the seal does not fit the content; the file was changed by hand.`] };
  }
  const { attempt, exercise, seed, names, total, assessor, date } = content;
  const notes = content.criteria
    .map(({ id: criterion, code, comment, ruling }) => ({ criterion, code, comment, ruling }))
    .filter(({ code, comment, ruling }) => code !== '' || comment !== '' || ruling !== null);
  return { ok: true, value: { attempt, exercise, seed, names, total, assessment: { assessor, date, notes } } };
}

/** Criteria that the sheet speaks of and the mark does not have: written for another version of the exercise. */
export function strangeCriteria({ assessment }: WrittenSheet, mark: Mark): string[] {
  const known = criteriaOf(mark).map(({ id }) => id);
  return assessment.notes.map(({ criterion }) => criterion).filter((id) => !known.includes(id));
}
