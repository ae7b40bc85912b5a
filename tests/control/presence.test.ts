import { describe, expect, it } from 'vitest';
import { Bench, close, m, play, press, pulse, set, steady, supply, walk } from './harness.ts';

const NONE = (t: number) => [t, 0, 0, 0];
const BOTH = (t: number) => [t, 1, 1, 0];
const seenTicks = (bench: Bench) => bench.events.filter((e) => e.kind === 'seen').map((e) => e.tick);

describe('pulses of the detector', () => {
  it('start an empty room only as two of one channel above the switch-on threshold within 4 s', () => {
    const bench = new Bench();
    bench.at(1, { pulses: [pulse('switchOn', 0)] });
    bench.at(2, { pulses: [pulse('switchOn', 1)] });
    bench.at(3, { pulses: [pulse('hold', 0), pulse('hold', 0)] });
    expect(seenTicks(bench)).toEqual([]);
    bench.at(5, { pulses: [pulse('switchOn', 0)] });
    expect(seenTicks(bench)).toEqual([50]);
    expect(bench.state.inner.contactClosed).toBe(true);
  });

  it('no longer pair up a fiftieth of a second after 4 s', () => {
    const bench = new Bench();
    bench.at(1, { pulses: [pulse('switchOn', 2, 0)] });
    bench.at(5, { pulses: [pulse('switchOn', 2, 1)] });
    expect(seenTicks(bench)).toEqual([]);
    bench.at(9, { pulses: [pulse('switchOn', 2, 1)] });
    expect(seenTicks(bench)).toEqual([90]);
  });

  it('keep an occupied room singly, above the hold threshold, until the longer off-delay is over', () => {
    const bench = new Bench({ innerOffDelayS: 60, windowOffDelayS: 120 });
    bench.move(0);
    bench.at(110, { pulses: [pulse('hold', 3)] });
    expect(seenTicks(bench)).toEqual([0, 1100]);
    // In the very tick of expiry the room still counts as occupied; one tick later it is empty.
    bench.at(230, { pulses: [pulse('hold', 3)] });
    expect(seenTicks(bench)).toEqual([0, 1100, 2300]);
    bench.at(350.1, { pulses: [pulse('hold', 3)] });
    expect(seenTicks(bench)).toHaveLength(3);
  });

  it('are judged by the raised thresholds in reduced sensitivity, and start only as two movements within 5 s', () => {
    const bench = new Bench({ reducedSensitivity: true });
    for (const s of [1, 2, 3]) bench.at(s, { pulses: [pulse('switchOn'), pulse('hold')] });
    expect(seenTicks(bench)).toEqual([]);
    for (const s of [10, 11]) bench.at(s, { pulses: [pulse('switchOnReduced')] });
    expect(seenTicks(bench)).toEqual([]);
    bench.at(12, { pulses: [pulse('switchOnReduced')] });
    expect(seenTicks(bench)).toEqual([120]);
    bench.at(20, { pulses: [pulse('hold'), pulse('switchOn')] });
    bench.at(30, { pulses: [pulse('holdReduced')] });
    expect(seenTicks(bench)).toEqual([120, 300]);
  });

  it('are judged by the switch-on rule in Walk-test, after any presence before', () => {
    const bench = new Bench();
    bench.move(0);
    bench.at(5, { commands: [{ kind: 'walkTest', action: 'start' }] });
    bench.at(6, { pulses: [pulse('hold')] });
    bench.at(7, { pulses: [pulse('switchOn')] });
    expect(bench.state.inner.contactClosed).toBe(false);
    bench.at(8, { pulses: [pulse('switchOn')] });
    expect(bench.state.inner.contactClosed).toBe(true);
  });

  it('are reported with whether they counted, at the thresholds in force', () => {
    const bench = new Bench();
    const first = bench.at(1, { pulses: [pulse('hold'), pulse('switchOn'), pulse('holdReduced')] });
    expect(first).toMatchObject([
      { kind: 'pulse', pulse: { level: 'hold' }, counted: false },
      { kind: 'pulse', pulse: { level: 'switchOn' }, counted: false },
    ]);
    const second = bench.at(2, { pulses: [pulse('switchOn')] });
    expect(second.filter((e) => e.kind === 'pulse')).toMatchObject([{ counted: true }]);
    expect(second.find((e) => e.kind === 'seen')).toMatchObject({ by: 'pulse', atM: [1, 2] });
  });

  it('of one sensitivity do not pair with those of the other', () => {
    const bench = new Bench();
    bench.at(1, { pulses: [pulse('switchOn')] });
    bench.at(2, { commands: [{ kind: 'setSettings', change: { reducedSensitivity: true } }] });
    bench.at(3, { pulses: [pulse('switchOnReduced')] });
    bench.at(4, { pulses: [pulse('switchOnReduced')] });
    expect(seenTicks(bench)).toEqual([]);
    bench.at(5, { pulses: [pulse('switchOnReduced')] });
    expect(seenTicks(bench)).toEqual([50]);
  });

  it('mean nothing in Warm-up and leave no first pulse behind', () => {
    const bench = new Bench({ warmUpS: 2 }, false);
    bench.step({ supplyEdges: [{ tMs: 0, on: true }] });
    bench.at(1.9, { pulses: [pulse('switchOn')] });
    bench.at(2.5, { pulses: [pulse('switchOn')] });
    expect(seenTicks(bench)).toEqual([]);
  });
});

