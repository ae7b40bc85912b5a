/** What the assessor's sheet says of a criterion: its evidence, line by line, each with its clock; the learner's words. */
import type { CriterionMark } from '../exercise/assessment/criteria.ts';
import type { CommissionLine } from '../exercise/commission/types.ts';
import { benchScenario } from '../exercise/edits.ts';
import type { Attempt, Exercise, LineCode } from '../exercise/types.ts';
import { lineText, provingClock } from './text/commission.ts';
import { clockAt } from './text/format.ts';
import { markLineText } from './text/jobs.ts';
import { diagnoseSentence } from './text/marks.ts';
import { ratioLineText, tagLineText } from './text/observe.ts';

export interface EvidenceLine {
  /** Clock of the learner's run; null: the line has no instant in it. */
  clock: string | null;
  text: string;
}

type Clock = (s: number) => string;
type ProvingClock = (day: string, s: number) => string;

function isOf<C extends LineCode['code']>(say: LineCode, ...codes: C[]): say is Extract<LineCode, { code: C }> {
  return (codes as string[]).includes(say.code);
}

function sentenceOf(say: LineCode, clock: Clock, proving: ProvingClock): string {
  if (isOf(say, 'criterion')) return lineText(say as CommissionLine, proving, true);
  if (isOf(say, 'edgeRight', 'edgeNear', 'edgeWrong', 'edgeExtra')) return markLineText(say, clock);
  if (isOf(say, 'tagRight', 'tagOtherCause', 'notTagged', 'nothingThere')) return tagLineText(say, clock);
  if (isOf(say, 'ratioSaid', 'ratioMissing', 'desksNotRead')) return ratioLineText(say);
  return diagnoseSentence(say);
}

/**
 * Lines that say nothing are left out, unless they have an instant to look at. Where a person judges, what the learner
 * wrote is the evidence.
 */
export function evidenceOf(exercise: Exercise, seed: number, { lines, verdict }: CriterionMark): EvidenceLine[] {
  if (verdict === 'lecturer') return [];
  const { start } = benchScenario(exercise, seed);
  const clock: Clock = (s) => clockAt(Math.round(s * 10), start);
  const days = exercise.kind === 'commission' || exercise.kind === 'design' ? exercise.commission.days : [];
  const proving = provingClock(days, start);
  return lines
    .map(({ atS, say }) => ({ clock: atS === null ? null : clock(atS), text: sentenceOf(say, clock, proving) }))
    .filter((line) => line.clock !== null || line.text !== '');
}

/** What the learner wrote where a program has no verdict; null: this criterion is not about a text. */
export function writtenFor({ answers }: Attempt, { id, lines }: CriterionMark): string | null {
  if (id === 'advice') return answers.diagnose?.record.advice ?? '';
  const say = lines[0]?.say;
  const asksText = say?.code === 'criterion' && say.kind === 'handover';
  return asksText ? (answers.commission?.handover ?? '') : null;
}
