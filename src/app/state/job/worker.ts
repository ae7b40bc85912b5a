/** A worker for one question of an exercise; it ends with its answer. */
import type { ExerciseAnswer, ExerciseQuestion, FromWorker } from '../../../host/messages.ts';
import { openWorker } from '../connect.ts';

const ANSWERS: readonly FromWorker['type'][] = [
  'given',
  'marked',
  'key',
  'proved',
  'selfProved',
  'paths',
  'exampleWorked',
  'figured',
] satisfies ExerciseAnswer['type'][];

function isAnswer(message: FromWorker): message is ExerciseAnswer {
  return ANSWERS.includes(message.type);
}

/** Rejects with a sentence when the worker could not answer. `meanwhile`: how far a proving run is, 0-1. */
export async function ask(question: ExerciseQuestion, meanwhile?: (share: number) => void): Promise<ExerciseAnswer> {
  const client = await openWorker();
  try {
    return await new Promise<ExerciseAnswer>((resolve, reject) => {
      client.onMessage((message) => {
        if (isAnswer(message)) resolve(message);
        else if (message.type === 'proving') meanwhile?.(message.share);
        else if (message.type === 'failed') reject(new Error(message.sentence));
      });
      client.send(question);
    });
  } finally {
    client.close();
  }
}
