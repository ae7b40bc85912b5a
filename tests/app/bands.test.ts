import { describe, expect, it } from 'vitest';
import type { Reason, TraceEvent } from '../../src/engine/trace.ts';
import { bandStretches, SEEN_FOR_TICKS, visibleBars } from '../../src/report/bands.ts';

const reason: Reason = { code: 'seenAndDark', conditions: [] };
const start = { on: false, state: 'waiting', phase: 'running' } as const;

function rowOn(tick: number): TraceEvent[] {
  return [
    { tick, kind: 'seen', by: 'pulse', atM: null },
    { tick, kind: 'row', row: 'inner', from: 'waiting', to: 'litByAutomatic', reason },
    { tick, kind: 'output', output: 'innerRow', on: true, reason },
  ];
}

describe('a band of the Recorder', () => {
  it('is solid for 20 s after a pulse, then hatched until it goes off', () => {
    const events: TraceEvent[] = [
      ...rowOn(100),
      { tick: 3100, kind: 'row', row: 'inner', from: 'litByAutomatic', to: 'waiting', reason },
      { tick: 3100, kind: 'output', output: 'innerRow', on: false, reason },
    ];
    expect(bandStretches(events, 'innerRow', start, 4000)).toEqual([
      { fromTick: 0, toTick: 100, look: 'off' },
      { fromTick: 100, toTick: 100 + SEEN_FOR_TICKS, look: 'seen' },
      { fromTick: 100 + SEEN_FOR_TICKS, toTick: 3100, look: 'timing' },
      { fromTick: 3100, toTick: 4000, look: 'off' },
    ]);
  });

  it('turns solid again with every movement that restarts the delay', () => {
    const events: TraceEvent[] = [...rowOn(0), { tick: 1000, kind: 'seen', by: 'pulse', atM: null }];
    const looks = bandStretches(events, 'innerRow', start, 2000).map((s) => [s.fromTick, s.look]);
    expect(looks).toEqual([
      [0, 'seen'],
      [200, 'timing'],
      [1000, 'seen'],
      [1200, 'timing'],
    ]);
  });

  it('shows the bright wait of its own row only', () => {
    const crossing: TraceEvent = {
      tick: 500,
      kind: 'crossing',
      row: 'inner',
      level: 'release',
      rising: true,
      estimateLx: 610,
      limitLx: 600,
    };
    const events = [...rowOn(0), crossing];
    expect(bandStretches(events, 'innerRow', start, 900).at(-1)?.look).toBe('bright');
    const other: TraceEvent[] = [...rowOn(0), { ...crossing, row: 'window' }];
    expect(bandStretches(other, 'innerRow', start, 900).at(-1)?.look).toBe('timing');
  });

  it('tells held from lit by automatic, and warm-up from both', () => {
    const events: TraceEvent[] = [
      { tick: 0, kind: 'phase', from: 'off', to: 'warmUp', reason },
      { tick: 0, kind: 'output', output: 'innerRow', on: true, reason },
      { tick: 250, kind: 'phase', from: 'warmUp', to: 'running', reason },
      { tick: 250, kind: 'output', output: 'innerRow', on: false, reason },
      { tick: 300, kind: 'row', row: 'inner', from: 'waiting', to: 'heldOn', reason },
      { tick: 300, kind: 'output', output: 'innerRow', on: true, reason },
      { tick: 400, kind: 'row', row: 'inner', from: 'heldOn', to: 'heldOff', reason },
      { tick: 400, kind: 'output', output: 'innerRow', on: false, reason },
    ];
    const looks = bandStretches(events, 'innerRow', { ...start, phase: 'off' }, 500).map((s) => s.look);
    expect(looks).toEqual(['starting', 'off', 'held', 'heldOff']);
  });

  it('leaves no gap and no overlap, whatever happens', () => {
    const events: TraceEvent[] = [...rowOn(7), ...rowOn(7), ...rowOn(208), ...rowOn(1500)];
    const stretches = bandStretches(events, 'innerRow', start, 1501);
    expect(stretches[0]?.fromTick).toBe(0);
    expect(stretches.at(-1)?.toTick).toBe(1501);
    for (let i = 1; i < stretches.length; i++) expect(stretches[i]!.fromTick).toBe(stretches[i - 1]!.toTick);
  });

  it('draws no more bars than there are pixels', () => {
    const events: TraceEvent[] = [];
    for (let tick = 0; tick < 864_000; tick += 500) events.push({ tick, kind: 'seen', by: 'pulse', atM: null });
    const all = bandStretches([...rowOn(0), ...events.slice(1)], 'innerRow', start, 864_000);
    expect(all.length).toBeGreaterThan(3000);
    const bars = visibleBars(all, 0, 864_000, 864);
    expect(bars.length).toBeLessThanOrEqual(1000);
    expect(bars[0]?.fromTick).toBe(0);
    expect(bars.at(-1)?.toTick).toBe(864_000);
  });
});
