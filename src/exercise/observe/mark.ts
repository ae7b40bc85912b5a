/** The mark of an observation: every switching of the record with the tag that was put on it. */
import { PASS_POINTS, SKILL_OF } from '../predict/mark.ts';
import type { Played } from '../replay.ts';
import type { Attempt, Mark } from '../types.ts';
import { causeFits, judgeTags, momentsOf, tagLines, tagSignatures } from './tags.ts';
import type { ObserveExercise } from './types.ts';

export type ObservationMark = Pick<Mark, 'parts' | 'total' | 'pass' | 'signatures' | 'skills'>;

export function markObservation(exercise: ObserveExercise, attempt: Attempt, { events }: Played): ObservationMark {
  const truths = momentsOf(exercise.observe, events);
  const judged = judgeTags(truths, attempt.answers.observe?.tags ?? []);
  const lines = tagLines(judged);
  const total = Math.round(10 * lines.reduce((sum, { points }) => sum + points, 0)) / 10;
  const skills: Mark['skills'] = {};
  for (const { truth, tag } of judged) {
    if (!truth) continue;
    const skill = SKILL_OF[truth.cause];
    const { successes, attempts } = skills[skill] ?? { successes: 0, attempts: 0 };
    const known = tag !== null && causeFits(truth, tag.cause);
    skills[skill] = { successes: successes + (known ? 1 : 0), attempts: attempts + 1 };
  }
  return {
    parts: [{ id: 'observation', points: total, of: 100, lines }],
    total,
    pass: total >= PASS_POINTS,
    signatures: tagSignatures(judged, events),
    skills,
  };
}
