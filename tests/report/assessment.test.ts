/** The sheet's evidence in words: each line with the clock of the learner's run, and the learner's own text. */
import { expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { criteriaOf } from '../../src/exercise/assessment/criteria.ts';
import { attemptOf, claim, createWorker, take } from '../../src/exercise/diagnose/expert.ts';
import { benchScenario } from '../../src/exercise/edits.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { evidenceOf, writtenFor } from '../../src/report/assessment.ts';
import { criterionTitle } from '../../src/report/text/assessment.ts';
import { clockAt } from '../../src/report/text/format.ts';

it('tells when a test was taken, names every criterion, and shows what was written instead of judging it', () => {
  const loaded = exerciseById(diskLibrary(), 'the-fan-stays-off');
  if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error('no such diagnosis');
  const exercise = loaded.value;
  const worker = createWorker(exercise, 1);
  take(worker, { instrument: 'ask' });
  claim(worker, exercise.diagnose.candidates[0]!.card.id);
  const attempt = attemptOf(worker);
  attempt.answers.diagnose!.record.advice = 'Wait four minutes.';
  const criteria = criteriaOf(markAttempt(exercise, attempt));
  const of = (id: string) => criteria.find((one) => one.id === id)!;

  const { start } = benchScenario(exercise, 1);
  const [asked] = evidenceOf(exercise, 1, of('strategy'));
  expect(asked!.clock).toBe(clockAt(attempt.answers.diagnose!.clips[0]!.tick, start));
  expect(asked!.text).toContain('asking the client');
  expect(evidenceOf(exercise, 1, of('proof-off-delay'))).toEqual([
    { clock: null, text: 'Not shown in the room as it was left: one full off-delay.' },
  ]);
  expect(evidenceOf(exercise, 1, of('advice'))).toEqual([]);
  expect(writtenFor(attempt, of('advice'))).toBe('Wait four minutes.');
  expect(writtenFor(attempt, of('record'))).toBeNull();
  const titles = criteria.map(criterionTitle);
  expect(new Set(titles).size).toBe(titles.length);
});
