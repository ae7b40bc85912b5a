/** The page's side of the worker. Which worker (a file of the site, or one inlined as a blob) is the caller's choice. */
import type { FromWorker, ToWorker } from './messages.ts';

export interface Client {
  send(message: ToWorker): void;
  /** Returns the way to stop listening. */
  onMessage(listener: (message: FromWorker) => void): () => void;
  /** Ends the worker; nothing comes after this. */
  close(): void;
}

/** What is needed of a worker, which answers in parcels of messages; tests pass one of their own. */
export interface WorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** A worker that dies, or cannot be made, is told as a `failed` message, like everything else that goes wrong. */
export function connect(makeWorker: () => WorkerLike): Client {
  const listeners = new Set<(message: FromWorker) => void>();
  const tell = (message: FromWorker) => {
    for (const listener of listeners) listener(message);
  };
  const fail = (cause: string) => tell({ type: 'failed', sentence: `The room could not be worked: ${cause}.` });
  let worker: WorkerLike | null = null;
  try {
    worker = makeWorker();
    worker.onmessage = (event) => {
      for (const message of event.data as FromWorker[]) tell(message);
    };
    worker.onerror = (event) => fail(event.message || 'its worker stopped');
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    // Told later, when the caller has had the chance to listen.
    queueMicrotask(() => fail(cause));
  }
  return {
    send: (message) => worker?.postMessage(message),
    onMessage: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: () => {
      worker?.postMessage({ type: 'stop' } satisfies ToWorker);
      worker?.terminate();
      worker = null;
      listeners.clear();
    },
  };
}
