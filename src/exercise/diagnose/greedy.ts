/** The best next test: most expected bits a minute on the planned outcomes, over what the readings so far leave. */
import { expectedInformationGain } from '../information.ts';
import { beliefAfter, choiceOf } from './evidence.ts';
import type { Worker } from './expert.ts';
import { bestChoice, CERTAIN } from './score.ts';
import { isFreeOnce } from './tests.ts';
import type { Test } from './types.ts';

/** Tests tried at most. Assumed: more would go round in circles; the proof then fails and says so. */
const MOST_TESTS = 12;

/** Null when the true cause is certain, or no test tells more. */
export function nextTest({ exercise, seed, bench, taken }: Worker): Test | null {
  const { belief } = beliefAfter(bench, taken);
  const total = [...belief.values()].reduce((sum, p) => sum + p, 0);
  if (taken.length > MOST_TESTS || (belief.get(bench.truth) ?? 0) / total >= CERTAIN) return null;
  const choices = exercise.diagnose.tests
    .filter((test) => !isFreeOnce(test))
    .map((test) => ({ test, ...choiceOf(exercise, seed, test) }));
  const best = bestChoice(belief, choices);
  if (best) return best.choice.test;
  // Nothing that counts tells more: what is left is to look.
  const looks = exercise.diagnose.tests.filter((test) => test.instrument === 'look');
  return looks.find((test) => expectedInformationGain(belief, choiceOf(exercise, seed, test).outcomeOf) > 0) ?? null;
}
