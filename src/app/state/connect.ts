/** The one place that knows how the page reaches its worker. */
import type { FromWorker, ToWorker } from '../../host/messages.ts';
import { createFakeClient } from '../../../tests/app/fakeClient.ts';

export interface RoomClient {
  send(message: ToWorker): void;
  close(): void;
}

/** Opens the worker. `fail` gets a sentence when it dies. */
export function connect(receive: (message: FromWorker) => void, _fail: (sentence: string) => void): RoomClient {
  return createFakeClient(receive);
}
