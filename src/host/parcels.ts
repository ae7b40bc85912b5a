/**
 * What one stretch of work tells goes over together, so that the page takes it in at once and draws once: five messages one
 * by one are five times the page's own work. A frame takes along what came before it and waits for nothing that follows.
 */
import type { FromWorker } from './messages.ts';
import type { Post } from './outbox.ts';

/** `send` hands a parcel over; `soon` calls once the present stretch of work has ended. */
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
    if (message.type === 'frame') close();
    else if (parcel.length === 1) soon(close);
  };
}
