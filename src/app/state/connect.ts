/** Opens the worker that runs the room. */
import { type Client, connect } from '../../host/client.ts';
import { startWorker } from './siteWorker.ts';

export async function openWorker(): Promise<Client> {
  return connect(startWorker);
}
