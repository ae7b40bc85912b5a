/** A marked point counts as an edge only where it was answered and something further out ends it. */
import { describe, expect, it } from 'vitest';
import type { PointM } from '../../../src/engine/types.ts';
import { covered, directionsOf, edgeOf } from '../../../src/exercise/commission/edges.ts';
import type { CommissionLine, WalkedPoint, WalkedWay } from '../../../src/exercise/commission/types.ts';
import { placeOf } from '../../../src/exercise/reach/polygon.ts';
import { lineText } from '../../../src/report/text/commission.ts';

const CENTRE: PointM = [5, 5];
const ROOM = { widthM: 10, depthM: 10 };

function point(id: number, bearingDeg: number, radiusM: number, seen: boolean, way: WalkedWay = 'seated'): WalkedPoint {
  return { id, tick: id * 100, personId: 'A', atM: placeOf(CENTRE, bearingDeg, radiusM), way, seen };
}

function judged(points: WalkedPoint[], marked = [1]): Record<number, string> {
  const { counted, uncounted } = edgeOf(points, marked, 'seated', CENTRE, ROOM);
  return Object.fromEntries([...counted.map(({ id }) => [id, 'counts']), ...uncounted.map(({ id, why }) => [id, why])]);
}

describe('a marked point of an edge', () => {
  const edge = point(1, 90, 2, true);

  it('counts with a place beyond that was not answered, at most 1 m further out in about its direction', () => {
    expect(judged([edge, point(2, 90, 2.5, false)])).toEqual({ 1: 'counts' });
    expect(judged([edge, point(2, 108, 2.9, false)])).toEqual({ 1: 'counts' });
  });

  it.each([
    ['that was answered too', point(2, 90, 2.5, true)],
    ['too far out', point(2, 90, 3.2, false)],
    ['nearer', point(2, 90, 1.5, false)],
    ['in the next direction', point(2, 120, 2.5, false)],
    ['tried with another movement', point(2, 90, 2.5, false, 'across')],
  ])('shows nothing with a place beyond %s', (_what, beyond) => {
    expect(judged([edge, beyond])).toEqual({ 1: 'nothingBeyond' });
  });

  it('counts by the wall, also in a corner and where the wall runs aslant', () => {
    expect(judged([point(1, 90, 4.1, true)])).toEqual({ 1: 'counts' });
    expect(judged([point(1, 90, 3.9, true)])).toEqual({ 1: 'nothingBeyond' });
    expect(judged([point(1, 225, 6, true)])).toEqual({ 1: 'counts' });
    // Along the direction the wall is 1.2 m away, at right angles 0.9 m.
    expect(judged([point(1, 40, 4.1 / Math.cos((40 * Math.PI) / 180), true)])).toEqual({ 1: 'counts' });
  });

  it('of another movement, not answered, or not borne out says which it is', () => {
    const beyond = point(9, 90, 2.5, false);
    const points = [edge, beyond, point(2, 90, 2, true, 'across'), point(3, 90, 2.2, false)];
    expect(judged(points, [1, 2, 3, 4])).toEqual({
      1: 'counts',
      2: 'otherMovement',
      3: 'notAnswered',
      4: 'notBorneOut',
    });
  });

  it('counts once however often it is marked', () => {
    expect(edgeOf([edge, point(2, 90, 2.5, false)], [1, 1], 'seated', CENTRE, ROOM).counted).toHaveLength(1);
  });
});

describe('an outline', () => {
  const mount = { atM: CENTRE, heightM: 3, turnDeg: 0 };
  const all = (stepDeg: number): WalkedPoint[] =>
    Array.from({ length: 360 / stepDeg }, (_, i) => point(i, i * stepDeg, 2, true));

  it('covers every direction with points two steps apart, and none with points three steps apart', () => {
    expect(directionsOf(all(60), mount)).toBe(12);
    expect(directionsOf(all(90), mount)).toBe(0);
    expect(directionsOf([], mount)).toBe(0);
  });

  it('is open on the side where nobody tested, over the turn too', () => {
    const side = all(30).filter(({ id }) => id <= 3 || id >= 11);
    const bearings = [0, 45, 89, 100, 180, 320, 345].map((bearingDeg) => ({ bearingDeg }));
    expect(covered(bearings, side, CENTRE).map(({ bearingDeg }) => bearingDeg)).toEqual([0, 45, 89, 345]);
  });
});

describe('the words for an outline', () => {
  const line: CommissionLine = {
    code: 'criterion',
    id: 'seated',
    kind: 'outline',
    title: 'Outline',
    next: 'Next: go on.',
    must: 'met',
    verdict: 'missed',
    value: 0.3,
    limit: 0.8,
    unit: 'm',
    at: null,
    ownS: null,
    edge: {
      marked: 4,
      uncounted: [
        { id: 3, why: 'nothingBeyond' },
        { id: 2, why: 'notAnswered' },
        { id: 7, why: 'nothingBeyond' },
      ],
      directions: 2,
      needed: 11,
    },
  };

  it('tell which marked points do not count, why, and how far round the others go', () => {
    const text = lineText(line, () => '', true);
    expect(text).toContain('1 of 4 marked points count.');
    expect(text).toContain('Point 2: not answered there.');
    expect(text).toContain('Points 3, 7: within 1 m further out');
    expect(text).toContain('cover 2 of 12 directions; 11 are needed.');
  });

  it('say nothing of it where all count and go round', () => {
    const whole = { ...line, edge: { marked: 9, uncounted: [], directions: 11, needed: 11 } };
    expect(lineText(whole, () => '', true)).not.toMatch(/count|cover/);
  });
});
