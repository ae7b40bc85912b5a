import { beforeEach, describe, expect, it } from 'vitest';
import {
  addEvents,
  addSeries,
  clearRecord,
  cutRecord,
  firstIndexAtOrAfter,
  record,
} from '../../src/app/state/record.ts';
import type { SeriesChunk } from '../../src/host/messages.ts';
import { axisStepS, recorderLayout, windowFromS } from '../../src/report/stripLayout.ts';
import { linePath, signalPath, strokesPath } from '../../src/report/traces.ts';

function chunk(fromTick: number, ticks: number, lx: number): SeriesChunk {
  const seconds = Math.ceil((fromTick + ticks) / 10) - Math.ceil(fromTick / 10);
  const flat = () => new Float32Array(seconds).fill(lx);
  return {
    fromTick,
    signalUv: new Float32Array(ticks * 2).map((_, i) => (i % 2 === 0 ? -1 : 1)),
    innerEstimateLx: flat(),
    windowEstimateLx: flat(),
    innerReadingLx: flat(),
    windowReadingLx: flat(),
  };
}

beforeEach(clearRecord);

describe('the record of a run', () => {
  it('keeps a replayed stretch once', () => {
    const at = (tick: number) => ({ tick, kind: 'press', input: 'inner' }) as const;
    addEvents([at(1), at(5), at(9)]);
    addEvents([at(5), at(9), at(12)]);
    expect(record.events.map((e) => e.tick)).toEqual([1, 5, 9, 12]);
  });

  it('forgets what came after a cut, in events and series alike', () => {
    addEvents([
      { tick: 4, kind: 'press', input: 'inner' },
      { tick: 40, kind: 'press', input: 'air' },
    ]);
    addSeries(chunk(0, 100, 300));
    cutRecord(20);
    expect(record.events.map((e) => e.tick)).toEqual([4]);
    expect(record.signalUv.length).toBe(42);
    expect(record.innerEstimateLx.length).toBe(3);
  });

  it('grows without losing what it has', () => {
    for (let fromTick = 0; fromTick < 30_000; fromTick += 600) addSeries(chunk(fromTick, 600, fromTick));
    expect(record.signalUv.length).toBe(60_000);
    expect(record.innerEstimateLx.values[0]).toBe(0);
    expect(record.innerEstimateLx.values[65]).toBe(600);
    expect(record.innerEstimateLx.length).toBe(3000);
  });

  it('finds the first event at or after a tick', () => {
    addEvents([2, 2, 7].map((tick) => ({ tick, kind: 'press', input: 'air' }) as const));
    expect([0, 2, 3, 7, 8].map((tick) => firstIndexAtOrAfter(tick))).toEqual([0, 0, 2, 2, 3]);
  });
});

describe('a trace', () => {
  const grow = (values: number[]) => ({ values: new Float32Array(values), length: values.length });

  it('keeps a peak of one sample at every zoom', () => {
    const values = new Array(86_400).fill(100);
    values[40_000] = 900;
    const path = linePath(grow(values), 10, 0, 864_000, 1000, (lx) => lx);
    expect(path).toContain(' 900.0');
  });

  it('keeps the largest and smallest signal of every column', () => {
    const pairs = new Array(20_000).fill(0);
    pairs[5001] = 42;
    pairs[9000] = -37;
    const path = signalPath(grow(pairs), 0, 10_000, 500, (uv) => uv);
    expect(path).toContain(' 42.0');
    expect(path).toContain(' -37.0');
  });

  it('leaves a gap open instead of bridging it', () => {
    const path = linePath(grow([1, 1, Number.NaN, 1]), 10, 0, 40, 400, (v) => v);
    expect(path.match(/M/g)).toHaveLength(2);
  });

  it('draws strokes that can be told apart', () => {
    const path = strokesPath(
      Array.from({ length: 1000 }, (_, i) => i),
      0,
      1000,
      300,
      0,
      10,
    );
    expect(path.match(/M/g)!.length).toBeLessThanOrEqual(101);
  });
});

describe('the window of time', () => {
  it('follows while running, and never loses the instant shown', () => {
    expect(windowFromS(0, 600, 100, true)).toBe(0);
    expect(windowFromS(0, 600, 1000, true)).toBeCloseTo(1000 - 600 * 0.77);
    expect(windowFromS(500, 600, 700, false)).toBe(500);
    for (const shownS of [0, 10, 499, 1200, 5000]) {
      const fromS = windowFromS(500, 600, shownS, false);
      expect(shownS).toBeGreaterThanOrEqual(fromS);
      expect(shownS).toBeLessThanOrEqual(fromS + 600);
    }
  });

  it('labels its axis in steps that people use, far enough apart to read', () => {
    for (const [spanS, widthPx] of [
      [600, 1400],
      [3600, 1400],
      [86_400, 1400],
      [600, 240],
    ] as const) {
      const step = axisStepS(spanS, widthPx);
      expect((step / spanS) * widthPx).toBeGreaterThanOrEqual(130);
      expect(3600 % step === 0 || step % 3600 === 0).toBe(true);
    }
  });

  it('gives up the heat signal first where it is low, and keeps every row inside', () => {
    expect(recorderLayout(290).signal).not.toBeNull();
    const low = recorderLayout(206);
    expect(low.signal).toBeNull();
    expect(low.estimate.bottomPx - low.estimate.topPx).toBeGreaterThan(40);
    expect(low.bands[2]!.topPx + low.bands[2]!.heightPx).toBeLessThanOrEqual(206);
  });
});
