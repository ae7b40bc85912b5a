import { describe, expect, it } from 'vitest';
import type { FromWorker } from '../../src/host/messages.ts';
import { parcelled } from '../../src/host/parcels.ts';

const refused = (sentence: string): FromWorker => ({ type: 'refused', sentence });
const frame = { type: 'frame' } as FromWorker;

function desk() {
  const sent: { texts: string[]; buffers: number }[] = [];
  const later: (() => void)[] = [];
  const post = parcelled(
    (parcel, transfer) =>
      sent.push({
        texts: parcel.map((message) => (message.type === 'refused' ? message.sentence : message.type)),
        buffers: transfer.length,
      }),
    (fn) => later.push(fn),
  );
  return { sent, post, endOfWork: () => later.splice(0).forEach((fn) => void fn()) };
}

describe('messages of one stretch of work', () => {
  it('go over together and in order, with their buffers, when it has ended', () => {
    const { sent, post, endOfWork } = desk();
    post(refused('a'), [new ArrayBuffer(8)]);
    post(refused('b'), [new ArrayBuffer(8)]);
    expect(sent).toEqual([]);
    endOfWork();
    expect(sent).toEqual([{ texts: ['a', 'b'], buffers: 2 }]);
  });

  it('do not wait any longer once a frame is among them; what follows the frame comes next, nothing twice', () => {
    const { sent, post, endOfWork } = desk();
    post(refused('a'));
    post(frame);
    expect(sent).toEqual([{ texts: ['a', 'frame'], buffers: 0 }]);
    post(refused('b'));
    endOfWork();
    endOfWork();
    expect(sent.map(({ texts }) => texts)).toEqual([['a', 'frame'], ['b']]);
  });
});