describe('reduced sensitivity, movements', () => {
  const reduced = { reduced_sensitivity: true };

  it('pairs two movements exactly 5.0 s apart, and not 5.1 s', () => {
    expect(play({ set: reduced, events: [m(1), m(6)], until: 20 }).states).toEqual([NONE(0), BOTH(6)]);
    expect(play({ set: reduced, events: [m(1), m(6.1)], until: 20 }).states).toEqual([NONE(0)]);
  });

  it('remembers the latest movement without a partner', () => {
    expect(play({ set: reduced, events: [m(1), m(7), m(12)], until: 20 }).states).toEqual([NONE(0), BOTH(12)]);
  });

  it('uses up both movements of a pair', () => {
    const brief = { ...reduced, inner_off_delay_s: 1, window_off_delay_s: 1 };
    expect(play({ set: brief, events: [m(1), m(3), m(5)], until: 9 }).states).toEqual([NONE(0), BOTH(3), NONE(4)]);
  });

  it('lets one extension pulse start', () => {
    const events = [close(1, 'inner', 0.06)];
    expect(play({ set: reduced, events, until: 20 }).states).toEqual([NONE(0), BOTH(1.1)]);
  });

  it('gives a movement without a partner no effect on the air contact', () => {
    const set = { ...reduced, air_on_delay_s: 0, air_gap_limit_s: 120 };
    expect(play({ set, events: [m(1), m(10)], until: 20 }).states).toEqual([NONE(0)]);
  });

  it('calls the room empty by the longer off-delay, and keeps it by one movement in the tick of expiry', () => {
    const delays = { ...reduced, inner_off_delay_s: 60, window_off_delay_s: 120 };
    // Expires at 122: a single movement there keeps; at 242.1 the room is empty and a single one is nothing.
    const events = [m(1), m(2), m(122), m(242.1)];
    expect(play({ set: delays, events, until: 300 }).states).toEqual([
      NONE(0),
      BOTH(2),
      [62, 0, 1, 0],
      BOTH(122),
      [182, 0, 1, 0],
      NONE(242),
    ]);
  });

  it('calls the room not empty after a press, from the next tick on', () => {
    expect(play({ set: reduced, events: [press(1, 'air'), m(5)], until: 10 }).states).toEqual([
      NONE(0),
      [1.3, 0, 0, 1],
      [5, 1, 1, 1],
    ]);
    expect(play({ set: reduced, events: [press(1, 'air'), m(1.3)], until: 10 }).states).toEqual([
      NONE(0),
      [1.3, 0, 0, 1],
    ]);
  });
});

describe('presses and the off-delays', () => {
  it('lets a press in the tick of expiry act on the lit row and hold it off for a full off-delay', () => {
    const events = [m(0), press(299.7, 'inner'), m(599.9)];
    // Off at 300 by the press; window row, prolonged by it, stays; held off until absence.
    expect(play({ events, until: 1000 }).states).toEqual([BOTH(0), [300, 0, 1, 0], NONE(899.9)]);
  });

  it('restarts both rows by any press, the air button included', () => {
    expect(play({ events: [m(0), press(200, 'air')], until: 600 }).states).toEqual([
      BOTH(0),
      [200.3, 1, 1, 1],
      [500.3, 0, 0, 1],
    ]);
  });
});

