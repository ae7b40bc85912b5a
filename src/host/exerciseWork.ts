/** Work for an exercise, done in a worker of its own: it takes seconds and must not hold up the room that is shown. */

import { pathsOf } from '../exercise/assessment/expertAttempt.ts';
import { figuresOf } from '../exercise/authoring/figures.ts';
import { designedRoom } from '../exercise/commission/design.ts';
import { roomEvidence } from '../exercise/commission/evidence.ts';
import { provedRoom } from '../exercise/commission/mark.ts';
import { createProving } from '../exercise/commission/proving.ts';
import { workExample } from '../exercise/example/work.ts';
import { markAttempt } from '../exercise/mark.ts';
import { givenFor } from '../exercise/predict/given.ts';
import { playFor, solutionEdges } from '../exercise/predict/solution.ts';
import { proveExercise } from '../exercise/proofs.ts';
import type { ExerciseAnswer, ExerciseQuestion, FromWorker, ToWorker } from './messages.ts';

const QUESTIONS: readonly ToWorker['type'][] = [
  'given',
  'mark',
  'key',
  'prove',
  'selfProof',
  'paths',
  'figures',
  'example',
];

export function isQuestion(message: ToWorker): message is ExerciseQuestion {
  return QUESTIONS.includes(message.type);
}

/** Ticks between two words about progress. Assumed: a quarter of a second's work or less. */
const TELL_EVERY_TICKS = 5000;

function prove(question: Extract<ExerciseQuestion, { type: 'prove' }>, post: Post): ExerciseAnswer {
  const { exercise, seed } = question;
  const left = 'setup' in question.left ? question.left : designedRoom(exercise, seed, question.left);
  const proving = createProving(exercise, seed, left);
  while (!proving.work(TELL_EVERY_TICKS)) post({ type: 'proving', share: proving.share() });
  return { type: 'proved', ...provedRoom(roomEvidence(exercise, seed, left, proving.days())) };
}

type Post = (message: FromWorker) => void;

/** `post`: where words about progress go meanwhile. */
export function answerQuestion(question: ExerciseQuestion, post: Post): ExerciseAnswer {
  switch (question.type) {
    case 'given':
      return { type: 'given', given: givenFor(question.exercise, question.seed) };
    case 'key': {
      const played = playFor(question.exercise, question.seed);
      return { type: 'key', edges: solutionEdges(question.exercise, played) };
    }
    case 'prove':
      return prove(question, post);
    case 'selfProof':
      return { type: 'selfProved', results: proveExercise(question.exercise, question.seed, question.randoms) };
    case 'paths':
      return { type: 'paths', paths: pathsOf(question.exercise, question.attempt) };
    case 'example':
      return { type: 'exampleWorked', example: workExample(question.exercise) };
    case 'figures': {
      const { exercise, seed, scene } = question;
      const told = (share: number): void => post({ type: 'proving', share });
      return { type: 'figured', figures: figuresOf(exercise, seed, scene, told) };
    }
    case 'mark':
      return { type: 'marked', mark: markAttempt(question.exercise, question.attempt) };
  }
}
