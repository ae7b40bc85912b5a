/** The worker that holds the bench of the diagnosis being worked; one at a time, its questions one after the other. */
import type { BenchAnswer, BenchQuestion } from '../../../host/benchWork.ts';
import type { Client } from '../../../host/client.ts';
import { openWorker } from '../connect.ts';

let client: Client | null = null;
let last: Promise<unknown> = Promise.resolve();

async function askNow(question: BenchQuestion): Promise<BenchAnswer> {
  client ??= await openWorker();
  const worker = client;
  return new Promise<BenchAnswer>((resolve, reject) => {
    const stop = worker.onMessage((message) => {
      if (message.type === 'failed') reject(new Error(message.sentence));
      else if (message.type.startsWith('bench')) resolve(message as BenchAnswer);
      else return;
      stop();
    });
    worker.send(question);
  });
}

/** Rejects with a sentence when the worker could not answer. */
export function askBench(question: BenchQuestion): Promise<BenchAnswer> {
  const answer = last.then(() => askNow(question));
  last = answer.catch(() => undefined);
  return answer;
}

export function closeBench(): void {
  client?.close();
  client = null;
  last = Promise.resolve();
}