describe('adaptive delay', () => {
  const adaptive = { adaptive_delay: true };

  it('learns 120 s more when movement follows an automatic off by 60.0 s, in force in that tick', () => {
    const { states, adaptive_delay_changes } = play({ set: adaptive, events: [m(0), m(660)], until: 1500 });
    expect(adaptive_delay_changes).toEqual([{ t: 660, adaptive_delay_s: 720 }]);
    expect(states).toEqual([BOTH(0), NONE(600), BOTH(660), NONE(1380)]);
  });

  it('learns nothing after 60.1 s, nor after exactly 1800 s, and 60 s less after more than that', () => {
    const learned = (gap: number) =>
      play({ set: adaptive, events: [m(0), m(600 + gap)], until: 2500 }).adaptive_delay_changes;
    expect(learned(60.1)).toBeUndefined();
    expect(learned(1800)).toBeUndefined();
    expect(learned(1800.1)).toEqual([{ t: 2400.1, adaptive_delay_s: 540 }]);
  });

  it('stays within 300 s and 1200 s', () => {
    const down = play({ set: adaptive, adaptiveStartS: 300, events: [m(0), m(2200)], until: 2300 });
    expect(down.adaptive_delay_changes).toBeUndefined();
    const up = play({ set: adaptive, adaptiveStartS: 1140, events: [m(0), m(1150), m(2360)], until: 2400 });
    expect(up.adaptive_delay_changes).toEqual([{ t: 1150, adaptive_delay_s: 1200 }]);
  });

  it('is neither judged nor cancelled by a press', () => {
    const events = [m(0), press(610, 'inner'), m(640)];
    expect(play({ set: adaptive, events, until: 700 }).adaptive_delay_changes).toEqual([
      { t: 640, adaptive_delay_s: 720 },
    ]);
  });

  it('judges no automatic off from before it was switched on', () => {
    const events = [m(0), set(310, { adaptive_delay: true }), m(320)];
    expect(play({ events, until: 400 }).adaptive_delay_changes).toBeUndefined();
  });

  it('does not call absence without a lit row an automatic off', () => {
    const daylight = { inner: 900, window: 900 };
    expect(
      play({ set: adaptive, daylight, events: [m(0), m(620)], until: 700 }).adaptive_delay_changes,
    ).toBeUndefined();
  });

  it('survives a supply loss, and starts again at 600 s when switched on anew', () => {
    const lost = play({
      set: adaptive,
      events: [m(0), m(630), supply(700, false), supply(710, true), m(740)],
      until: 2000,
    });
    expect(lost.states.slice(-2)).toEqual([BOTH(740), NONE(1460)]);
    const anew = play({
      set: adaptive,
      events: [m(0), m(630), set(700, { adaptive_delay: false }), set(701, { adaptive_delay: true })],
      until: 2000,
    });
    expect(anew.states.slice(-1)).toEqual([NONE(1230)]);
  });
});

describe('masks', () => {
  it('hide a whole sector from everything but an extension', () => {
    const events = [m(0, 3), walk(1, 'end'), close(10, 'inner', 0.06)];
    expect(play({ set: { masked_sectors: [3] }, events, until: 20 }).states).toEqual([NONE(0), BOTH(10.1)]);
  });

  it('leave a tick with another, open sector as movement', () => {
    expect(play({ set: { masked_sectors: [3] }, events: [m(1, 3), m(1, 4)], until: 5 }).states).toEqual([
      NONE(0),
      BOTH(1),
    ]);
  });
});

describe('air contact', () => {
  const open = { air_gap_limit_s: 120 };

  it('is on, not off, when on-delay and gap limit are reached in one tick', () => {
    expect(play({ set: open, events: [m(0), m(60)], until: 200 }).states.slice(-1)).toEqual([[180, 1, 1, 1]]);
  });

  it('does not count a press as movement for the gap, and no light press begins Watching', () => {
    const daylight = { inner: 900, window: 900 };
    const events = [m(0), press(60, 'air'), press(61, 'air'), press(100, 'inner')];
    expect(play({ set: open, daylight, events: [m(0), press(100, 'inner')], until: 300 }).states).toEqual([
      NONE(0),
      [100.3, 1, 0, 0],
    ]);
    expect(play({ set: open, daylight, events, until: 300 }).states.map((s) => s[3])).toEqual([0, 1, 0, 0]);
    expect(play({ set: open, daylight, events: steady(0, 0).concat([press(1, 'window')]), until: 300 }).states).toEqual(
      [NONE(0), [1.3, 0, 1, 0]],
    );
  });

  it('does not close when the air off-delay is over before the on-delay', () => {
    const set = { air_gap_limit_s: 600, air_on_delay_s: 120, air_off_delay_s: 60 };
    expect(play({ set, events: [m(0)], until: 250 }).states).toEqual([BOTH(0)]);
    expect(play({ set, events: [m(0), m(100)], until: 250 }).states).toEqual([BOTH(0), [120, 1, 1, 1], [160, 1, 1, 0]]);
  });

  it('needs absence after Air held off; the next movement starts Watching', () => {
    const set = { air_gap_limit_s: 600, air_on_delay_s: 60, air_off_delay_s: 60 };
    const events = [m(0), m(50), press(70, 'air'), m(100), m(200), m(250)];
    expect(play({ set, events, until: 290 }).states.map((s) => [s[0], s[3]])).toEqual([
      [0, 0],
      [60, 1],
      [70.3, 0],
      [260, 1],
    ]);
  });
});
