import { describe, expect, it } from 'vitest';
import { largestBetween, quadrantPath, scaleUv, secondsOf } from '../../src/app/panels/recorder/signal/quadrants.ts';
import {
  cutHeld,
  type HeldSignal,
  joined,
  missing,
  NO_SIGNAL,
  PER_TICK,
  pieceOf,
} from '../../src/app/state/heldSignal.ts';

/** A stretch whose number at [tick][k] is tick + k / 100. */
function piece(fromTick: number, toTick: number): HeldSignal {
  const signalUv = Float32Array.from(
    { length: (toTick - fromTick) * PER_TICK },
    (_, i) => fromTick + Math.floor(i / PER_TICK) + (i % PER_TICK) / 100,
  );
  return pieceOf({ fromTick, signalUv });
}

/** Asks until nothing is missing, as the page does. */
function filled(held: HeldSignal, fromTick: number, toTick: number): HeldSignal {
  for (let guard = 0; guard < 40; guard++) {
    const wanted = missing(held, fromTick, toTick);
    if (!wanted) return held;
    held = joined(held, piece(wanted.fromTick, wanted.toTick));
  }
  throw new Error('never full');
}

describe('the stretch of signal that is held', () => {
  it('is filled piece by piece, on either side, and from anywhere', () => {
    for (const start of [NO_SIGNAL, piece(100, 200), piece(5000, 5600), piece(9000, 9100)]) {
      const held = filled(start, 1000, 7000);
      expect(held.fromTick).toBeLessThanOrEqual(1000);
      expect(held.toTick).toBeGreaterThanOrEqual(7000);
      expect(held).toEqual(piece(held.fromTick, held.toTick));
    }
  });

  it('stays bounded while a run goes on for hours', () => {
    let held = NO_SIGNAL;
    for (let head = 100; head < 40_000; head += 700) held = filled(held, Math.max(0, head - 100), head);
    expect(held.toTick - held.fromTick).toBeLessThanOrEqual(12_000);
  });

  it('forgets what was cut, to the tick', () => {
    expect(cutHeld(piece(10, 50), 29)).toEqual(piece(10, 30));
    expect(cutHeld(piece(10, 50), 5)).toBe(NO_SIGNAL);
    expect(cutHeld(piece(10, 50), 80)).toEqual(piece(10, 50));
  });
});

describe('the drawn signal', () => {
  const held = pieceOf({ fromTick: 0, signalUv: new Float32Array(100 * PER_TICK) });
  // Channel 2, sub-step 3 of tick 50: one spike; channel 1, tick 61: a smaller one, downward.
  held.signalUv[50 * PER_TICK + 2 * 5 + 3] = 70;
  held.signalUv[61 * PER_TICK + 1 * 5] = -40;

  it('has every sub-step where there is room, at its own instant', () => {
    const path = quadrantPath(
      held,
      2,
      0,
      100,
      (tick) => tick * 10,
      (uv) => -uv,
    );
    expect(path.split(/[ML]/).length - 1).toBe(500);
    expect(path).toContain('L506.0 -70.0');
  });

  it('loses no peak where there is none', () => {
    const path = quadrantPath(
      held,
      2,
      0,
      100,
      (tick) => tick / 5,
      (uv) => -uv,
    );
    expect(path).toContain(' -70.0');
    expect(path.split(/[ML]/).length - 1).toBeLessThan(30);
  });

  it('finds the largest of a window with its quadrant, and of each second', () => {
    expect(largestBetween(held, 0, 100)).toEqual({ uv: 70, channel: 2, tick: 50 });
    expect(largestBetween(held, 55, 100)).toEqual({ uv: -40, channel: 1, tick: 61 });
    const rows = secondsOf(held, [], 0, 100, 5);
    expect(rows.map((row) => row.tick)).toEqual([90, 80, 70, 60, 50]);
    expect(rows[3]!.peaksUv).toEqual([0, -40, 0, 0]);
    expect(rows[4]!.peaksUv).toEqual([0, 0, 70, 0]);
  });

  it('is drawn to a scale on which the switch-on threshold always lies', () => {
    expect(scaleUv(10, 60)).toBe(75);
    expect(scaleUv(10, 102)).toBeGreaterThan(102);
    expect(scaleUv(164, 60)).toBe(175);
  });
});
