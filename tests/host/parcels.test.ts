import { describe, expect, it } from 'vitest';
import { createHost } from '../../src/host/host.ts';
import type { FromWorker } from '../../src/host/messages.ts';
import { parcelled } from '../../src/host/parcels.ts';
import { smallStory } from '../support/smallStory.ts';

const events: FromWorker = { type: 'events', events: [] };
const cut: FromWorker = { type: 'cut', tick: 3, branches: [] };
const refused: FromWorker = { type: 'refused', sentence: 'No.' };
const frame = { type: 'frame' } as FromWorker;

function desk() {
  const sent: { types: string[]; buffers: number }[] = [];
  const later: (() => void)[] = [];
  const post = parcelled(
    (parcel, transfer) => sent.push({ types: parcel.map(({ type }) => type), buffers: transfer.length }),
    (fn) => later.push(fn),
  );
  const endOfWork = (): void => {
    for (const fn of later.splice(0)) fn();
  };
  return { sent, post, endOfWork };
}

describe('messages of one stretch of work', () => {
  it('that belong before a frame go over with it, in order and with their buffers', () => {
    const { sent, post, endOfWork } = desk();
    post(cut);
    post(events, [new ArrayBuffer(8)]);
    expect(sent).toEqual([]);
    post(frame, [new ArrayBuffer(8)]);
    endOfWork();
    expect(sent).toEqual([{ types: ['cut', 'events', 'frame'], buffers: 2 }]);
  });

  it('go over when it has ended if no frame comes, and nothing goes twice', () => {
    const { sent, post, endOfWork } = desk();
    post(cut);
    post(events);
    endOfWork();
    endOfWork();
    expect(sent).toEqual([{ types: ['cut', 'events'], buffers: 0 }]);
  });

  it('that belong to no frame go at once, after what waited', () => {
    const { sent, post } = desk();
    post(events);
    post(refused);
    expect(sent).toEqual([{ types: ['events', 'refused'], buffers: 0 }]);
  });
});

describe('a changed room', () => {
  it('is shown at first glance before its tables are worked out', () => {
    const work: (() => void)[] = [];
    const sent: string[][] = [];
    const host = createHost({
      // What waited for the end of the work would never go.
      post: parcelled(
        (parcel) => sent.push(parcel.map(({ type }) => type)),
        () => {},
      ),
      clock: () => performance.now(),
      later: (fn) => work.push(fn),
    });
    const finish = (): void => {
      for (let fn = work.shift(); fn; fn = work.shift()) fn();
    };
    host.receive({ type: 'load', scenario: smallStory() });
    finish();
    sent.length = 0;
    host.receive({ type: 'act', input: { kind: 'moveFurniture', furnitureId: 'desk', atM: [2.55, 2.6] } });
    finish();
    // The old frame says that the room is being worked out, the first picture follows, and then the true ones.
    expect(sent.map((types) => types.at(-1))).toEqual(['frame', 'field', 'frame', 'field', 'recording']);
  });
});
