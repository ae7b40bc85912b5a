/** The worker carried inside the page: a page opened from disk may not start a file as a worker. */
import type { WorkerLike } from '../../host/client.ts';
import InlineWorker from '../../host/worker.ts?worker&inline';

export function startWorker(): WorkerLike {
  return new InlineWorker() as unknown as WorkerLike;
}
