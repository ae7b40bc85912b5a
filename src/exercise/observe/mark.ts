/** The mark of an observation: switchings with the tags put on them, or ratios with the readings behind them. */
import { benchScenario } from '../edits.ts';
import { PASS_POINTS, SKILL_OF } from '../predict/mark.ts';
import { endTickOf, type Played } from '../replay.ts';
import type { Attempt, Mark, MarkLine } from '../types.ts';
import { judgeRatios, type Meter, metersOf } from './ratios.ts';
import { causeFits, type JudgedTag, judgeTags, momentsOf, tagLines, tagSignatures } from './tags.ts';
import type { ObserveExercise } from './types.ts';
import { judgeWalks } from './walkMarks.ts';
import { isWalks } from './walks.ts';

export type ObservationMark = Pick<Mark, 'parts' | 'total' | 'pass' | 'signatures' | 'skills'>;

function markOf(lines: MarkLine[], rest: Pick<ObservationMark, 'signatures' | 'skills'>): ObservationMark {
  const total = Math.round(10 * lines.reduce((sum, { points }) => sum + points, 0)) / 10;
  return { parts: [{ id: 'observation', points: total, of: 100, lines }], total, pass: total >= PASS_POINTS, ...rest };
}

function tagSkills(judged: readonly JudgedTag[]): Mark['skills'] {
  const skills: Mark['skills'] = {};
  for (const { truth, tag } of judged) {
    if (!truth) continue;
    const skill = SKILL_OF[truth.cause];
    const { successes, attempts } = skills[skill] ?? { successes: 0, attempts: 0 };
    const known = tag !== null && causeFits(truth, tag.cause);
    skills[skill] = { successes: successes + (known ? 1 : 0), attempts: attempts + 1 };
  }
  return skills;
}

function fullLines(lines: readonly MarkLine[]): { successes: number; attempts: number } {
  return { successes: lines.filter(({ points, of }) => points === of).length, attempts: lines.length };
}

/** `meters`: the readings of this bench if they have already been worked out. */
export function markObservation(
  exercise: ObserveExercise,
  { seed, inputs, answers }: Attempt,
  { events }: Played,
  meters: Meter | null = null,
): ObservationMark {
  const { observe } = exercise;
  if (observe.task === 'tags') {
    const judged = judgeTags(momentsOf(observe, events), answers.observe?.tags ?? []);
    return markOf(tagLines(judged), { signatures: tagSignatures(judged, events), skills: tagSkills(judged) });
  }
  if (isWalks(exercise)) {
    const { lines, signatures } = judgeWalks(exercise, seed, answers.observe ?? {});
    return markOf(lines, { signatures, skills: { extensions: fullLines(lines) } });
  }
  const scenario = benchScenario(exercise, seed);
  const meter = meters ?? metersOf(scenario, inputs, endTickOf(exercise));
  const { lines, signatures } = judgeRatios(scenario, answers.observe ?? {}, meter);
  return markOf(lines, { signatures, skills: { brightness: fullLines(lines) } });
}
