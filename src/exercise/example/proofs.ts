/** Proofs of an example: it plays to its end, its claims hold, and no learner can be given its room. */
import { expertAttempt } from '../assessment/expertAttempt.ts';
import { markAttempt } from '../mark.ts';
import type { Exercise, ProofResult } from '../types.ts';
import { EXAMPLE_SEED, isDrawn, twinOf } from './twin.ts';
import type { WorkedExample } from './types.ts';
import { workExample } from './work.ts';

/** Steps of one room lie in order of time: nobody who presses Next goes back. */
function orderFault({ steps }: WorkedExample): string | null {
  const i = steps.findIndex((step, n) => {
    const before = steps[n - 1];
    return before !== undefined && before.scene === step.scene && step.tick < before.tick;
  });
  return i === -1 ? null : `example.steps[${i}] lies before the step before it`;
}

function expertFault(exercise: Exercise): string | null {
  const twin = twinOf(exercise);
  const { pass, total } = markAttempt(twin, expertAttempt(twin, EXAMPLE_SEED));
  return pass ? null : `it has ${total} of 100`;
}

/** Empty for an exercise without an example. */
export function proveExample(exercise: Exercise): ProofResult[] {
  if (!exercise.example) return [];
  const result = (proof: string, fault: string | null): ProofResult => ({
    exercise: exercise.id,
    seed: EXAMPLE_SEED,
    proof,
    fault,
  });
  const drawn = result(
    'the bench of the example is no bench of the job',
    isDrawn(exercise) ? 'a seed can draw it; give example.change or example.card something of its own' : null,
  );
  try {
    const worked = workExample(exercise);
    return [
      result('the example plays to its end', orderFault(worked)),
      result('the expert of the example passes', expertFault(exercise)),
      result('what the example says holds', worked.unmet.length === 0 ? null : worked.unmet.join(' ')),
      drawn,
    ];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [result('the example plays to its end', error.message), drawn];
  }
}
