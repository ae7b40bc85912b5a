import { describe, expect, it } from 'vitest';
import { dashes } from '../../../src/app/scene/overlay/WalkLine.tsx';
import { isolineMarks } from '../../../src/app/scene/tags/isolines.ts';
import type { FieldFace, LightField } from '../../../src/engine/light/types.ts';

/** A floor of 8 x 6 m whose lux rises evenly along x: 100 lx per metre from the lamps of one row alone. */
function ramp(): LightField {
  const [nu, nv] = [40, 30];
  const face: FieldFace = {
    id: 'floor',
    kind: 'floor',
    furnitureId: null,
    originM: [0, 0, 0],
    uM: [8, 0, 0],
    vM: [0, 6, 0],
    normal: [0, 0, 1],
    nu,
    nv,
    offset: 0,
    reflectance: 0.2,
  };
  const zero = new Float32Array(nu * nv);
  const inner = Float32Array.from(zero, (_, k) => ((k % nu) + 0.5) * 0.2 * 100);
  return { faces: [face], daylightLx: zero, innerRowLx: inner, windowRowLx: zero, doorLx: zero };
}

const ON = { inner: 1, window: 0 };

describe('numbers on isolines', () => {
  it('stand on the line of their level, nearest to the wanted place', () => {
    const [mark] = isolineMarks(ramp(), ON, [{ lux: 300, near: [[0.5, 0.5]] }], () => false);
    expect(mark?.atM[0]).toBeCloseTo(3, 1);
    expect(Math.abs((mark?.atM[1] ?? 0) - 3)).toBeLessThan(0.15);
  });

  it('follow the level of the lamps', () => {
    const [mark] = isolineMarks(ramp(), { inner: 0.5, window: 0 }, [{ lux: 300, near: [[0.5, 0.5]] }], () => false);
    expect(mark?.atM[0]).toBeCloseTo(6, 1);
  });

  it('are missing where the level is not reached, and never stand on what covers the floor', () => {
    expect(isolineMarks(ramp(), ON, [{ lux: 1000, near: [[0.5, 0.5]] }], () => false)).toEqual([]);
    const [mark] = isolineMarks(ramp(), ON, [{ lux: 300, near: [[0.5, 0.5]] }], ([, y]) => y > 2);
    expect(mark!.atM[1]).toBeLessThanOrEqual(2);
  });
});

describe('the Walk Line', () => {
  it('is dashes over the whole way and nothing beyond its ends', () => {
    const triangles = dashes([
      [1, 1],
      [3, 1],
      [3, 2],
    ]);
    const xs = triangles.filter((_, k) => k % 3 === 0);
    const ys = triangles.filter((_, k) => k % 3 === 1);
    expect(Math.min(...xs)).toBeCloseTo(1, 6);
    expect(Math.max(...xs)).toBeLessThan(3.03);
    expect(Math.max(...ys)).toBeLessThan(2.03);
    // Eight dashes on two metres, four on one; six corners each.
    expect(triangles.length / 9).toBe((8 + 4) * 2);
  });
});
