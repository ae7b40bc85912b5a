/** Work for an exercise, done in a worker of its own: it takes seconds and must not hold up the room that is shown. */
import { markAttempt } from '../exercise/mark.ts';
import { givenFor } from '../exercise/predict/given.ts';
import { playFor, solutionEdges } from '../exercise/predict/solution.ts';
import { proveExercise } from '../exercise/proofs.ts';
import type { ExerciseAnswer, ExerciseQuestion, ToWorker } from './messages.ts';

export function isQuestion(message: ToWorker): message is ExerciseQuestion {
  return ['given', 'mark', 'key', 'prove'].includes(message.type);
}

export function answerQuestion(question: ExerciseQuestion): ExerciseAnswer {
  if (question.type === 'given') return { type: 'given', given: givenFor(question.exercise, question.seed) };
  if (question.type === 'key') {
    const played = playFor(question.exercise, question.seed);
    return { type: 'key', edges: solutionEdges(question.exercise, played) };
  }
  if (question.type === 'prove') {
    return { type: 'proved', results: proveExercise(question.exercise, question.seed, question.randoms) };
  }
  return { type: 'marked', mark: markAttempt(question.exercise, question.attempt) };
}
