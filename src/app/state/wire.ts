/** The line to the worker that runs the room: what is said before it stands is said when it does. */
import type { Client } from '../../host/client.ts';
import type { FromWorker, ToWorker } from '../../host/messages.ts';
import { openWorker } from './connect.ts';

let client: Client | null = null;
/** Messages meant for a worker that is not there yet. */
const unsent: ToWorker[] = [];

export function send(message: ToWorker): void {
  if (client) client.send(message);
  else unsent.push(message);
}

export async function openWire(hear: (message: FromWorker) => void): Promise<void> {
  const opened = await openWorker();
  opened.onMessage(hear);
  client = opened;
  for (const message of unsent.splice(0)) opened.send(message);
}
