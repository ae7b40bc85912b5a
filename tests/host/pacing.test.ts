import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digestOf } from '../../src/engine/simulation.ts';
import { runSlice, SLICE_MS, startPace, ticksDone, ticksDue, trueSpeed, waitMs } from '../../src/host/pacing.ts';
import { advance, createSession } from '../../src/host/session.ts';
import { smallStory } from '../support/smallStory.ts';

/** A machine on which a tick takes `tickMs`; runs for `wallMs` and counts ticks. */
function runMachine(speed: number, tickMs: number, wallMs: number) {
  let nowMs = 0;
  let ticks = 0;
  let longestMs = 0;
  const pace = startPace(speed, 0);
  while (nowMs < wallMs) {
    const fromMs = nowMs;
    runSlice(
      pace,
      () => nowMs,
      () => {
        nowMs += tickMs;
        ticks++;
        return true;
      },
    );
    longestMs = Math.max(longestMs, nowMs - fromMs);
    nowMs += Math.max(0.05, waitMs(pace));
  }
  return { ticks, longestMs, pace, nowMs };
}

describe('pacing', () => {
  for (const speed of [0.1, 0.25, 1, 10, 60, 600]) {
    it(`works ${speed} seconds of room time in a second of wall time on a fast machine`, () => {
      const { ticks, pace } = runMachine(speed, 0.02, 20_000);
      const asked = speed * 10 * 20;
      expect(Math.abs(ticks - asked)).toBeLessThanOrEqual(Math.max(1, asked * 0.02));
      expect(trueSpeed(pace) / speed).toBeCloseTo(1, 1);
    });
  }

  it('runs slower on a slow machine and says so, in ticks of the same size', () => {
    const { ticks, pace, longestMs } = runMachine(600, 2, 5000);
    expect(trueSpeed(pace)).toBeGreaterThan(30);
    expect(trueSpeed(pace)).toBeLessThan(51);
    expect(ticks).toBeGreaterThan(2000);
    expect(longestMs).toBeLessThanOrEqual(SLICE_MS + 2);
  });

  it('owes what it did not work: no tick that was due is dropped by a full slice', () => {
    const pace = startPace(100, 0);
    expect(ticksDue(pace, 20)).toBe(21);
    ticksDone(pace, 5, 20);
    expect(ticksDue(pace, 20)).toBe(16);
    ticksDone(pace, 16, 21);
    expect(ticksDue(pace, 21)).toBe(1);
  });

  it('goes on after a stall without racing to catch up', () => {
    const pace = startPace(1, 0);
    ticksDone(pace, ticksDue(pace, 0), 0);
    expect(ticksDue(pace, 60_000)).toBeLessThanOrEqual(3);
  });

  it('answers Run with a tick at once', () => {
    expect(ticksDue(startPace(0.1, 5), 5)).toBe(1);
  });

  it('gives the same sum of ticks however the wall time is cut into slices', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 60 }), (gapsMs) => {
        const pace = startPace(10, 0);
        let nowMs = 0;
        let ticks = 0;
        for (const gapMs of gapsMs) {
          nowMs += gapMs;
          const due = ticksDue(pace, nowMs);
          ticks += due;
          ticksDone(pace, due, nowMs);
        }
        expect(Math.abs(ticks - (1 + nowMs / 10))).toBeLessThan(1.001);
      }),
    );
  });
});

describe('the frame rate', () => {
  const scenario = smallStory();
  const TICKS = 400;

  /** A room worked from frame to frame; `frameMs` gives the length of each. Pulses with their ticks and sub-steps. */
  function watched(speed: number, frameMs: (frame: number) => number) {
    const session = createSession(scenario);
    const pace = startPace(speed, 0);
    let nowMs = 0;
    for (let frame = 0; session.sim.state.tick < TICKS; frame++) {
      runSlice(
        pace,
        () => nowMs,
        () => {
          advance(session, 1);
          return session.sim.state.tick < TICKS;
        },
      );
      nowMs += frameMs(frame);
    }
    return { pulses: session.line.events.filter(({ kind }) => kind === 'pulse'), digest: digestOf(session.sim.state) };
  }

  const straight = createSession(scenario);
  advance(straight, TICKS);
  const pulses = straight.line.events.filter(({ kind }) => kind === 'pulse');

  for (const [name, frameMs] of [
    ['30 frames a second', () => 1000 / 30],
    ['60 frames a second', () => 1000 / 60],
    ['144 frames a second', () => 1000 / 144],
    ['60 frames a second, every tenth late by 100 ms', (frame: number) => 1000 / 60 + (frame % 10 === 9 ? 100 : 0)],
  ] as const) {
    it(`of ${name} moves no pulse by a sub-step, at 1x and at 10x`, () => {
      expect(pulses.length).toBeGreaterThan(20);
      for (const speed of [1, 10]) {
        expect(watched(speed, frameMs)).toEqual({ pulses, digest: digestOf(straight.sim.state) });
      }
    });
  }
});
