import { describe, expect, it } from 'vitest';
import { close, day, m, play, press, set, steady, supply } from './harness.ts';

const NONE = (t: number) => [t, 0, 0, 0];
const BOTH = (t: number) => [t, 1, 1, 0];
const manual = { inner_mode: 'manual-on/auto-off', window_mode: 'manual-on/auto-off' };

describe('rows', () => {
  it('show no flicker when a dwell and absence end in one tick', () => {
    // Dark again from 270: the dark dwell ends at 300, where the row is absent.
    const daylight = { inner: 900, window: 900 };
    const events = [m(0), day(270, { inner: 100, window: 100 }), m(290)];
    expect(play({ set: { dark_dwell_s: 30 }, daylight, events: events.slice(0, 2), until: 400 }).states).toEqual([
      NONE(0),
    ]);
    expect(play({ daylight, events, until: 400 }).states).toEqual([NONE(0), BOTH(300)]);
  });

  it('judge each movement by themselves while Waiting, also while the other row is on', () => {
    const events = [press(0, 'window'), day(10, { inner: 900 }), m(20), m(40), day(50, { inner: 100 })];
    expect(play({ events, until: 90 }).states).toEqual([NONE(0), [0.3, 0, 1, 0], BOTH(80)]);
  });

  it('let a re-entry exactly 10.0 s after the automatic off count, and none later', () => {
    const on = [press(0, 'inner')];
    expect(play({ set: manual, events: [...on, m(310.3)], until: 400 }).states.slice(-1)).toEqual([[310.3, 1, 0, 0]]);
    expect(play({ set: manual, events: [...on, m(310.4)], until: 400 }).states.slice(-1)).toEqual([NONE(300.3)]);
  });

  it('continue the visit by a re-entry, so that the row returns after the dark dwell', () => {
    const events = [press(0, 'inner'), day(305, { inner: 900 }), m(306), day(320, { inner: 100 })];
    expect(play({ set: manual, events, until: 400 }).states.slice(-1)).toEqual([[350, 1, 0, 0]]);
  });

  it('grant no re-entry after release by daylight nor after Held off', () => {
    const heldOff = [press(0, 'inner'), press(10, 'inner'), m(315)];
    expect(play({ set: manual, events: heldOff, until: 400 }).states).toEqual([NONE(0), [0.3, 1, 0, 0], NONE(10.3)]);
    const short = { ...manual, bright_dwell_s: 60 };
    const released = [press(0, 'inner'), day(10, { inner: 900 }), m(20), day(100, { inner: 900 }), m(325)];
    expect(play({ set: short, events: released, until: 400 }).states).toEqual([NONE(0), [0.3, 1, 0, 0], NONE(70)]);
  });

  it('count Held on, and a shortened delay, among automatic offs', () => {
    const daylight = { inner: 900, window: 900 };
    const events = [press(0, 'inner'), set(100, { inner_off_delay_s: 60 }), day(101, { inner: 100 }), m(109)];
    expect(play({ set: manual, daylight, events, until: 120 }).states).toEqual([
      NONE(0),
      [0.3, 1, 0, 0],
      NONE(100),
      [109, 1, 0, 0],
    ]);
  });

  it('take a changed mode at the next absence while on, at once while off', () => {
    const events = [m(0), set(10, manual), m(400), m(500)];
    expect(play({ events, until: 900 }).states).toEqual([BOTH(0), NONE(300)]);
    expect(
      play({ set: manual, events: [m(0), set(10, { inner_mode: 'auto-on/auto-off' }), m(20)], until: 50 }).states,
    ).toEqual([NONE(0), [20, 1, 0, 0]]);
  });

  it('keep a mode that waits for absence also through a release by daylight', () => {
    const fast = { bright_dwell_s: 60 };
    const events = [
      ...steady(0, 600),
      day(10, { inner: 900 }),
      set(20, { inner_mode: 'manual-on/auto-off' }),
      day(200, { inner: 100 }),
    ];
    // Still auto-on in this visit, so the dark dwell brings the row back.
    expect(play({ set: fast, events, until: 300 }).states).toEqual([BOTH(0), [70, 0, 1, 0], BOTH(230)]);
  });

  it('do not return in manual-on when the mode came while off by daylight', () => {
    const fast = { bright_dwell_s: 60 };
    const events = [
      ...steady(0, 600),
      day(10, { inner: 900 }),
      set(100, { inner_mode: 'manual-on/auto-off' }),
      day(200, { inner: 100 }),
    ];
    expect(play({ set: fast, events, until: 300 }).states).toEqual([BOTH(0), [70, 0, 1, 0]]);
  });

  it('go from Held off to Held on under on-only', () => {
    const events = [
      m(0),
      press(10, 'inner'),
      set(20, { button_policy: 'on-only' }),
      press(30, 'inner'),
      press(40, 'inner'),
    ];
    expect(play({ events, until: 50 }).states).toEqual([BOTH(0), [10.3, 0, 1, 0], BOTH(30.3)]);
  });

  it('compare a changed off-delay with the running count at once', () => {
    const events = [m(0), set(200, { inner_off_delay_s: 60 }), set(250, { window_off_delay_s: 1800 })];
    expect(play({ events, until: 400 }).states).toEqual([BOTH(0), [200, 0, 1, 0]]);
  });
});

