import { describe, expect, it } from 'vitest';
import { connect, type WorkerLike } from '../../src/host/client.ts';
import { createHost } from '../../src/host/host.ts';
import type { FromWorker, ToWorker } from '../../src/host/messages.ts';
import { parcelled } from '../../src/host/parcels.ts';
import { smallStory } from '../support/smallStory.ts';

/** A worker in the same thread: messages are cloned and buffers moved, as between threads. */
function sameThreadWorker(): WorkerLike {
  const worker: WorkerLike = {
    onmessage: null,
    onerror: null,
    postMessage: (message) => {
      const copy = structuredClone(message) as ToWorker;
      queueMicrotask(() => host.receive(copy));
    },
    terminate: () => host.receive({ type: 'stop' }),
  };
  const host = createHost({
    post: parcelled((parcel, transfer) => {
      const data = structuredClone(parcel, { transfer });
      setTimeout(() => worker.onmessage?.({ data } as MessageEvent), 0);
    }, queueMicrotask),
    clock: () => performance.now(),
    later: (fn, delayMs) => setTimeout(fn, delayMs),
  });
  return worker;
}

async function until(told: FromWorker[], type: FromWorker['type'], times = 1): Promise<void> {
  for (let i = 0; i < 1000 && told.filter((message) => message.type === type).length < times; i++) {
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

describe('the client', () => {
  it('loads a story and runs it, with buffers that are moved and never missed', async () => {
    const told: FromWorker[] = [];
    const client = connect(sameThreadWorker);
    client.onMessage((message) => told.push(message));
    client.send({ type: 'load', scenario: smallStory() });
    await until(told, 'loaded');
    client.send({ type: 'act', input: { kind: 'setSky', sky: 'clear' } });
    client.send({ type: 'run', speed: 600 });
    await until(told, 'field', 2);
    await until(told, 'frame', 6);
    client.send({ type: 'pause' });
    await until(told, 'recording', 2);
    client.close();
    expect(told.filter((message) => message.type === 'failed')).toEqual([]);
    const fields = told.filter((message) => message.type === 'field');
    expect(fields.length).toBeGreaterThanOrEqual(2);
    for (const { field } of fields) {
      const lengths = [field.daylightLx, field.innerRowLx, field.windowRowLx, field.doorLx].map((lx) => lx.length);
      expect(Math.min(...lengths)).toBeGreaterThan(0);
    }
    const status = told.filter((message) => message.type === 'frame').at(-1)?.status;
    expect(status?.headTick).toBeGreaterThan(10);
  });

  it('tells that a worker cannot be made, and what stops one, as messages', async () => {
    const told: FromWorker[] = [];
    const client = connect(() => {
      throw new Error('workers are not allowed here');
    });
    client.onMessage((message) => told.push(message));
    await Promise.resolve();
    expect(told).toEqual([{ type: 'failed', sentence: 'The room could not be worked: workers are not allowed here.' }]);
    client.send({ type: 'pause' });
  });
});
