import { describe, expect, it } from 'vitest';
import { poseBodies, staticWarmPatches } from '../../src/engine/people/people.ts';
import { createBodyBuffer, PART_KINDS, PARTS_PER_BODY, type WarmThingSpec } from '../../src/engine/types.ts';
import { distance, halfExtent, part } from './stage.ts';

const thing = (change: Partial<WarmThingSpec> & Pick<WarmThingSpec, 'kind'>): WarmThingSpec => ({
  id: 'x',
  atM: [3, 2],
  heightM: 0.5,
  excessK: 6,
  on: true,
  ...change,
});

function bodyAt(spec: WarmThingSpec, tick: number, subStep = 0) {
  const buffer = createBodyBuffer(2);
  poseBodies([], [spec], tick, subStep, buffer);
  return buffer;
}

const MOVING: WarmThingSpec[] = [
  thing({
    kind: 'dog',
    pathM: [
      [1, 1],
      [5, 1],
      [5, 3],
    ],
  }),
  thing({
    kind: 'cleaningRobot',
    heightM: 0.09,
    pathM: [
      [1, 1],
      [2, 1],
    ],
  }),
  thing({ kind: 'fan', heightM: 1.2 }),
  thing({ kind: 'curtain', heightM: 2.4 }),
  thing({ kind: 'warmAirOutlet', heightM: 2.2 }),
];

describe('warm things', () => {
  it.each(MOVING.map((m) => [m.kind, m] as const))(
    '%s moves smoothly, its axes square, and only while it is on',
    (_k, spec) => {
      let before = bodyAt(spec, 0);
      let moved = 0;
      for (let n = 1; n < 600; n++) {
        const now = bodyAt(spec, Math.floor(n / 5), n % 5);
        expect(now.count).toBe(1);
        expect(now.poseKey[0]).not.toBe(before.poseKey[0]);
        for (let slot = 0; slot < PARTS_PER_BODY; slot++) {
          const a = part(before, slot);
          const b = part(now, slot);
          const step = distance(a.centre, b.centre);
          moved = Math.max(moved, step);
          expect(step).toBeLessThan(0.09);
          for (let i = 0; i < 3; i++) {
            const dot = b.axes[i]!.reduce((sum, x, k) => sum + x * b.axes[(i + 1) % 3]![k]!, 0);
            expect(Math.abs(dot)).toBeLessThan(1e-12);
          }
        }
        before = now;
      }
      expect(moved).toBeGreaterThan(0.001);
      const off = { ...spec, on: false };
      if (spec.kind === 'dog') expect(bodyAt(off, 3).count).toBe(0);
      else {
        expect([...bodyAt(off, 3).parts]).toEqual([...bodyAt(off, 77, 2).parts]);
        expect(bodyAt(off, 3).poseKey[0]).toBe(bodyAt(off, 77, 2).poseKey[0]);
      }
    },
  );

  it('a dog walks its path at its pace, and back the same way', () => {
    const spec = MOVING[0]!;
    // Four metres at 1 m/s, a second to turn, two metres, a second to turn about, and back.
    const at = (s: number) => part(bodyAt(spec, s * 10), 0).centre.slice(0, 2);
    for (const [s, place] of [
      [2, [3, 1]],
      [4.5, [5, 1]],
      [6, [5, 2]],
      [7.5, [5, 3]],
      [9, [5, 2]],
      [13, [3, 1]],
      [15.5, [1, 1]],
      [18, [3, 1]],
    ] as const) {
      expect(distance(at(s), [...place]), `${s} s`).toBeLessThan(1e-9);
    }
  });

  it('a dog is as tall as its file says and stands on the floor', () => {
    const buffer = bodyAt(MOVING[0]!, 0);
    const parts = Array.from({ length: PARTS_PER_BODY }, (_, slot) => part(buffer, slot)).filter(
      (e) => halfExtent(e, 2) > 0,
    );
    expect(Math.max(...parts.map((e) => e.centre[2]! + halfExtent(e, 2)))).toBeCloseTo(0.5, 1);
    expect(Math.min(...parts.map((e) => e.centre[2]! - halfExtent(e, 2)))).toBeCloseTo(0, 2);
    expect([...buffer.partKind.subarray(0, 16)].every((k) => PART_KINDS[k] === 'thing')).toBe(true);
  });

  it('a curtain sways .15 m to either side of where it hangs, .6 times a second', () => {
    const spec = thing({ kind: 'curtain', heightM: 2.4 });
    const xs = Array.from({ length: 500 }, (_, n) => part(bodyAt(spec, Math.floor(n / 5), n % 5), 0).centre[0]!);
    const middle = (Math.max(...xs) + Math.min(...xs)) / 2;
    expect(Math.max(...xs) - middle).toBeCloseTo(0.15, 3);
    const rising = xs.filter((x, i) => i > 0 && x > middle && xs[i - 1]! <= middle).length;
    expect(rising).toBe(6);
    // A path says where it sways: here to and fro.
    const toAndFro = {
      ...spec,
      pathM: [
        [3, 1.8],
        [3, 2.2],
      ] as [number, number][],
    };
    const ys = Array.from({ length: 100 }, (_, n) => part(bodyAt(toAndFro, n), 0).centre[1]!);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(0.4, 2);
  });

  it('a sheet swings .1 m once a second half a metre under the outlet', () => {
    const spec = thing({ kind: 'warmAirOutlet', heightM: 2.9 });
    const xs = Array.from({ length: 50 }, (_, n) => part(bodyAt(spec, Math.floor(n / 5), n % 5), 0).centre);
    expect(Math.max(...xs.map((p) => p[0]!)) - 3).toBeCloseTo(0.1, 3);
    expect(Math.min(...xs.map((p) => p[0]!)) - 3).toBeCloseTo(-0.1, 3);
    expect(xs.every((p) => p[2]! === 2.4)).toBe(true);
    expect(distance(part(bodyAt(spec, 13), 0).centre, part(bodyAt(spec, 3), 0).centre)).toBeLessThan(1e-12);
  });

  it('a radiator is no body but a warm patch that needs minutes', () => {
    const spec = thing({
      kind: 'radiator',
      heightM: 0.6,
      excessK: 40,
      pathM: [
        [1, 5.9],
        [2.2, 5.9],
      ],
    });
    expect(bodyAt(spec, 1).count).toBe(0);
    const [patch] = staticWarmPatches([spec, MOVING[2]!]);
    expect(patch).toMatchObject({ id: 'x', excessK: 40 });
    expect(patch!.timeConstantS).toBeGreaterThan(60);
    expect(patch!.minM[0]).toBeCloseTo(0.95, 9);
    expect(patch!.maxM).toEqual([2.25, 5.95, 0.6]);
    expect(staticWarmPatches([{ ...spec, on: false }])[0]!.excessK).toBe(0);
  });
});
