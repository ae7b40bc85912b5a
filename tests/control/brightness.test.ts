import { describe, expect, it } from 'vitest';
import { rowLight } from '../../src/engine/control/control.ts';
import type { ControllerSettings } from '../../src/engine/types.ts';
import { Bench, day, m, play, set, steady, supply, take } from './harness.ts';

const NONE = (t: number) => [t, 0, 0, 0];
const BOTH = (t: number) => [t, 1, 1, 0];

describe('setpoints and dwells', () => {
  it('use a changed setpoint at once and switch only after a whole dwell from then', () => {
    const daylight = { inner: 300, window: 300 };
    const events = [...steady(0, 900), set(200, { inner_setpoint_lx: 200 }), set(400, { inner_setpoint_lx: 210 })];
    expect(play({ daylight, events, until: 800 }).states).toEqual([BOTH(0), [700, 0, 1, 0]]);
  });

  it('take the same value for no change', () => {
    const daylight = { inner: 300, window: 300 };
    const events = [...steady(0, 900), set(200, { inner_setpoint_lx: 200 }), set(400, { inner_setpoint_lx: 200 })];
    expect(play({ daylight, events, until: 800 }).states).toEqual([BOTH(0), [500, 0, 1, 0]]);
  });

  it('compare a changed dwell with the running count', () => {
    const events = [...steady(0, 900), day(100, { inner: 900 }), set(200, { bright_dwell_s: 60 })];
    expect(play({ events, until: 300 }).states).toEqual([BOTH(0), [200, 0, 1, 0]]);
  });

  it('bring a row back after the dark dwell when brightness is to be ignored, not at once', () => {
    const daylight = { inner: 900, window: 900 };
    const events = [m(0), set(10, { inner_setpoint_lx: 'brightness ignored' })];
    expect(play({ daylight, events, until: 100 }).states).toEqual([NONE(0), [40, 1, 0, 0]]);
  });

  it('meet limits exactly: at the setpoint it is not dark, at the release level it is bright', () => {
    expect(play({ daylight: { inner: 500, window: 499.999 }, events: [m(0)], until: 10 }).states).toEqual([
      [0, 0, 1, 0],
    ]);
    const rising = (lx: number) => play({ events: [...steady(0, 600), day(10, { inner: lx })], until: 400 }).states;
    expect(rising(600)).toEqual([BOTH(0), [310, 0, 1, 0]]);
    expect(rising(599.999)).toEqual([BOTH(0)]);
  });

  it('release at no less than 40 lx above a low setpoint', () => {
    const low = { inner_setpoint_lx: 150 };
    const rising = (lx: number) =>
      play({ set: low, events: [...steady(0, 600), day(10, { inner: lx })], until: 400 }).states;
    expect(rising(189.9)).toEqual([BOTH(0)]);
    expect(rising(190)).toEqual([BOTH(0), [310, 0, 1, 0]]);
  });

  it('store the daylight of this very tick when present light is taken, within 10 to 1000 lx', () => {
    const events = [day(10, { inner: 350.25, window: 5 }), take(10, 'inner'), take(10, 'window'), m(20)];
    expect(play({ events, until: 30 }).states).toEqual([NONE(0), [20, 0, 1, 0]]);
    const bench = new Bench();
    bench.readings = { innerLx: 350.25, windowLx: 5 };
    bench.step({
      commands: [
        { kind: 'takePresentLight', row: 'inner' },
        { kind: 'takePresentLight', row: 'window' },
      ],
    });
    expect(bench.state.settings).toMatchObject({ innerSetpointLx: 350.25, windowSetpointLx: 10 });
  });

  it('keep file order between a setting and taking present light in one tick', () => {
    const daylight = { inner: 300, window: 900 };
    const dark = [set(5, { inner_setpoint_lx: 800 }), take(5, 'inner'), m(10)];
    expect(play({ daylight, events: dark, until: 20 }).states).toEqual([NONE(0)]);
    const light = [take(5, 'inner'), set(5, { inner_setpoint_lx: 800 }), m(10)];
    expect(play({ daylight, events: light, until: 20 }).states).toEqual([NONE(0), [10, 1, 0, 0]]);
  });
});

