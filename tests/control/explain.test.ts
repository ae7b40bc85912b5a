import { describe, expect, it } from 'vitest';
import { explainOutput } from '../../src/engine/control/control.ts';
import type { Condition, ConditionId, Explanation } from '../../src/engine/trace.ts';
import type { OutputId } from '../../src/engine/types.ts';
import { Bench } from './harness.ts';

function why(bench: Bench, output: OutputId = 'innerRow'): Explanation {
  return explainOutput(bench.state, output, bench.lastTick);
}

function among(conditions: Condition[], id: ConditionId): Condition | undefined {
  return conditions.find((c) => c.id === id);
}

/** The bench after the tick at `s` has been worked. */
function workedTo(bench: Bench, s: number): Bench {
  bench.idleUntil(s + 0.1);
  return bench;
}

describe('why and why not', () => {
  it('says someone seen for 20 s after the last sign, then when the row goes off', () => {
    const bench = new Bench();
    bench.move(0);
    expect(why(workedTo(bench, 20))).toMatchObject({
      on: true,
      badge: 'someoneSeen',
      untilTick: 3000,
      lastSeenTick: 0,
    });
    expect(why(workedTo(bench, 20.1))).toMatchObject({ badge: 'timing', untilTick: 3000 });
    const { because, missing, decided } = why(bench);
    expect(among(because, 'occupied')).toMatchObject({
      holds: true,
      value: 20.1,
      limit: 300,
      sinceTick: 0,
      untilTick: 3000,
    });
    expect(among(because, 'dark')).toMatchObject({ holds: true, value: 100, limit: 500, sinceTick: 0 });
    expect(among(missing, 'bright')).toMatchObject({ holds: false, value: 100, limit: 600 });
    expect(decided).toMatchObject({ tick: 0, reason: { code: 'seenAndDark' } });
  });

  it('says since when somebody has been there, and since when nobody', () => {
    const bench = new Bench();
    bench.move(5);
    bench.move(100);
    expect(among(why(bench).because, 'occupied')).toMatchObject({ holds: true, sinceTick: 50, untilTick: 4000 });
    expect(among(why(workedTo(bench, 450)).because, 'occupied')).toMatchObject({
      holds: false,
      value: 350,
      sinceTick: 4000,
      untilTick: null,
    });
  });

  it('gives the time at which the row really switches, for every tick before', () => {
    const bench = new Bench();
    bench.move(0);
    const promised = why(bench).untilTick;
    bench.idleUntil(300.1);
    expect(bench.events.find((e) => e.kind === 'output' && !e.on)?.tick).toBe(promised);
  });

  it('says bright enough with the earlier of dwell and absence', () => {
    const bench = new Bench({ brightDwellS: 300, innerOffDelayS: 300 });
    bench.move(0);
    bench.idleUntil(10);
    bench.readings = { innerLx: 700, windowLx: 200 };
    expect(why(workedTo(bench, 50))).toMatchObject({ badge: 'brightEnough', untilTick: 3000 });
    bench.move(100);
    expect(why(bench)).toMatchObject({ badge: 'brightEnough', untilTick: 3100 });
    expect(among(why(bench).because, 'brightDwell')).toMatchObject({
      holds: false,
      value: 90,
      limit: 300,
      sinceTick: 100,
      untilTick: 3100,
    });
    bench.idleUntil(310.1);
    expect(bench.state.inner.state).toBe('daylightIsEnough');
    expect(why(bench).decided).toMatchObject({ tick: 3100, reason: { code: 'brightLongEnough' } });
  });

  it('says enough daylight, what is missing, and when the dark dwell lights the row', () => {
    const bench = new Bench();
    bench.readings = { innerLx: 700, windowLx: 200 };
    bench.move(0);
    expect(why(bench)).toMatchObject({ on: false, badge: 'enoughDaylight', untilTick: null });
    expect(among(why(bench).missing, 'dark')).toMatchObject({ holds: false, value: 700, limit: 500 });
    // After the 2 s in which the window row's own switching holds the estimates still.
    bench.idleUntil(5);
    bench.readings = { innerLx: 310, windowLx: 200 };
    bench.idleUntil(10);
    expect(why(bench)).toMatchObject({ badge: 'enoughDaylight', untilTick: 350 });
    expect(among(why(bench).missing, 'darkDwell')).toMatchObject({ value: 4.9, limit: 30, untilTick: 350 });
    bench.idleUntil(35.1);
    expect(bench.state.inner.contactClosed).toBe(true);
  });

  it('promises no return that absence will forestall', () => {
    const bench = new Bench({ innerOffDelayS: 60, darkDwellS: 30 });
    bench.readings = { innerLx: 700, windowLx: 200 };
    bench.move(0);
    bench.idleUntil(30);
    bench.readings = { innerLx: 100, windowLx: 200 };
    // Dark from 30: dwell and absence both end at 60, and absence has the last word.
    expect(why(workedTo(bench, 40)).untilTick).toBeNull();
    expect(why(workedTo(bench, 61))).toMatchObject({ badge: 'nobodySeen', on: false });
    expect(bench.events.filter((e) => e.kind === 'output' && e.output === 'innerRow')).toEqual([]);
  });

  it('says nobody seen and what movement would meet', () => {
    const bench = new Bench();
    bench.readings = { innerLx: 700, windowLx: 200 };
    bench.step();
    expect(why(bench)).toMatchObject({ badge: 'nobodySeen', lastSeenTick: null, decided: null });
    expect(why(bench).missing.map((c) => c.id)).toEqual(['movement', 'dark']);
    expect(why(bench, 'windowRow').missing.map((c) => c.id)).toEqual(['movement']);
  });

  it('says waits for the button in manual-on with somebody there, nobody seen otherwise', () => {
    const bench = new Bench({ innerMode: 'manualOn' });
    bench.step();
    expect(why(bench).badge).toBe('nobodySeen');
    bench.move(1);
    expect(why(bench)).toMatchObject({ badge: 'waitsForButton', on: false });
    expect(why(bench).missing.map((c) => c.id)).toEqual(['autoOnMode', 'lightRequested']);
  });

  it('counts the re-entry grace while it runs', () => {
    const bench = new Bench({ innerMode: 'manualOn' });
    bench.press(1, 'inner');
    bench.idleUntil(305.1);
    expect(among(why(bench).because, 'reentryGrace')).toMatchObject({
      holds: true,
      value: 4,
      limit: 10,
      untilTick: 3111,
    });
    expect(why(bench).missing.map((c) => c.id)).toEqual(['movement']);
  });

  it('says held only for buttons, until absence', () => {
    const bench = new Bench();
    bench.move(0);
    bench.press(10, 'inner');
    expect(why(bench)).toMatchObject({
      badge: 'heldOff',
      on: false,
      untilTick: 3100,
      decided: { reason: { code: 'pressed' } },
    });
    expect(among(why(bench).because, 'heldByButton')).toMatchObject({ holds: true, sinceTick: 100, untilTick: 3100 });
    bench.press(20, 'inner');
    expect(why(bench)).toMatchObject({ badge: 'heldOn', on: true, untilTick: 3200 });
  });

  it('says watching with the on-delay, and the gap that would end it', () => {
    const bench = new Bench();
    bench.move(0);
    expect(why(workedTo(bench, 60), 'airContact')).toMatchObject({ badge: 'watching', on: false, untilTick: 1800 });
    expect(among(why(bench, 'airContact').because, 'gapLimit')).toMatchObject({
      holds: false,
      value: 60,
      limit: 120,
      untilTick: 1200,
    });
    bench.move(100);
    bench.idleUntil(181);
    expect(why(bench, 'airContact')).toMatchObject({ badge: 'timing', on: true, untilTick: 10_000 });
    bench.press(200, 'air');
    expect(why(bench, 'airContact')).toMatchObject({ badge: 'heldOff', state: 'airHeldOff', untilTick: 11_000 });
  });

  it('says starting, walk-test and device off with the end of the phase', () => {
    const bench = new Bench({}, false);
    bench.step();
    expect(why(bench)).toMatchObject({ badge: 'deviceOff', phase: 'off', on: false, untilTick: null });
    bench.at(1, { supplyEdges: [{ tMs: 1000, on: true }] });
    expect(why(bench)).toMatchObject({ badge: 'starting', on: true, untilTick: 260 });
    expect(why(bench, 'airContact')).toMatchObject({ badge: 'starting', on: false, untilTick: 260 });
    bench.at(30, { commands: [{ kind: 'walkTest', action: 'start' }] });
    expect(why(bench)).toMatchObject({ badge: 'walkTest', on: false, untilTick: 6300 });
  });

  it('names the first of two pulses or movements that waits for its second', () => {
    const bench = new Bench({ reducedSensitivity: true });
    bench.move(1);
    expect(why(bench).missing[0]).toMatchObject({ id: 'movement', value: 1, limit: 2, untilTick: 61 });
    bench.idleUntil(6.2);
    expect(why(bench).missing[0]).toMatchObject({ id: 'movement', value: null, limit: null });
  });

  it('does not say nobody seen of a short-impulse row in a visit', () => {
    const bench = new Bench({ innerMode: 'shortImpulse' });
    bench.move(0);
    expect(why(bench)).toMatchObject({ badge: 'someoneSeen', on: true, untilTick: 5 });
    bench.idleUntil(3);
    expect(why(bench)).toMatchObject({ badge: 'watching', on: false, untilTick: null });
    expect(among(why(bench).because, 'impulsePause')).toMatchObject({ holds: true, untilTick: 105 });
  });
});
