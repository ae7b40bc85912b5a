/** The one place that knows which worker the page talks to: a file of the site, or one inlined into the single page. */
import { type Client, connect, type WorkerLike } from '../../host/client.ts';

declare const __ONE_FILE__: boolean;

/** Opens the worker. In the single-file page its code comes as a blob, as files may not start workers. */
export async function openWorker(): Promise<Client> {
  if (__ONE_FILE__) {
    const { default: InlineWorker } = await import('../../host/worker.ts?worker&inline');
    return connect(() => new InlineWorker() as unknown as WorkerLike);
  }
  return connect(
    () => new Worker(new URL('../../host/worker.ts', import.meta.url), { type: 'module' }) as unknown as WorkerLike,
  );
}