describe('own lamps in the reading', () => {
  const lamps = { inner: { inner: 520, window: 0 }, window: { inner: 0, window: 520 } };

  it('are learned 2 s after switching and taken off: 820 lx with 520 lx of lamps is 300 lx of daylight', () => {
    const daylight = { inner: 300, window: 300 };
    const set = { bright_dwell_s: 60 };
    expect(play({ set, daylight, lamps, events: steady(0, 900), until: 900 }).states).toEqual([BOTH(0)]);
    // 90 lx more daylight than the release level: released by daylight alone.
    const events = [...steady(0, 900), day(100, { inner: 610 })];
    expect(play({ set, daylight, lamps, events, until: 900 }).states).toEqual([BOTH(0), [160, 0, 1, 0]]);
  });

  /** A bench with a room behind it: readings are daylight plus lit lamps of the tick before. */
  function room(
    settings: Partial<ControllerSettings>,
    daylightLx: (s: number) => number,
    untilS: number,
    lampLx = 520,
  ) {
    const bench = new Bench({ brightDwellS: 60, innerSetpointLx: 500, windowMode: 'manualOn', ...settings });
    const switched: [number, boolean][] = [];
    while (bench.tick <= untilS * 10) {
      const s = bench.tick / 10;
      bench.readings = { innerLx: daylightLx(s) + (bench.state.inner.contactClosed ? lampLx : 0), windowLx: 100 };
      const events = bench.step(bench.tick % 600 === 0 ? { movements: [{ sector: null }] } : {});
      for (const e of events) if (e.kind === 'output' && e.output === 'innerRow') switched.push([s, e.on]);
    }
    return { bench, switched };
  }

  it('make the lamps hunt when the lamp share is off: on, dwell, off, dwell, on', () => {
    const off = room({ lampShare: 'off' }, () => 300, 300).switched;
    expect(off).toEqual([
      [0, true],
      [60.1, false],
      [90.2, true],
      [150.3, false],
      [180.4, true],
      [240.5, false],
      [270.6, true],
    ]);
    expect(room({ lampShare: 'learned' }, () => 300, 300).switched).toEqual([[0, true]]);
  });

  it('are judged by a release margin set by hand instead of the automatic one', () => {
    const rising = (s: number) => (s < 50 ? 490 : 521);
    expect(room({ releaseMarginLx: 20 }, rising, 200).switched).toEqual([
      [0, true],
      [110, false],
    ]);
    expect(room({ releaseMarginLx: null }, rising, 200).switched).toEqual([[0, true]]);
  });

  it('leave the estimate where it was for 2 s, and daylight of that time is learned as lamp light', () => {
    const { bench } = room({}, (s) => (s < 1 ? 300 : 350), 1.9);
    expect(rowLight(bench.state, 'inner')).toMatchObject({ daylightEstimateLx: 300, deskEstimateLx: 870 });
    const later = room({}, (s) => (s < 1 ? 300 : 350), 2).bench;
    expect(rowLight(later.state, 'inner')).toMatchObject({ daylightEstimateLx: 300, lampShareLx: 570 });
    expect(later.events.filter((e) => e.kind === 'lampShare')).toMatchObject([
      { tick: 20, row: 'inner', shareLx: 570 },
      { tick: 20, row: 'window', shareLx: 0 },
    ]);
  });

  it('are nothing with both rows off, once the 2 s are over', () => {
    const bench = new Bench({ innerOffDelayS: 60, windowOffDelayS: 60 });
    bench.readings = { innerLx: 300, windowLx: 300 };
    bench.move(0);
    bench.readings = { innerLx: 820, windowLx: 820 };
    bench.idleUntil(60.1);
    bench.readings = { innerLx: 310, windowLx: 310 };
    bench.idleUntil(62);
    expect(rowLight(bench.state, 'inner')).toMatchObject({ daylightEstimateLx: 300, lampShareLx: 520 });
    bench.step();
    expect(rowLight(bench.state, 'inner')).toMatchObject({ daylightEstimateLx: 310, lampShareLx: 0 });
  });

  it('are not counted for a short-impulse row', () => {
    const bench = new Bench({ innerMode: 'shortImpulse', windowMode: 'manualOn' });
    bench.move(0);
    bench.idleUntil(10);
    expect(bench.events.filter((e) => e.kind === 'lampShare')).toEqual([]);
    expect(bench.state.learnAtTick).toBeNull();
  });

  it('start from the reading after Warm-up: its switching-off is no own switching', () => {
    const bench = new Bench({ warmUpS: 5 }, false);
    bench.readings = { innerLx: 900, windowLx: 900 };
    bench.step({ supplyEdges: [{ tMs: 0, on: true }] });
    bench.idleUntil(5.1);
    bench.readings = { innerLx: 300, windowLx: 300 };
    bench.step();
    expect(rowLight(bench.state, 'inner')).toMatchObject({ daylightEstimateLx: 300, lampShareLx: 0 });
    expect(bench.events.filter((e) => e.kind === 'crossing')).toEqual([]);
  });
});