describe('one button for both rows', () => {
  const one = { one_button_for_both_rows: true };

  it('takes presses on both inputs in one tick as one', () => {
    const events = [press(1, 'inner'), press(1, 'window')];
    expect(play({ set: one, events, until: 20 }).states).toEqual([NONE(0), BOTH(1.3)]);
  });

  it('holds off also a row that was Waiting', () => {
    const daylight = { inner: 100, window: 100 };
    const mixed = { ...one, window_mode: 'manual-on/auto-off' };
    const events = [m(0), press(1, 'inner'), m(10), press(20, 'window')];
    expect(play({ set: mixed, daylight, events, until: 30 }).states).toEqual([[0, 1, 0, 0], NONE(1.3), BOTH(20.3)]);
  });

  it('lets each row do what a press means in its state when none is on', () => {
    // Inner: manual-on and dark, a request, so daylight may release it. Window: manual-on and bright, held.
    const settings = { ...one, ...manual, bright_dwell_s: 60 };
    const daylight = { inner: 100, window: 900 };
    const events = [press(0, 'inner'), day(10, { inner: 900 }), ...steady(20, 200)];
    expect(play({ set: settings, daylight, events, until: 250 }).states).toEqual([NONE(0), BOTH(0.3), [70, 0, 1, 0]]);
  });

  it('never switches off under on-only', () => {
    const settings = { ...one, button_policy: 'on-only' };
    expect(play({ set: settings, events: [m(0), press(10, 'window')], until: 250 }).states).toEqual([BOTH(0)]);
  });

  it('gives a short-impulse row no impulse when the other goes off, and one when both go on', () => {
    const settings = { ...one, inner_mode: 'short-impulse', window_mode: 'manual-on/auto-off' };
    const events = [press(0, 'inner'), press(20, 'inner'), press(40, 'inner')];
    expect(play({ set: settings, events, until: 60 }).states).toEqual([
      NONE(0),
      BOTH(0.3),
      [0.8, 0, 1, 0],
      NONE(20.3),
      BOTH(40.3),
      [40.8, 0, 1, 0],
    ]);
  });
});

describe('short impulse', () => {
  const impulse = { inner_mode: 'short-impulse', window_mode: 'manual-on/auto-off', inner_off_delay_s: 60 };
  const starts = (states: number[][]) => states.filter((s) => s[1] === 1).map((s) => s[0]);
  const run = (events: Record<string, unknown>[], daylight = { inner: 100, window: 900 }) =>
    starts(play({ set: impulse, daylight, events, until: 500 }).states);

  it('repeats exactly 10.5 s after the start of the last, not sooner, and stores nothing', () => {
    expect(run([m(0), m(10.4), m(10.5)])).toEqual([0, 10.5]);
    expect(run([m(0), m(10.4), m(20)])).toEqual([0, 20]);
  });

  it('asks for Dark only at the first movement of a visit', () => {
    expect(run([m(0), day(5, { inner: 900 }), m(20)])).toEqual([0, 20]);
    expect(run([m(0), day(5, { inner: 100 }), m(20)], { inner: 900, window: 900 })).toEqual([]);
  });

  it('gives none when the last began a whole off-delay ago', () => {
    const kept = [m(0), press(5, 'window'), press(30, 'window'), m(59.9)];
    expect(run(kept)).toEqual([0, 59.9]);
    expect(run([...kept.slice(0, 3), m(60)])).toEqual([0]);
  });

  it('begins a visit by its own button without asking for Dark, not by the other', () => {
    const bright = { inner: 900, window: 900 };
    expect(run([press(0, 'inner'), m(20)], bright)).toEqual([0.3, 20]);
    expect(run([press(0, 'window'), m(20)], bright)).toEqual([]);
    expect(run([press(0, 'window'), m(20)])).toEqual([20]);
  });

  it('asks a movement in a visit begun by its button for a recent impulse, not for Dark', () => {
    expect(run([press(0, 'inner'), press(40, 'window'), m(65)])).toEqual([0.3]);
    expect(run([press(0, 'inner'), press(40, 'window'), m(60)])).toEqual([0.3, 60]);
  });

  it('restarts the delay by a press in the pause that gives no impulse', () => {
    // Without the press the visit would end at 60 and the movement at 63 would ask for Dark.
    const events = [m(0), press(9, 'inner'), day(20, { inner: 900 }), m(63)];
    expect(run(events)).toEqual([0]);
    expect(run([...events.slice(0, 2), m(40), day(50, { inner: 900 }), m(63)])).toEqual([0, 40, 63]);
  });

  it('always lasts half a second, also when the mode is changed meanwhile; the change waits for absence', () => {
    const states = play({
      set: impulse,
      events: [m(0), set(0.2, { inner_mode: 'auto-on/auto-off' }), m(20), m(100)],
      until: 150,
    }).states;
    expect(states).toEqual([[0, 1, 0, 0], NONE(0.5), [20, 1, 0, 0], NONE(20.5), [100, 1, 0, 0]]);
  });

  it('is cut by the supply alone', () => {
    const events = [m(10), supply(10.1, false)];
    expect(play({ set: impulse, events, until: 20 }).states).toEqual([NONE(0), [10, 1, 0, 0], NONE(10.2)]);
  });

  it('is no own lamp: no learned delay comes of it', () => {
    const settings = { ...impulse, adaptive_delay: true };
    const played = play({ set: settings, events: [m(0), m(630), close(640, 'air', 0.05)], until: 700 });
    expect(played.adaptive_delay_changes).toBeUndefined();
  });
});
