import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestPlace, boxAround, type Obstacle, overlap, roundCandidates } from '../../src/report/places.ts';

const ROOM = { left: 0, right: 800, top: 0, bottom: 500 };

describe('places of labels', () => {
  it('keeps a label inside the drawing wherever its point lies', () => {
    const inside = fc.record({ x: fc.integer({ min: 0, max: 800 }), y: fc.integer({ min: 0, max: 500 }) });
    fc.assert(
      fc.property(inside, (point) => {
        const { value } = bestPlace(roundCandidates(point, 26), [], ROOM);
        expect(value.x).toBeGreaterThanOrEqual(26);
        expect(value.x).toBeLessThanOrEqual(800 - 26);
        expect(value.y).toBeGreaterThanOrEqual(26);
        expect(value.y).toBeLessThanOrEqual(500 - 26);
      }),
      { seed: 7 },
    );
  });

  it('goes round what must be read as long as one place is free', () => {
    const point = { x: 400, y: 250 };
    const candidates = roundCandidates(point, 26);
    const free = candidates[5]!;
    const others = candidates.filter((c) => overlap(c.boxes[0]!, free.boxes[0]!) === 0);
    const obstacles: Obstacle[] = others.map((c) => ({ box: boxAround(c.value.x, c.value.y, 8), weight: 5 }));
    const { boxes } = bestPlace(candidates, obstacles, ROOM);
    for (const obstacle of obstacles) expect(overlap(boxes[0]!, obstacle.box)).toBe(0);
  });

  it('covers the lighter of two things when every place covers something', () => {
    const person: Obstacle = { box: { left: 0, right: 400, top: 0, bottom: 500 }, weight: 5 };
    const lamp: Obstacle = { box: { left: 400, right: 800, top: 0, bottom: 500 }, weight: 1 };
    const { value } = bestPlace(roundCandidates({ x: 400, y: 250 }, 26), [person, lamp], ROOM);
    expect(value.x).toBeGreaterThan(426);
  });
});