describe('the three quantities of light', () => {
  it('are ceiling reading, times desk factor, minus lamp share', () => {
    const bench = new Bench({ innerDeskFactor: 3, innerSetpointLx: 500 });
    bench.readings = { innerLx: 100, windowLx: 900 };
    bench.move(0);
    bench.readings = { innerLx: 273, windowLx: 900 };
    bench.idleUntil(3);
    expect(rowLight(bench.state, 'inner')).toEqual({
      ceilingReadingLx: 273,
      deskEstimateLx: 819,
      daylightEstimateLx: 300,
      lampShareLx: 519,
      setpointLx: 500,
      releaseLx: 600,
    });
  });

  it('keep what was learned in the new unit when the desk factor is set under lit lamps', () => {
    const bench = new Bench({ innerDeskFactor: 2 });
    bench.readings = { innerLx: 100, windowLx: 900 };
    bench.move(0);
    bench.readings = { innerLx: 300, windowLx: 900 };
    bench.idleUntil(3);
    bench.step({ commands: [{ kind: 'setSettings', change: { innerDeskFactor: 3 } }] });
    expect(rowLight(bench.state, 'inner')).toMatchObject({
      deskEstimateLx: 900,
      daylightEstimateLx: 300,
      lampShareLx: 600,
    });
  });

  it('report when daylight passes the setpoint and the release level, both ways', () => {
    const bench = new Bench();
    for (const lx of [100, 550, 650, 650, 550, 100]) {
      bench.readings = { innerLx: lx, windowLx: 100 };
      bench.step();
    }
    expect(bench.events.filter((e) => e.kind === 'crossing')).toMatchObject([
      { tick: 1, row: 'inner', level: 'setpoint', rising: true, estimateLx: 550, limitLx: 500 },
      { tick: 2, level: 'release', rising: true, estimateLx: 650, limitLx: 600 },
      { tick: 4, level: 'release', rising: false },
      { tick: 5, level: 'setpoint', rising: false },
    ]);
  });
});

describe('the angle at which a timeline hangs the detector', () => {
  it('gives both rows the mean at 90 degrees, and each the other light at 180', () => {
    const daylight = { inner: 200, window: 900 };
    const at = (angle: number) =>
      play({ set: { mounting_angle_deg: angle }, daylight, events: [m(0)], until: 5 }).states;
    expect(at(90)).toEqual([NONE(0)]);
    expect(at(180)).toEqual([[0, 0, 1, 0]]);
    expect(at(0)).toEqual([[0, 1, 0, 0]]);
  });

  it('acts like changed light: running dwells go on', () => {
    const daylight = { inner: 900, window: 900 };
    const events = [
      day(0, { inner: 100 }),
      m(0),
      day(10, { inner: 900 }),
      set(100, { mounting_angle_deg: 180 }),
      ...steady(60, 400),
    ];
    expect(play({ daylight, events, until: 400 }).states).toEqual([[0, 1, 0, 0], NONE(310)]);
  });

  it('stores the light after the turn when present light is taken after it in the same tick, and before it before', () => {
    const daylight = { inner: 200, window: 900 };
    const turn = set(5, { mounting_angle_deg: 180 });
    // After the turn the inner row sees 900: setpoint 900, not dark at 900. Before: setpoint 200, not dark either.
    expect(play({ daylight, events: [turn, take(5, 'inner'), m(9)], until: 10 }).states).toEqual([
      NONE(0),
      [9, 0, 1, 0],
    ]);
    const back = set(7, { mounting_angle_deg: 0 });
    expect(play({ daylight, events: [turn, take(5, 'inner'), back, m(9)], until: 10 }).states.at(-1)).toEqual([
      9, 1, 0, 0,
    ]);
    expect(play({ daylight, events: [take(5, 'inner'), turn, back, m(9)], until: 10 }).states.at(-1)).toEqual(NONE(0));
  });
});

describe('the settings lock', () => {
  it('ignores the hand that is locked out, for good, with a message, and no other', () => {
    const dark = { inner_setpoint_lx: 50, window_setpoint_lx: 50 };
    const locked = { settings_lock: 'hand-held only' };
    const dial = [set(1, dark, 'dial'), set(2, { settings_lock: 'open' }), m(5)];
    const played = play({ set: locked, events: dial, until: 10 });
    expect(played.states).toEqual([NONE(0), BOTH(5)]);
    expect(played.flags).toEqual([{ t: 1, flag: 'dial moved, ignored (locked)' }]);
    expect(play({ set: locked, events: [set(1, dark, 'hand-held'), m(5)], until: 10 }).states).toEqual([NONE(0)]);
    expect(play({ set: locked, events: [set(1, dark), m(5)], until: 10 }).states).toEqual([NONE(0)]);
    const other = play({ set: { settings_lock: 'dials only' }, events: [set(1, dark, 'hand-held'), m(5)], until: 10 });
    expect(other.flags).toEqual([{ t: 1, flag: 'hand-held setter ignored (locked)' }]);
  });

  it('bars neither walk-test nor taking present light', () => {
    const locked = { settings_lock: 'dials only' };
    expect(play({ set: locked, events: [take(1, 'inner'), take(1, 'window'), m(5)], until: 10 }).states).toEqual([
      NONE(0),
    ]);
  });

  it('does not keep settings from surviving a supply loss', () => {
    const events = [set(1, { inner_setpoint_lx: 50 }), supply(5, false), supply(6, true), m(40)];
    expect(play({ events, until: 50 }).states.slice(-1)).toEqual([[40, 0, 1, 0]]);
  });
});
