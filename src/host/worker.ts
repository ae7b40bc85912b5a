/** Entry of the web worker: the host with this thread's clock and message port. */
import { createHost } from './host.ts';
import type { ToWorker } from './messages.ts';
import { parcelled } from './parcels.ts';

declare const self: DedicatedWorkerGlobalScope;

/** A message to oneself comes after those already waiting, without the 4 ms that nested timers are held back. */
const channel = new MessageChannel();
const soon: (() => void)[] = [];
channel.port1.onmessage = () => soon.shift()?.();

const host = createHost({
  post: parcelled((parcel, transfer) => self.postMessage(parcel, transfer), queueMicrotask),
  clock: () => performance.now(),
  later: (fn, delayMs) => {
    if (delayMs >= 1) {
      setTimeout(fn, delayMs);
      return;
    }
    soon.push(fn);
    channel.port2.postMessage(null);
  },
});

self.onmessage = (event: MessageEvent<ToWorker>) => host.receive(event.data);
