/** The best next test: most expected bits a minute on the planned outcomes, over what the readings so far leave. */
import { type Belief, expectedInformationGain } from '../information.ts';
import { beliefAfter, choiceOf } from './evidence.ts';
import type { Worker } from './expert.ts';
import { bestChoice, isCertain } from './score.ts';
import { isFreeOnce } from './tests.ts';
import type { Test } from './types.ts';

/** Tests tried at most. Assumed: more would go round in circles; the proof then fails and says so. */
const MOST_TESTS = 12;

function isCertainBy(belief: Belief, truth: string): boolean {
  const total = [...belief.values()].reduce((sum, p) => sum + p, 0);
  return isCertain((belief.get(truth) ?? 0) / total);
}

/** Whether the readings so far have made the true cause certain. */
export function isFound({ bench, taken }: Worker): boolean {
  return isCertainBy(beliefAfter(bench, taken).belief, bench.truth);
}

/** Null when the true cause is certain, or no test tells more. */
export function nextTest({ exercise, seed, bench, taken }: Worker): Test | null {
  const { belief } = beliefAfter(bench, taken);
  if (taken.length > MOST_TESTS || isCertainBy(belief, bench.truth)) return null;
  const choices = exercise.diagnose.tests
    .filter((test) => !isFreeOnce(test))
    .map((test) => ({ test, ...choiceOf(exercise, seed, test) }));
  const best = bestChoice(belief, choices);
  if (best) return best.choice.test;
  // Nothing that counts tells more: what is left is to look.
  const looks = exercise.diagnose.tests.filter((test) => test.instrument === 'look');
  return looks.find((test) => expectedInformationGain(belief, choiceOf(exercise, seed, test).outcomeOf) > 0) ?? null;
}
