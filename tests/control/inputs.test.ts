import { describe, expect, it } from 'vitest';
import { Bench, close, m, play, press, supply, walk } from './harness.ts';

const OFF = [0, 0, 0, 0];

describe('what a closure means, by its length', () => {
  it.each([
    [0.039, 'noise'],
    [0.09, 'guard band'],
    [0.119, 'guard band'],
  ])('ignores a closure of %d s (%s)', (length) => {
    expect(play({ events: [close(1, 'inner', length)], until: 20 }).states).toEqual([OFF]);
  });

  it.each([0.04, 0.06, 0.089])('takes %d s as movement: both rows light', (length) => {
    expect(play({ events: [close(1, 'window', length)], until: 20 }).states).toEqual([OFF, [1.1, 1, 1, 0]]);
  });

  it.each([0.12, 0.3, 1.499])('takes %d s as a press that acts when released', (length) => {
    const acted = Math.ceil((1 + length) * 10 - 1e-6) / 10;
    expect(play({ events: [close(1, 'inner', length)], until: 20 }).states).toEqual([OFF, [acted, 1, 0, 0]]);
  });

  it('lets a long press act once, at 1.5 s, whatever comes after', () => {
    expect(play({ events: [close(1, 'inner', 9.9)], until: 20 }).states).toEqual([OFF, [2.5, 1, 0, 0]]);
  });

  it('lets a closure of 1.51 s between two ticks act once', () => {
    expect(play({ events: [close(1.05, 'inner', 1.51)], until: 20 }).states).toEqual([OFF, [2.6, 1, 0, 0]]);
  });

  it('logs what falls into the guard band, but not on the air input', () => {
    const bench = new Bench();
    const edges = (input: 'inner' | 'air', ms: number) => [
      { tMs: 0, input, closed: true },
      { tMs: ms, input, closed: false },
    ];
    bench.step();
    expect(bench.step({ contactEdges: edges('inner', 100) })).toEqual([
      { tick: 1, kind: 'note', note: 'closureInGuardBand', input: 'inner' },
    ]);
    expect(bench.step({ contactEdges: edges('air', 100) })).toEqual([]);
    expect(bench.step({ contactEdges: edges('air', 60) })).toEqual([]);
  });

  it('takes overlapping and touching closures of one input as one, and any gap as two', () => {
    const once = [OFF, [1.5, 1, 0, 0]];
    expect(play({ events: [close(1, 'inner', 0.3), close(1.2, 'inner', 0.3)], until: 9 }).states).toEqual(once);
    expect(play({ events: [close(1, 'inner', 0.3), close(1.3, 'inner', 0.2)], until: 9 }).states).toEqual(once);
    expect(play({ events: [close(1, 'inner', 0.3), close(1.31, 'inner', 0.19)], until: 9 }).states).toEqual([
      OFF,
      [1.3, 1, 0, 0],
      [1.5, 0, 0, 0],
    ]);
  });

  it('reads three touching extension pulses as a press', () => {
    const events = [close(1, 'inner', 0.06), close(1.06, 'inner', 0.06), close(1.12, 'inner', 0.06)];
    expect(play({ events, until: 9 }).states).toEqual([OFF, [1.2, 1, 0, 0]]);
  });
});

describe('an input that is stuck closed', () => {
  it('is flagged at 10.0 s if still closed, and not by a closure of exactly 10.0 s', () => {
    expect(play({ events: [close(0, 'inner', 10)], until: 20 }).flags).toBeUndefined();
    expect(play({ events: [close(0, 'inner', 10.1)], until: 20 }).flags).toEqual([
      { t: 10, flag: 'input stuck closed', input: 'inner button', state: 'raised' },
      { t: 11.1, flag: 'input stuck closed', input: 'inner button', state: 'cleared' },
    ]);
  });

  it('is not heard again until it has been open for a whole second without a break', () => {
    const events = [close(0, 'inner', 12), close(12.9, 'inner', 0.3), close(14.1, 'inner', 0.06), press(15.3, 'inner')];
    const { states, flags } = play({ events, until: 20 });
    // Held on at 1.5 by the closure that became stuck; the next heard press is the one at 15.3.
    expect(states).toEqual([OFF, [1.5, 1, 0, 0], [15.6, 0, 0, 0]]);
    expect(flags?.map((f) => [f.t, f.state])).toEqual([
      [10, 'raised'],
      [15.2, 'cleared'],
    ]);
  });

  it('hears a closure that begins exactly one second after the input opened', () => {
    const events = [close(0, 'inner', 12), close(13, 'inner', 0.3)];
    expect(play({ events, until: 20 }).states).toEqual([OFF, [1.5, 1, 0, 0], [13.3, 0, 0, 0]]);
  });

  it('leaves the other inputs and the automatic alone', () => {
    const events = [close(0, 'inner', 60), press(20, 'window'), m(30)];
    expect(play({ events, until: 40 }).states).toEqual([OFF, [1.5, 1, 0, 0], [20.3, 1, 1, 0]]);
  });

  it('is forgotten with the supply, said so, and counted afresh from the end of Warm-up', () => {
    const { flags } = play({ events: [close(0, 'air', 100), supply(20, false), supply(30, true)], until: 80 });
    expect(flags?.map((f) => [f.t, f.state])).toEqual([
      [10, 'raised'],
      [20.1, 'cleared'],
      [65, 'raised'],
    ]);
  });

  it('counts on through the start of a walk-test', () => {
    const { flags } = play({ events: [close(0, 'inner', 30), walk(5, 'start')], until: 20 });
    expect(flags?.map((f) => [f.t, f.state])).toEqual([[10, 'raised']]);
  });
});

describe('a closure across a change of phase', () => {
  it('means nothing when Warm-up ends while it lasts', () => {
    const events = [supply(0, true), close(24.9, 'inner', 0.3), close(24.97, 'window', 0.06)];
    expect(play({ off: true, events, until: 40 }).states).toEqual([
      [0, 1, 1, 0],
      [25, 0, 0, 0],
    ]);
  });

  it('does not act at 1.5 s either, however long it is held', () => {
    const events = [supply(0, true), close(24.9, 'inner', 5)];
    expect(play({ off: true, events, until: 40 }).states).toEqual([
      [0, 1, 1, 0],
      [25, 0, 0, 0],
    ]);
  });

  it('means nothing when Walk-test starts or ends while it lasts', () => {
    const events = [close(9.9, 'inner', 0.3), walk(10, 'start'), close(19.9, 'inner', 0.3), walk(20, 'end')];
    expect(play({ events, until: 40 }).states).toEqual([OFF]);
  });

  it('is a press again once it begins after the change', () => {
    const events = [walk(10, 'start'), walk(20, 'end'), press(20.1, 'inner')];
    expect(play({ events, until: 40 }).states).toEqual([OFF, [20.4, 1, 0, 0]]);
  });
});
