import { describe, expect, it } from 'vitest';
import { recentMarks, wayAt } from '../../../src/app/scene/overlay/Marks.tsx';
import { sightLines } from '../../../src/app/scene/overlay/SightMap.tsx';
import type { PulseMark, SightCell } from '../../../src/host/messages.ts';
import { bareRoom } from './bareRoom.ts';

const room = bareRoom();
const mount = { atM: [4, 4] as [number, number], heightM: 3, turnDeg: 0 };
const cell = (outlineM: number[], masked = false): SightCell => ({
  channel: 0,
  polarity: 1,
  ring: 1,
  outlineM,
  masked,
});
const onFloor = [3, 3, 0, 3.3, 3, 0, 3.3, 3.2, 0, 3, 3.2, 0];

describe('Sight Map', () => {
  it('closes each outline and lifts it towards the detector by about a centimetre', () => {
    const lines = sightLines([cell(onFloor)], false, room, mount);
    expect(lines.length).toBe(4 * 2 * 3);
    for (let k = 2; k < lines.length; k += 3) {
      expect(lines[k]).toBeGreaterThan(0.005);
      expect(lines[k]).toBeLessThan(0.013);
    }
  });

  it('draws a masked cell dotted and apart from what is seen', () => {
    expect(sightLines([cell(onFloor, true)], false, room, mount)).toEqual([]);
    expect(sightLines([cell(onFloor, true)], true, room, mount).length).toBe(2 * 2 * 3);
  });

  it('joins no points on two surfaces, one behind the other', () => {
    const overEdge = [4, 3.5, 1.4, 4.2, 3.5, 1.4, 4.4, 2.5, 0, 4, 2.5, 0];
    expect(sightLines([cell(overEdge)], false, room, mount).length).toBe(2 * 2 * 3);
  });

  it('draws nothing on walls that are cut away, nor outside the room', () => {
    expect(sightLines([cell([4, 0, 1.5, 4.3, 0, 1.5, 4.3, 0, 1.7, 4, 0, 1.7])], false, room, mount)).toEqual([]);
    expect(sightLines([cell([-1, 1, 0, -1.2, 1, 0, -1.2, 1.2, 0, -1, 1.2, 0])], false, room, mount)).toEqual([]);
  });
});

describe('marks', () => {
  const at = (tick: number, x: number, y: number): PulseMark => ({ tick, atM: [x, y] });

  it('lie across the way walked even where several pulses arose at one place', () => {
    const marks = [at(1, 1, 1), at(2, 1.5, 1), at(2, 1.5, 1.001), at(3, 2, 1)];
    for (let k = 0; k < marks.length; k++) {
      const [dx, dy] = wayAt(marks, k);
      expect(Math.abs(dx)).toBeGreaterThan(0.99);
      expect(Math.abs(dy)).toBeLessThan(0.01);
    }
  });

  it('are drawn once at a place, gone after 14 s, and never from the time to come', () => {
    const marks = [at(0, 1, 1), at(100, 2, 1), at(101, 2.01, 1), at(150, 3, 1), at(400, 4, 1)];
    expect(recentMarks(marks, 160).map((m) => m.tick)).toEqual([101, 150]);
  });
});
