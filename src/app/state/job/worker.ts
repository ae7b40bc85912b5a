/** A worker for one question of an exercise; it ends with its answer. */
import type { ExerciseAnswer, ExerciseQuestion } from '../../../host/messages.ts';
import { openWorker } from '../connect.ts';

/** Rejects with a sentence when the worker could not answer. */
export async function ask(question: ExerciseQuestion): Promise<ExerciseAnswer> {
  const client = await openWorker();
  try {
    return await new Promise<ExerciseAnswer>((resolve, reject) => {
      client.onMessage((message) => {
        if (message.type === 'given' || message.type === 'marked' || message.type === 'key') resolve(message);
        else if (message.type === 'failed') reject(new Error(message.sentence));
      });
      client.send(question);
    });
  } finally {
    client.close();
  }
}
