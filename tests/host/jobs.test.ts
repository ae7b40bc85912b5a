import { describe, expect, it } from 'vitest';
import { createSetup } from '../../src/engine/setup.ts';
import { createHost } from '../../src/host/host.ts';
import type { FromWorker, ToWorker } from '../../src/host/messages.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();

/** A worker with a clock of its own: every look at the clock costs a little, waiting moves it on. */
function worker() {
  const told: FromWorker[] = [];
  let nowMs = 0;
  let queue: { atMs: number; fn: () => void }[] = [];
  const host = createHost({
    post: (message) => told.push(structuredClone(message)),
    clock: () => {
      nowMs += 0.5;
      return nowMs;
    },
    later: (fn, delayMs) => queue.push({ atMs: nowMs + delayMs, fn }),
  });
  return {
    told,
    send: (message: ToWorker) => host.receive(message),
    pass: (ms: number) => {
      const endMs = nowMs + ms;
      for (;;) {
        queue = queue.sort((a, b) => a.atMs - b.atMs);
        const next = queue[0];
        if (!next || next.atMs > endMs) break;
        queue.shift();
        nowMs = Math.max(nowMs, next.atMs);
        next.fn();
      }
      nowMs = Math.max(nowMs, endMs);
    },
    of: <T extends FromWorker['type']>(type: T) =>
      told.filter((message): message is Extract<FromWorker, { type: T }> => message.type === type),
  };
}

function loaded() {
  const page = worker();
  page.send({ type: 'load', scenario });
  page.pass(500);
  return page;
}

const order = { scenario, setup: createSetup(scenario), settings: scenario.settings };

/** Digests of two minutes, run at ten times speed with whatever `beside` asks for in the meantime. */
function digestsWith(beside: (page: ReturnType<typeof worker>, round: number) => void) {
  const page = loaded();
  page.send({ type: 'run', speed: 10 });
  for (let round = 0; round < 130; round++) {
    beside(page, round);
    page.pass(100);
  }
  page.send({ type: 'pause' });
  return { page, digests: page.of('recording').at(-1)!.recording.digests.slice(0, 3) };
}

describe('work beside the run', () => {
  it('leaves every digest of the run as it is', () => {
    const alone = digestsWith(() => {});
    const beside = digestsWith((page, round) => {
      if (round === 0) page.send({ type: 'wantYear', requestId: 1, order });
      if (round === 15) page.send({ type: 'wantYear', requestId: 1, order: null });
      if (round % 20 === 0) page.send({ type: 'wantDay', requestId: 2 + round });
      if (round % 30 === 0) page.send({ type: 'wantSunPaths', requestId: 1000 + round });
    });
    expect(alone.digests.length).toBeGreaterThanOrEqual(2);
    expect(beside.digests).toEqual(alone.digests);
    expect(beside.page.of('year').at(-1)!.share).toBeGreaterThan(0);
    expect(beside.page.of('dayLight').some(({ day }) => day !== null)).toBe(true);
    expect(beside.page.of('failed')).toEqual([]);
  });

  it('tells how far the day is, then gives it; no more once it is not wanted', () => {
    const page = loaded();
    page.send({ type: 'wantDay', requestId: 7 });
    page.pass(2000);
    const answers = page.of('dayLight');
    expect(answers.length).toBeGreaterThan(1);
    expect(answers.at(-1)).toMatchObject({ requestId: 7, share: 1 });
    expect(answers.at(-1)!.day!.sunUp).toHaveLength(145);
    page.send({ type: 'wantDay', requestId: 8 });
    page.send({ type: 'wantDay', requestId: null });
    page.pass(2000);
    expect(page.of('dayLight')).toHaveLength(answers.length);
  });

  it('works a year without any story loaded, with its progress, and stops when told', () => {
    const page = worker();
    page.send({ type: 'wantYear', requestId: 3, order });
    page.pass(1000);
    const shares = page.of('year').map(({ share }) => share);
    expect(shares.length).toBeGreaterThan(3);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    page.send({ type: 'wantYear', requestId: 3, order: null });
    page.pass(3000);
    expect(page.of('year')).toHaveLength(shares.length);
  });

  it("gives the sun's ways of the sun's date", () => {
    const page = loaded();
    page.send({ type: 'act', input: { kind: 'moveSun', shiftS: 0, localDate: '2026-11-02' } });
    page.pass(100);
    page.send({ type: 'wantSunPaths', requestId: 9 });
    const { paths } = page.of('sunPaths')[0]!;
    expect(paths.today.localDate).toBe('2026-11-02');
    expect(paths.june.localDate).toBe('2026-06-21');
  });

  it('forgets what the last story was asked', () => {
    const page = loaded();
    page.send({ type: 'wantYear', requestId: 4, order });
    page.pass(300);
    page.send({ type: 'load', scenario });
    page.pass(500);
    const count = page.of('year').length;
    page.pass(1000);
    expect(page.of('year')).toHaveLength(count);
  });
});
