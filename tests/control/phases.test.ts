import { describe, expect, it } from 'vitest';
import { Bench, close, m, play, press, set, steady, supply, take, walk } from './harness.ts';

const BOTH = (t: number) => [t, 1, 1, 0];
const NONE = (t: number) => [t, 0, 0, 0];

describe('supply dips, judged by their exact length', () => {
  const dip = (fromS: number, toS: number) =>
    play({ events: [m(0), supply(fromS, false), supply(toS, true)], until: 200 }).states;

  it('rides through exactly 100 ms, on the ticks and between them', () => {
    expect(dip(100, 100.1)).toEqual([BOTH(0)]);
    expect(dip(100.03, 100.13)).toEqual([BOTH(0)]);
    expect(dip(100.07, 100.17)).toEqual([BOTH(0)]);
  });

  it('goes straight to Warm-up after 101 ms between two ticks, without opening a contact', () => {
    expect(dip(100.03, 100.131)).toEqual([BOTH(0), NONE(125.2)]);
  });

  it('opens in the first tick in which the supply has been gone for 100 ms', () => {
    expect(dip(100, 100.11)).toEqual([BOTH(0), NONE(100.1), BOTH(100.2), NONE(125.2)]);
    expect(dip(100.05, 100.9)).toEqual([BOTH(0), NONE(100.2), BOTH(100.9), NONE(125.9)]);
  });

  it('rides through many short dips in a row', () => {
    const dips = [0, 1, 2, 3].flatMap((k) => [supply(10 + k * 0.15, false), supply(10.09 + k * 0.15, true)]);
    expect(play({ events: [m(0), ...dips], until: 20 }).states).toEqual([BOTH(0)]);
  });

  it('lets presses and movement of a ridden-through dip count', () => {
    const events = [m(0), close(99.8, 'inner', 0.25), supply(100, false), supply(100.09, true), m(100.1)];
    expect(play({ events, until: 450 }).states).toEqual([BOTH(0), [100.1, 0, 1, 0], NONE(400.1)]);
  });

  it('logs the dip that it rode through with its length', () => {
    const bench = new Bench();
    bench.step({ supplyEdges: [{ tMs: 0, on: false }] });
    const events = bench.step({ supplyEdges: [{ tMs: 80, on: true }] });
    expect(events).toMatchObject([
      { kind: 'phase', from: 'running', to: 'running', reason: { code: 'supplyDipRiddenThrough' } },
    ]);
    expect(events[0]).toHaveProperty('reason.conditions.0.value', 0.08);
  });
});

describe('Warm-up', () => {
  it('lights both rows whatever their mode, short-impulse too', () => {
    const modes = { inner_mode: 'short-impulse', window_mode: 'manual-on/auto-off' };
    expect(play({ set: modes, off: true, events: [supply(0, true)], until: 40 }).states).toEqual([BOTH(0), NONE(25)]);
  });

  it('ignores movement and presses decided in the tick in which it ends', () => {
    const events = [supply(0, true), m(25), press(24.7, 'inner')];
    expect(play({ off: true, events, until: 40 }).states).toEqual([BOTH(0), NONE(25)]);
  });

  it('stores changed settings until Running', () => {
    const events = [supply(0, true), set(5, { inner_mode: 'manual-on/auto-off', warm_up_s: 60 }), m(30)];
    expect(play({ off: true, events, until: 40 }).states).toEqual([BOTH(0), NONE(25), [30, 0, 1, 0]]);
  });

  it('ignores "take present light" and "start walk-test"', () => {
    const daylight = { inner: 100, window: 100 };
    const events = [supply(0, true), take(5, 'inner'), walk(6, 'start'), m(30)];
    expect(play({ off: true, daylight, events, until: 40 }).states).toEqual([BOTH(0), NONE(25), BOTH(30)]);
  });

  it('forgets holds and visits that a supply loss interrupted, and keeps settings', () => {
    const events = [
      press(0, 'inner'),
      set(1, { inner_off_delay_s: 60, window_off_delay_s: 60 }),
      supply(10, false),
      supply(20, true),
      m(50),
    ];
    expect(play({ events, until: 200 }).states).toEqual([
      NONE(0),
      [0.3, 1, 0, 0],
      NONE(10.1),
      BOTH(20),
      NONE(45),
      BOTH(50),
      NONE(110),
    ]);
  });
});

