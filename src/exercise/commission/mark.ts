/** The mark of a commissioning: every criterion full, half or none, each with what was measured and where it shows. */
import { TICKS_PER_S } from '../../engine/units.ts';
import type { Attempt, Mark, MarkPart } from '../types.ts';
import { judge } from './criteria.ts';
import { type Evidence, evidenceOf } from './evidence.ts';
import { signaturesOf } from './signatures.ts';
import type { Timeline } from './timeline.ts';
import type { CommissionExercise, CommissionLine, CommissionTask, DayFigures, Verdict } from './types.ts';

/** Points for a pass. Source: the product's own marking rule, 70 of 100. */
export const COMMISSION_PASS = 70;

const SHARE: Record<Verdict, number> = { met: 1, half: 0.5, missed: 0 };

export interface LineMark {
  points: number;
  of: number;
  must: boolean;
  part: MarkPart['id'];
  say: CommissionLine;
}

export function linesOf(evidence: Evidence): LineMark[] {
  return evidence.exercise.commission.criteria.map((criterion) => {
    const { id, kind, title, next, points: of, part, must = false } = criterion;
    const judged = judge(criterion, evidence);
    return {
      points: of * SHARE[judged.verdict],
      of,
      must,
      part,
      say: { code: 'criterion', id, kind, title, next, ...judged },
    };
  });
}

function dayFigures(day: Timeline, { days }: CommissionTask): DayFigures {
  const seconds = (bit: number) => {
    let sum = 0;
    for (let s = 0; s < day.seconds; s++) if ((day.outputs[s]! & bit) !== 0) sum++;
    return sum;
  };
  const rows = day.events.filter(({ output }) => output !== 'airContact');
  const dark = rows.filter(({ on, tick, reason }) => {
    const before = Math.max(0, Math.ceil(tick / TICKS_PER_S) - 1);
    return !on && reason.code === 'nobodySeen' && day.people[before]! > 0;
  });
  return {
    id: day.id,
    title: days.find(({ id }) => id === day.id)?.title ?? day.id,
    innerLitS: seconds(1),
    windowLitS: seconds(2),
    airS: seconds(4),
    switchings: rows.length,
    darkOnSomebody: dark.length,
  };
}

export function figuresOf({ exercise, days }: Pick<Evidence, 'exercise' | 'days'>): DayFigures[] {
  return days.map((day) => dayFigures(day, exercise.commission));
}

function partsOf(lines: readonly LineMark[]): MarkPart[] {
  const ids = [...new Set(lines.map(({ part }) => part))];
  return ids.map((id) => {
    const own = lines.filter(({ part }) => part === id);
    return {
      id,
      points: own.reduce((sum, { points }) => sum + points, 0),
      of: own.reduce((sum, { of }) => sum + of, 0),
      lines: own.map(({ points, of, say }) => ({ points, of, atS: say.ownS, say })),
    };
  });
}

export type CommissionMark = Pick<Mark, 'parts' | 'total' | 'pass' | 'signatures' | 'skills' | 'commission'> & {
  evidence: Evidence;
};

export function markCommission(exercise: CommissionExercise, attempt: Attempt): CommissionMark {
  const evidence = evidenceOf(exercise, attempt);
  const lines = linesOf(evidence);
  const total = lines.reduce((sum, { points }) => sum + points, 0);
  const pass = total >= COMMISSION_PASS && lines.every(({ must, points, of }) => !must || points >= of / 2);
  return {
    parts: partsOf(lines),
    total,
    pass,
    signatures: signaturesOf(evidence, lines),
    skills: { [exercise.commission.skill]: { successes: pass ? 1 : 0, attempts: 1 } },
    commission: { days: figuresOf(evidence) },
    evidence,
  };
}
