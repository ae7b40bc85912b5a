/** The mark of an attempt, recomputed from nothing but the exercise and what the attempt says was done. */
import { benchScenario } from './edits.ts';
import { markPrediction } from './predict/mark.ts';
import { endTickOf, firstMismatchTick, type Played, play } from './replay.ts';
import type { Attempt, Exercise, Mark } from './types.ts';

/** `played`: the room of this exercise, seed and inputs if it has already been run. */
export function markAttempt(exercise: Exercise, attempt: Attempt, played: Played | null = null): Mark {
  const run = played ?? play(benchScenario(exercise, attempt.seed), attempt.inputs, endTickOf(exercise));
  const answers = attempt.answers.predict ?? { edges: {} };
  const mark = markPrediction(exercise.predict, answers, run.events);
  return {
    exercise: exercise.id,
    seed: attempt.seed,
    names: attempt.names,
    ...mark,
    firstMismatchTick: firstMismatchTick(run, attempt),
  };
}