describe('Walk-test', () => {
  it('gives movement in the tick of its timed end to the old phase', () => {
    expect(play({ events: [walk(0, 'start'), m(600)], until: 700 }).states).toEqual([NONE(0)]);
  });

  it('ends by command before the movement of that tick is judged', () => {
    expect(play({ events: [walk(0, 'start'), walk(10, 'end'), m(10)], until: 100 }).states).toEqual([
      NONE(0),
      BOTH(10),
    ]);
  });

  it('ignores a second start: 600 s count from the first', () => {
    const events = [walk(0, 'start'), walk(300, 'start'), m(599), m(601)];
    expect(play({ events, until: 700 }).states).toEqual([NONE(0), BOTH(599), NONE(600), BOTH(601)]);
  });

  it('pulses again exactly 3.0 s after the last start, not before', () => {
    const events = [walk(0, 'start'), m(1), m(3.9), m(4)];
    expect(play({ events, until: 10 }).states).toEqual([NONE(0), BOTH(1), NONE(3), BOTH(4), NONE(6)]);
  });

  it('counts extension pulses, ignores presses, keeps masks, asks no second movement and no mode', () => {
    const settings = { reduced_sensitivity: true, masked_sectors: [3], inner_mode: 'short-impulse' };
    const events = [walk(0, 'start'), m(5, 3), press(6, 'inner'), close(10, 'window', 0.06), m(20, 4)];
    expect(play({ set: settings, events, until: 30 }).states).toEqual([
      NONE(0),
      BOTH(10.1),
      NONE(12.1),
      BOTH(20),
      NONE(22),
    ]);
  });

  it('forgets holds, visits and the air contact when it starts', () => {
    const events = [press(0, 'inner'), press(1, 'air'), walk(10, 'start'), walk(20, 'end')];
    expect(play({ events, until: 400 }).states).toEqual([NONE(0), [0.3, 1, 0, 0], [1.3, 1, 0, 1], NONE(10)]);
  });

  it('stores a changed mask until Running', () => {
    const events = [walk(0, 'start'), set(1, { masked_sectors: [3] }), m(5, 3), walk(10, 'end'), m(11, 3)];
    expect(play({ events, until: 30 }).states).toEqual([NONE(0), BOTH(5), NONE(7)]);
  });

  it('is cut by a supply loss', () => {
    const events = [walk(0, 'start'), m(5), supply(6, false), supply(7, true), ...steady(40, 40)];
    expect(play({ events, until: 50 }).states).toEqual([NONE(0), BOTH(5), NONE(6.1), BOTH(7), NONE(32), BOTH(40)]);
  });
});

describe('what a supply loss forgets', () => {
  const quick = { warm_up_s: 1 };
  /** Gone for half a second, then a Warm-up of one second: Running again 1.5 s after the loss. */
  const loss = (t: number) => [supply(t, false), supply(t + 0.5, true)];

  it('is a movement that waited for its partner', () => {
    const settings = { ...quick, reduced_sensitivity: true };
    const { states } = play({ set: settings, events: [m(1), ...loss(1.5), m(4)], until: 10 });
    expect(states).toEqual([NONE(0), BOTH(2), NONE(3)]);
    const walked = [m(1), walk(2, 'start'), walk(3, 'end'), m(4)];
    expect(play({ set: settings, events: walked, until: 10 }).states).toEqual([NONE(0)]);
  });

  it('is the re-entry grace', () => {
    const settings = { ...quick, inner_mode: 'manual-on/auto-off', window_mode: 'manual-on/auto-off' };
    const events = [press(0, 'inner'), ...loss(301), m(305)];
    expect(play({ set: settings, events, until: 310 }).states.slice(-2)).toEqual([BOTH(301.5), NONE(302.5)]);
  });

  it('is the pause after an impulse', () => {
    const settings = { ...quick, inner_mode: 'short-impulse', window_mode: 'manual-on/auto-off' };
    const { states } = play({ set: settings, events: [m(0), ...loss(1), m(4)], until: 10 });
    expect(states.slice(-2)).toEqual([[4, 1, 0, 0], NONE(4.5)]);
  });

  it('is a mode that waited for absence: the new one is in force', () => {
    const events = [m(0), set(1, { inner_mode: 'manual-on/auto-off' }), ...loss(5), m(10)];
    expect(play({ set: quick, events, until: 20 }).states.slice(-1)).toEqual([[10, 0, 1, 0]]);
  });

  it('is a request for light, with its visit', () => {
    const settings = { ...quick, inner_mode: 'manual-on/auto-off', bright_dwell_s: 60 };
    const events = [press(0, 'inner'), ...loss(5), m(10), press(20, 'inner')];
    expect(play({ set: settings, events, until: 30 }).states.slice(-2)).toEqual([
      [10, 0, 1, 0],
      [20.3, 1, 1, 0],
    ]);
  });
});
