import { beforeEach, describe, expect, it } from 'vitest';
import { createHost, type Host } from '../../src/host/host.ts';
import type { FromWorker } from '../../src/host/messages.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();

/** A page whose clock moves with every look at it, and with waiting. */
class Page {
  nowMs = 0;
  lookMs = 0.5;
  told: FromWorker[] = [];
  /** Longest piece of work between two chances for others, in its own ms. */
  longestMs = 0;
  private queue: { atMs: number; fn: () => void }[] = [];
  host: Host = createHost({
    post: (message) => this.told.push(structuredClone(message)),
    clock: () => {
      this.nowMs += this.lookMs;
      return this.nowMs;
    },
    later: (fn, delayMs) => this.queue.push({ atMs: this.nowMs + delayMs, fn }),
  });

  pass(ms: number): void {
    const endMs = this.nowMs + ms;
    for (;;) {
      this.queue.sort((a, b) => a.atMs - b.atMs);
      const next = this.queue[0];
      if (!next || next.atMs > endMs) break;
      this.queue.shift();
      this.nowMs = Math.max(this.nowMs, next.atMs);
      const before = this.nowMs;
      next.fn();
      this.longestMs = Math.max(this.longestMs, this.nowMs - before);
    }
    this.nowMs = Math.max(this.nowMs, endMs);
  }

  of<T extends FromWorker['type']>(type: T): Extract<FromWorker, { type: T }>[] {
    return this.told.filter((message): message is Extract<FromWorker, { type: T }> => message.type === type);
  }

  digests() {
    this.host.receive({ type: 'pause' });
    return this.of('recording').at(-1)!.recording.digests;
  }
}

function opened(): Page {
  const page = new Page();
  page.host.receive({ type: 'load', scenario });
  page.pass(500);
  return page;
}

let page: Page;
beforeEach(() => {
  page = opened();
});

describe('reach outlines in the worker', () => {
  it('come once, in slices with progress, and once more when the detector has moved', () => {
    page.host.receive({ type: 'wantReach', wanted: true });
    page.pass(60_000);
    const shares = page.of('reachProgress').map(({ share }) => share);
    expect(shares[0]).toBe(0);
    expect(shares.length).toBeGreaterThan(3);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    expect(page.of('reach')).toHaveLength(1);
    const { outlines } = page.of('reach')[0]!;
    expect(outlines.outlines.map(({ kind }) => kind)).toEqual(['across', 'toward', 'seated']);
    expect(outlines.mount).toEqual(scenario.mount);

    page.host.receive({ type: 'step', ticks: 5 });
    page.pass(1000);
    expect(page.of('reach')).toHaveLength(1);

    const mount = { ...scenario.mount, atM: [1, 1] as [number, number] };
    page.host.receive({ type: 'act', input: { kind: 'moveDetector', mount } });
    page.pass(60);
    expect(page.of('reachProgress').at(-1)!.share).toBeLessThan(0.2);
    page.pass(60_000);
    expect(page.of('reach')).toHaveLength(2);
    expect(page.of('reach')[1]!.outlines).toMatchObject({ mount });
    expect(page.of('reach')[1]!.outlines.key).not.toBe(outlines.key);

    // Moved back: they are known, nothing is worked out again.
    const words = page.of('reachProgress').length;
    page.host.receive({ type: 'act', input: { kind: 'moveDetector', mount: scenario.mount } });
    page.pass(60);
    expect(page.of('reach')[2]!.outlines).toEqual(outlines);
    expect(page.of('reachProgress')).toHaveLength(words);
  });

  it('leave every digest of the run as it is, begun, dropped and begun again on the way', () => {
    const ticks = 1500;
    const alone = opened();
    alone.host.receive({ type: 'step', ticks });
    page.host.receive({ type: 'wantReach', wanted: true });
    page.pass(200);
    page.host.receive({ type: 'step', ticks: 400 });
    page.host.receive({ type: 'wantReach', wanted: false });
    page.host.receive({ type: 'step', ticks: 300 });
    page.host.receive({ type: 'wantReach', wanted: true });
    for (let k = 0; k < 8; k++) {
      page.pass(30);
      page.host.receive({ type: 'step', ticks: 100 });
    }
    page.pass(60_000);
    expect(page.of('reach')).toHaveLength(1);
    expect(page.digests()).toHaveLength(3);
    expect(page.digests()).toEqual(alone.digests());
    const events = (p: Page) => p.of('events').flatMap((message) => message.events);
    expect(events(page)).toEqual(events(alone));
  });

  it('stop at once when they are no longer wanted, and begin from the start when they are again', () => {
    page.host.receive({ type: 'wantReach', wanted: true });
    page.pass(300);
    expect(page.of('reachProgress').at(-1)!.share).toBeGreaterThan(0);
    page.host.receive({ type: 'wantReach', wanted: false });
    const told = page.told.length;
    page.pass(60_000);
    expect(page.told).toHaveLength(told);
    page.host.receive({ type: 'wantReach', wanted: true });
    page.pass(60_000);
    expect(page.of('reach')).toHaveLength(1);
  });

  it('never keep the ticks of a running room waiting for 50 ms', () => {
    // Every look at the clock costs 4 ms here: as if a try took that long.
    const alone = opened();
    for (const p of [alone, page]) {
      if (p === page) p.host.receive({ type: 'wantReach', wanted: true });
      p.lookMs = 4;
      p.longestMs = 0;
      p.host.receive({ type: 'run', speed: 5 });
      p.pass(5000);
    }
    expect(page.longestMs).toBeLessThan(50);
    const tick = (p: Page) => p.of('frame').at(-1)!.frame.tick;
    expect(tick(page)).toBeGreaterThan(0.9 * tick(alone));
    expect(page.of('reachProgress').at(-1)!.share).toBeGreaterThan(0.02);
  });
});
