import { describe, expect, it } from 'vitest';
import { endsAtWall, inOrder, outlineError, placeOf, polarOf, rayReachM } from '../../src/app/state/reachShape.ts';
import { readNotebook, seenLately, wayOf } from '../../src/app/state/walkTest.ts';
import type { TraceEvent } from '../../src/engine/trace.ts';
import type { PointM } from '../../src/engine/types.ts';

const SQUARE: PointM[] = [
  [-2, -2],
  [2, -2],
  [2, 2],
  [-2, 2],
];
const ray = (bearingDeg: number, halfM: number | null) => ({
  bearingDeg,
  limitM: 9,
  halfM,
  nineTenthsM: null,
  gapsM: [],
  triedM: [],
  share: [],
});

describe('places round the detector', () => {
  it('are told by bearing clockwise from the back wall and by distance, and found again', () => {
    for (const bearingDeg of [0, 30, 90, 200, 359]) {
      const back = polarOf([1, 2], placeOf([1, 2], bearingDeg, 3));
      expect(back.radiusM).toBeCloseTo(3, 9);
      expect(back.bearingDeg).toBeCloseTo(bearingDeg, 9);
    }
  });

  it('are put in order round it, whatever the order in which they were recorded', () => {
    const mixed = [SQUARE[2]!, SQUARE[0]!, SQUARE[3]!, SQUARE[1]!];
    expect(inOrder(mixed, [0, 0]).map((p) => polarOf([0, 0], p).bearingDeg)).toEqual([45, 135, 225, 315]);
  });
});

describe('the learner’s outline beside the computed one', () => {
  it('reaches as far as its sides do: 2 m straight, 2 root 2 in the corner', () => {
    expect(rayReachM(SQUARE, [0, 0], 0)).toBeCloseTo(2, 9);
    expect(rayReachM(SQUARE, [0, 0], 45)).toBeCloseTo(2 * Math.SQRT2, 9);
    expect(rayReachM(SQUARE, [5, 0], 90)).toBeNull();
  });

  it('is off by the mean of the distances along the directions that it says something about', () => {
    const error = outlineError(SQUARE, [0, 0], [ray(0, 3), ray(90, 2), ray(180, 1.5)]);
    expect(error!.meanM).toBeCloseTo((1 + 0 + 0.5) / 3, 9);
    expect(error).toMatchObject({ directions: 3, all: 3 });
    // Nothing is seen there: all of what was drawn is too much.
    expect(outlineError(SQUARE, [0, 0], [ray(0, null)])!.meanM).toBeCloseTo(2, 9);
    expect(outlineError(SQUARE.slice(0, 2), [0, 0], [ray(0, 3)])).toBeNull();
  });

  it('ends at the wall where the wall is as near as what is seen', () => {
    expect(endsAtWall({ ...ray(0, 4), limitM: 4.05 })).toBe(true);
    expect(endsAtWall({ ...ray(0, 4), limitM: 6 })).toBe(false);
    expect(endsAtWall({ ...ray(0, null), limitM: 0 })).toBe(false);
  });
});

describe('a point of the walk-test', () => {
  const mount = { atM: [0, 0] as PointM, heightM: 3, turnDeg: 0 };
  const walker = (headingDeg: number) => ({ act: 'walk' as const, atM: [0, 3] as PointM, headingDeg });

  it('is across, toward or away as the detector sees the walk, seated at a desk, else standing', () => {
    expect(wayOf(walker(0), mount)).toBe('away');
    expect(wayOf(walker(180), mount)).toBe('toward');
    expect(wayOf(walker(90), mount)).toBe('across');
    expect(wayOf({ ...walker(0), act: 'reach' }, mount)).toBe('seated');
    expect(wayOf({ ...walker(0), act: 'stand' }, mount)).toBe('standing');
  });

  it('is seen when a pulse was taken within the last two seconds, not after', () => {
    const events = [{ tick: 100, kind: 'seen', by: 'pulse', atM: null }] as TraceEvent[];
    expect([99, 100, 119, 120].map((tick) => seenLately(tick, events))).toEqual([false, true, true, false]);
  });
});

describe('a notebook kept in the browser', () => {
  const point = { id: 4, tick: 1, personId: 'A', atM: [1, 2], way: 'across', seen: true, mount: '' };
  const text = (value: unknown) => JSON.stringify(value);

  it('comes back as it was, without edge points that are gone', () => {
    const book = readNotebook(text({ format: 1, points: [point], edge: { across: [4, 9], toward: [], seated: [] } }));
    expect(book.points).toEqual([point]);
    expect(book.edge.across).toEqual([4]);
  });

  it.each([
    ['nothing', null],
    ['no JSON', '{"format":1,"points":['],
    ['another format', text({ format: 2, points: [point] })],
    ['a point without a place', text({ format: 1, points: [{ ...point, atM: null }] })],
    ['points that are no list', text({ format: 1, points: 7 })],
  ])('is an empty page when it holds %s', (_what, kept) => {
    expect(readNotebook(kept).points).toEqual([]);
  });
});
