/** The mark of a commissioning: every criterion full, half or none, each with what was measured and where it shows. */
import { TICKS_PER_S } from '../../engine/units.ts';
import type { Attempt, Mark, MarkPart } from '../types.ts';
import { judge, judgeRoom } from './criteria.ts';
import { type Evidence, evidenceOf, type RoomEvidence } from './evidence.ts';
import { isOwn } from './ownCriteria.ts';
import { signaturesOf } from './signatures.ts';
import type { Timeline } from './timeline.ts';
import type {
  CommissionExercise,
  CommissionLine,
  CommissionTask,
  Criterion,
  DayFigures,
  Judged,
  Verdict,
} from './types.ts';

/** Points for a pass. Source: the product's own marking rule, 70 of 100. */
export const COMMISSION_PASS = 70;

/** Share of a criterion's points that a verdict brings. Source: the product's own rubric, full, half or none. */
export const SHARE: Record<Verdict, number> = { met: 1, half: 0.5, missed: 0, lecturer: 0 };

export interface LineMark {
  points: number;
  of: number;
  /** Whether a pass is possible with this verdict. */
  enough: boolean;
  part: MarkPart['id'];
  say: CommissionLine;
}

function lineOf(criterion: Criterion, judged: Judged): CommissionLine {
  const { id, kind, title, next, must = null } = criterion;
  return { code: 'criterion', id, kind, title, next, must, ...judged };
}

/** Judged by what was set: the instant of the last change is where to look. */
const BY_SETTING: readonly Criterion['kind'][] = ['setting', 'shortest', 'level'];

function lineMark(criterion: Criterion, evidence: Evidence): LineMark {
  const { kind, points: of, part, must } = criterion;
  const { lastChange } = evidence;
  const changedS = lastChange ? lastChange.tick / TICKS_PER_S : null;
  const judged = judge(criterion, evidence);
  const ownS = BY_SETTING.includes(kind) ? changedS : judged.ownS;
  const share = SHARE[judged.verdict];
  const enough = must === undefined || share >= SHARE[must];
  return { points: of * share, of, enough, part, say: lineOf(criterion, { ...judged, ownS }) };
}

export function linesOf(evidence: Evidence): LineMark[] {
  return evidence.exercise.commission.criteria.map((criterion) => lineMark(criterion, evidence));
}

/** What a proving run tells: the days, and the criteria that they and the settings answer. */
export function provedRoom(room: RoomEvidence): { days: DayFigures[]; lines: CommissionLine[] } {
  const asked = room.exercise.commission.criteria.filter((criterion) => !isOwn(criterion));
  return { days: figuresOf(room), lines: asked.map((criterion) => lineOf(criterion, judgeRoom(criterion, room))) };
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

export function figuresOf({ exercise, days }: Pick<RoomEvidence, 'exercise' | 'days'>): DayFigures[] {
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

/** Judged by proving runs alone, which take longest. */
const BY_DAYS: readonly Criterion['kind'][] = [
  'always',
  'sometime',
  'respondsWithin',
  'count',
  'deskShort',
  'lampHours',
];

/** Whether an attempt could pass if its proving runs were the best there are: everything else is judged, none is run. */
export function mayPass(exercise: CommissionExercise, attempt: Attempt): boolean {
  const evidence = evidenceOf(exercise, attempt, () => []);
  let most = exercise.commission.criteria.reduce((sum, { points }) => sum + points, 0);
  return exercise.commission.criteria.every((criterion) => {
    if (BY_DAYS.includes(criterion.kind)) return true;
    const { points, enough } = lineMark(criterion, evidence);
    most -= criterion.points - points;
    return enough && most >= COMMISSION_PASS;
  });
}

export type CommissionMark = Pick<Mark, 'parts' | 'total' | 'pass' | 'signatures' | 'skills' | 'commission'> & {
  evidence: Evidence;
};

export function markCommission(exercise: CommissionExercise, attempt: Attempt): CommissionMark {
  const evidence = evidenceOf(exercise, attempt);
  const lines = linesOf(evidence);
  const total = lines.reduce((sum, { points }) => sum + points, 0);
  const pass = total >= COMMISSION_PASS && lines.every(({ enough }) => enough);
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
