import { afterEach, describe, expect, it } from 'vitest';
import { advanceView, createView } from '../../../src/app/scene/view.ts';
import { live } from '../../../src/app/state/live.ts';
import type { Frame } from '../../../src/engine/frame.ts';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../../../src/engine/types.ts';

const NUMBERS = PARTS_PER_BODY * NUMBERS_PER_PART;
const QUIET = { calm: false, stepped: false };

/** As much of a frame as the view reads. */
function frame(tick: number, x: number, inner = 0): Frame {
  return { tick, bodyCount: 1, bodyParts: new Float32Array(NUMBERS).fill(x), lamps: { inner, window: 0 } } as Frame;
}

/** Two frames 100 ms apart, the newer one arrived at 1000 ms. */
function arrive(from: Frame | null, to: Frame): void {
  Object.assign(live, { previousFrame: null, frame: from ?? to, frameAtMs: 900 });
  advanceView(createView(), 900, 0.016, 1, QUIET);
  Object.assign(live, { previousFrame: from, frame: to, frameAtMs: 1000 });
}

afterEach(() => Object.assign(live, { frame: null, previousFrame: null, frameAtMs: 0 }));

describe('the picture between two frames', () => {
  it('has bodies half-way at half the interval, and at the newer place after it', () => {
    arrive(frame(10, 2), frame(11, 3));
    const view = createView();
    advanceView(view, 1050, 0.016, 1, QUIET);
    expect(view.parts[0]).toBeCloseTo(2.5, 5);
    expect(view.restless).toBe(true);
    advanceView(view, 1100, 0.016, 1, QUIET);
    expect(view.parts[0]).toBe(3);
    expect(view.restless).toBe(false);
  });

  it.each([
    ['after a seek', frame(1000, 3), QUIET],
    ['on reduced motion', frame(11, 3), { calm: true, stepped: false }],
    ['on software GL', frame(11, 3), { calm: false, stepped: true }],
  ])('shows the newer place at once %s', (_, to, how) => {
    arrive(frame(10, 2), to);
    const view = createView();
    advanceView(view, 1010, 0.016, 1, how);
    expect(view.parts[0]).toBe(3);
  });

  it('fades a lamp over .4 s, and not at all on reduced motion', () => {
    arrive(frame(10, 2, 0), frame(11, 2, 1));
    const view = createView();
    view.exposure = 1;
    let drawn = 0;
    while (view.lamps.inner < 1 && drawn < 1000) {
      advanceView(view, 1100, 0.02, 1, QUIET);
      drawn++;
    }
    expect(drawn * 0.02).toBeCloseTo(0.4, 6);
    const calm = createView();
    calm.exposure = 1;
    advanceView(calm, 1100, 0.02, 1, { calm: true, stepped: false });
    expect(calm.lamps.inner).toBe(1);
  });

  it('never shows lamps jumping more than three times a second on reduced motion', () => {
    const view = createView();
    let last = view.lamps.inner;
    let jumps = 0;
    for (let ms = 2000; ms < 3000; ms += 20) {
      Object.assign(live, { previousFrame: frame(10, 2), frame: frame(11, 2, (ms / 20) % 2), frameAtMs: ms });
      advanceView(view, ms, 0.02, 1, { calm: true, stepped: false });
      if (view.lamps.inner !== last) jumps++;
      last = view.lamps.inner;
    }
    expect(jumps).toBeGreaterThan(0);
    expect(jumps).toBeLessThanOrEqual(3);
  });

  it('tells lamps on their way from an exposure that alone still eases', () => {
    arrive(frame(10, 2, 0), frame(11, 2, 1));
    const view = createView();
    view.exposure = 1;
    advanceView(view, 1100, 0.02, 4, QUIET);
    expect([view.moving, view.restless]).toEqual([true, true]);
    advanceView(view, 1100, 0.4, 4, QUIET);
    expect([view.moving, view.restless]).toEqual([false, true]);
    for (let k = 0; k < 100; k++) advanceView(view, 1100, 0.1, 4, QUIET);
    expect([view.moving, view.restless]).toEqual([false, false]);
  });

  it('lets the exposure follow a two-hundredfold change to within 15 % in 1.5 s, and then rests', () => {
    arrive(frame(10, 2), frame(11, 2));
    const view = createView();
    view.exposure = 100;
    for (let k = 0; k < 150; k++) advanceView(view, 1100, 0.01, 0.5, QUIET);
    expect(view.exposure / 0.5).toBeLessThan(1.15);
    expect(view.exposure / 0.5).toBeGreaterThan(1);
    for (let k = 0; k < 600; k++) advanceView(view, 1100, 0.01, 0.5, QUIET);
    expect(view.exposure).toBe(0.5);
    expect(view.restless).toBe(false);
  });
});
