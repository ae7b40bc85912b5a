import fc from 'fast-check';
import { PerspectiveCamera, Vector3 as V3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  FIELD_OF_VIEW_DEG,
  placeCamera,
  STAGE_MARGINS,
  shiftFrustum,
  stationEye,
  toThree,
} from '../../../src/app/scene/camera.ts';
import { floorPoint, pick, type Ray, rayToSegmentM } from '../../../src/app/scene/pick.ts';
import { bestOffset, overlapPx2, type Rect } from '../../../src/app/scene/tags/arrange.ts';
import type { PersonView } from '../../../src/engine/frame.ts';
import type { Vector3 } from '../../../src/engine/types.ts';
import { bareRoom } from './bareRoom.ts';

const room = bareRoom({
  luminaires: [
    {
      id: 'l',
      row: 'window',
      atM: [4, 6],
      heightM: 2.5,
      lengthM: 1.5,
      widthM: 0.1,
      turnDeg: 0,
      fluxLm: 4000,
      distribution: 'lambert',
      upShare: 0,
    },
  ],
});
const mount = { atM: [4, 4] as [number, number], heightM: 3, turnDeg: 0 };
const anna: PersonView = { id: 'A', atM: [2, 3], headingDeg: 0, act: 'stand', present: true };

/** From a far eye at the corner station's side through a point. */
function through(p: Vector3): Ray {
  const eye: Vector3 = [p[0] + 10, p[1] - 24, p[2] + 20];
  const d = [p[0] - eye[0], p[1] - eye[1], p[2] - eye[2]] as Vector3;
  const length = Math.hypot(...d);
  return { origin: eye, direction: [d[0] / length, d[1] / length, d[2] / length] };
}

describe('a tap', () => {
  it('meets the Stand-in it points at, and the floor beside', () => {
    expect(pick(through([2, 3, 1]), room, [anna], mount)).toEqual({ kind: 'person', personId: 'A' });
    const floor = pick(through([5.5, 3, 0]), room, [anna], mount);
    expect(floor?.kind).toBe('floor');
    if (floor?.kind === 'floor') {
      expect(floor.atM[0]).toBeCloseTo(5.5, 9);
      expect(floor.atM[1]).toBeCloseTo(3, 9);
    }
  });

  it('does not meet somebody who is outside', () => {
    expect(pick(through([2, 3, 1]), room, [{ ...anna, present: false }], mount)?.kind).not.toBe('person');
  });

  it('on a lamp means its row, on the detector the air contact, beside the room nothing', () => {
    expect(pick(through([4.5, 6, 2.5]), room, [], mount)).toEqual({ kind: 'output', output: 'windowRow' });
    expect(pick(through([4, 4, 2.9]), room, [], mount)).toEqual({ kind: 'output', output: 'airContact' });
    expect(pick(through([-1, 3, 0]), room, [], mount)).toBeNull();
  });

  it('meets the floor point it goes through, anywhere in the room', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 7.99, noNaN: true }),
        fc.double({ min: 0.01, max: 7.99, noNaN: true }),
        (x, y) => {
          const [fx, fy] = floorPoint(through([x, y, 0]), room)!;
          expect(Math.hypot(fx - x, fy - y)).toBeLessThan(1e-9);
        },
      ),
    );
  });
});

it('distance of a ray from a segment is that of the nearest of many points on it', () => {
  const number = fc.double({ min: -5, max: 5, noNaN: true });
  const point = fc.tuple(number, number, number);
  fc.assert(
    fc.property(point, point, (a, b) => {
      const ray = through([1, 1, 1]);
      let least = Infinity;
      for (let k = 0; k <= 2000; k++) {
        const p = [0, 1, 2].map((i) => a[i]! + (b[i]! - a[i]!) * (k / 2000) - ray.origin[i]!);
        const s = Math.max(p[0]! * ray.direction[0] + p[1]! * ray.direction[1] + p[2]! * ray.direction[2], 0);
        least = Math.min(least, Math.hypot(...p.map((v, i) => v - ray.direction[i]! * s)));
      }
      // 2000 steps over at most 17 m leave under 5 mm.
      expect(Math.abs(rayToSegmentM(ray, a, b) - least)).toBeLessThan(0.005);
    }),
    { numRuns: 60 },
  );
});

describe.each(['corner', 'door', 'desk', 'ceiling'] as const)('the station %s', (station) => {
  const margins = STAGE_MARGINS[station];
  it('shows the whole room between the margins, for any room and stage', () => {
    fc.assert(
      fc.property(
        fc.record({
          widthM: fc.double({ min: 3, max: 16, noNaN: true }),
          depthM: fc.double({ min: 3, max: 12, noNaN: true }),
          aspect: fc.double({ min: 0.6, max: 2.4, noNaN: true }),
        }),
        ({ widthM, depthM, aspect }) => {
          const sized = bareRoom({ widthM, depthM });
          const { eye, shift } = stationEye(sized, station, aspect, margins);
          const camera = new PerspectiveCamera(FIELD_OF_VIEW_DEG, aspect, 1, 300);
          placeCamera(camera, eye);
          shiftFrustum(camera, shift);
          const corners: Vector3[] = [
            [0, 0, 0],
            [widthM, 0, 0],
            [widthM, depthM, 3],
            [0, depthM, 3],
            [0, 0, 3],
          ];
          for (const corner of corners) {
            const [x, y, z] = corner;
            const p = toThree(x, y, z, new V3()).project(camera);
            expect(p.x).toBeGreaterThan(-1 + 2 * margins.left - 0.02);
            expect(p.x).toBeLessThan(1 - 2 * margins.right + 0.02);
            expect(p.y).toBeGreaterThan(-1 + 2 * margins.bottom - 0.02);
            expect(p.y).toBeLessThan(1 - 2 * margins.top + 0.02);
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('a tag', () => {
  const offsets: [number, number][] = [
    [-50, 50],
    [50, 50],
    [0, -60],
  ];

  it('takes the first place that covers nothing', () => {
    const taken: Rect[] = [{ x: 40, y: 140, w: 40, h: 40 }];
    const { index, rect } = bestOffset([100, 100], [40, 40], offsets, taken, []);
    expect(index).toBe(1);
    expect(overlapPx2(rect, taken[0]!)).toBe(0);
  });

  it('leaves a head uncovered when it can', () => {
    expect(bestOffset([100, 100], [40, 40], offsets, [], [[50, 150]]).index).toBe(1);
  });
});
