/** The worker as a file of the site. The one-file build puts `inlineWorker.ts` in this file's place. */
import type { WorkerLike } from '../../host/client.ts';

export function startWorker(): WorkerLike {
  return new Worker(new URL('../../host/worker.ts', import.meta.url), { type: 'module' }) as unknown as WorkerLike;
}
