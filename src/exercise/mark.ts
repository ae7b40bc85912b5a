/** The mark of an attempt, recomputed from nothing but the exercise and what the attempt says was done. */
import { markCommission } from './commission/mark.ts';
import type { CommissionExercise } from './commission/types.ts';
import { markDiagnosis } from './diagnose/mark.ts';
import type { DiagnoseExercise } from './diagnose/types.ts';
import { benchScenario } from './edits.ts';
import { markObservation } from './observe/mark.ts';
import type { Meter } from './observe/ratios.ts';
import type { ObserveExercise } from './observe/types.ts';
import { markPrediction } from './predict/mark.ts';
import { endTickOf, firstMismatchTick, type Played, play } from './replay.ts';
import type { Attempt, Exercise, Mark, PredictExercise } from './types.ts';

function markedPrediction(exercise: PredictExercise, attempt: Attempt, played: Played | null): Mark {
  const run = played ?? play(benchScenario(exercise, attempt.seed), attempt.inputs, endTickOf(exercise));
  const answers = attempt.answers.predict ?? { edges: {} };
  const mark = markPrediction(exercise.predict, answers, run.events);
  return { ...whose(exercise, attempt), ...mark, firstMismatchTick: firstMismatchTick(run, attempt) };
}

function markedDiagnosis(exercise: DiagnoseExercise, attempt: Attempt): Mark {
  const { bench, ...mark } = markDiagnosis(exercise, attempt);
  return { ...whose(exercise, attempt), ...mark, firstMismatchTick: firstMismatchTick(bench.trueWorld, attempt) };
}

function markedCommission(exercise: CommissionExercise, attempt: Attempt): Mark {
  const { evidence, ...mark } = markCommission(exercise, attempt);
  return { ...whose(exercise, attempt), ...mark, firstMismatchTick: firstMismatchTick(evidence.played, attempt) };
}

function markedObservation(
  exercise: ObserveExercise,
  attempt: Attempt,
  played: Played | null,
  meter: Meter | null,
): Mark {
  const run = played ?? play(benchScenario(exercise, attempt.seed), attempt.inputs, endTickOf(exercise));
  const mark = markObservation(exercise, attempt, run, meter);
  return { ...whose(exercise, attempt), ...mark, firstMismatchTick: firstMismatchTick(run, attempt) };
}

function whose(exercise: Exercise, { seed, names }: Attempt): Pick<Mark, 'exercise' | 'seed' | 'names'> {
  return { exercise: exercise.id, seed, names };
}

/** `played`: the room of this prediction or observation, seed and inputs if it has already been run; `meter`: its readings. */
export function markAttempt(
  exercise: Exercise,
  attempt: Attempt,
  played: Played | null = null,
  meter: Meter | null = null,
): Mark {
  if (exercise.kind === 'diagnose') return markedDiagnosis(exercise, attempt);
  if (exercise.kind === 'observe') return markedObservation(exercise, attempt, played, meter);
  if (exercise.kind !== 'predict') return markedCommission(exercise, attempt);
  return markedPrediction(exercise, attempt, played);
}
