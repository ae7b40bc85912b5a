/**
 * What the page must know before a frame goes over with it, so that the page takes it in at once and draws once: five
 * messages one by one are five times the page's own work. Everything else goes at once: after a first picture of a changed
 * room, or a word of progress, the same stretch of work goes on for half a second.
 */
import type { FromWorker } from './messages.ts';
import type { Post } from './outbox.ts';

/** The record, in the order in which `show` posts it; a frame follows in the same stretch of work. */
const BEFORE_A_FRAME: ReadonlySet<FromWorker['type']> = new Set(['cut', 'events', 'series', 'setup', 'warmth']);

/** `send` hands a parcel over; `soon` calls once the present stretch of work has ended, should no frame have come. */
export function parcelled(
  send: (parcel: FromWorker[], transfer: ArrayBuffer[]) => void,
  soon: (fn: () => void) => void,
): Post {
  let parcel: FromWorker[] = [];
  let buffers: ArrayBuffer[] = [];
  const close = (): void => {
    if (parcel.length === 0) return;
    const [messages, transfer] = [parcel, buffers];
    parcel = [];
    buffers = [];
    send(messages, transfer);
  };
  return (message, transfer = []) => {
    parcel.push(message);
    buffers.push(...transfer);
    if (!BEFORE_A_FRAME.has(message.type)) close();
    else if (parcel.length === 1) soon(close);
  };
}
