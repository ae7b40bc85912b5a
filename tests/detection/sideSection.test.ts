import { describe, expect, it } from 'vitest';
import { weightM2 } from '../../src/engine/detection/angularMap.ts';
import { floorShadows } from '../../src/engine/detection/floorShadows.ts';
import { sceneDistanceM } from '../../src/engine/detection/scene.ts';
import { sideSection } from '../../src/engine/detection/sideSection.ts';
import { sightCells } from '../../src/engine/detection/sightCells.ts';
import { signStrokesM } from '../../src/engine/detection/signStrokes.ts';
import { furnitureBoxes, roomBoxes } from '../../src/engine/room/boxes.ts';
import type { FurnitureSpec, PointM, Vector3 } from '../../src/engine/types.ts';
import { bareRoom, bareSetup, createStage, DOME } from './stage.ts';

const DESK = { deskHeightM: 0.75, maskedSectors: [] as number[] };
const stage = createStage();
const cut = (bearingDeg: number) => sideSection(stage.tables, [], { ...DESK, bearingDeg });

/** Where the plane through the detector crosses the closed outlines on the floor, by the lines between their points. */
function crossings(bearingDeg: number, middleM: PointM): number[] {
  const rad = (bearingDeg * Math.PI) / 180;
  const [s, c] = [Math.sin(rad), Math.cos(rad)];
  return sightCells(DOME, stage.tables, []).flatMap(({ outlineM }) => {
    const at = (k: number) => {
      const [x, y] = [outlineM[3 * k]! - middleM[0], outlineM[3 * k + 1]! - middleM[1]];
      return { along: x * s + y * c, off: x * c - y * s };
    };
    const n = outlineM.length / 3;
    return Array.from({ length: n }, (_, k) => [at(k), at((k + 1) % n)] as const)
      .filter(([a, b]) => a.off > 0 !== b.off > 0)
      .map(([a, b]) => a.along + ((b.along - a.along) * a.off) / (a.off - b.off));
  });
}

describe('the side section', () => {
  it('has its edges where the outlines of the Sight Map cross the plane', () => {
    let compared = 0;
    for (const bearingDeg of [15, 20, 35, 105, 240]) {
      const drawn = crossings(bearingDeg, [20, 20]);
      const rad = (bearingDeg * Math.PI) / 180;
      for (const { channel, polarity, ring, edgesRad, floorM } of cut(bearingDeg).cells) {
        const a = (edgesRad[0] + edgesRad[1]) / 2;
        const d: Vector3 = [Math.sin(a) * Math.sin(rad), Math.sin(a) * Math.cos(rad), -Math.cos(a)];
        const full = (DOME.rings[ring]!.areaCm2 * DOME.lensTransmittance) / 1e4;
        // Where the plane only grazes a cell, two softened edges meet and the drawn corner is not reached.
        if ((polarity * weightM2(stage.tables.map, channel, d)) / full < 0.95) continue;
        for (const edge of floorM) {
          if (Math.abs(edge) > 12) continue;
          // 3 cm, or a hundredth of the distance: straight lines between outline points, pixels of the map.
          const near = Math.min(...drawn.map((along) => Math.abs(along - edge)));
          expect(near).toBeLessThan(Math.max(0.03, 0.01 * Math.abs(edge)));
          compared++;
        }
      }
    }
    expect(compared).toBeGreaterThan(30);
  });

  it('finds half of the facet’s weight at every edge, and its sign inside: a probe moved along the plane', () => {
    for (const bearingDeg of [0, 30, 75]) {
      const rad = (bearingDeg * Math.PI) / 180;
      const towards = (a: number): Vector3 => [Math.sin(a) * Math.sin(rad), Math.sin(a) * Math.cos(rad), -Math.cos(a)];
      for (const { channel, polarity, ring, edgesRad } of cut(bearingDeg).cells) {
        const full = (DOME.rings[ring]!.areaCm2 * DOME.lensTransmittance) / 1e4;
        for (const edge of edgesRad) {
          const share = (polarity * weightM2(stage.tables.map, channel, towards(edge))) / full;
          expect(Math.abs(share - 0.5)).toBeLessThan(0.02);
        }
        const inside = weightM2(stage.tables.map, channel, towards((edgesRad[0] + edgesRad[1]) / 2));
        expect(Math.sign(inside)).toBe(polarity);
      }
    }
  });

  it('turns by half a turn into its mirror image', () => {
    const [a, b] = [cut(30), cut(210)];
    const spans = (cells: typeof a.cells, sign: 1 | -1) =>
      cells.map(({ floorM }) => ((sign * (floorM[0] + floorM[1])) / 2).toFixed(2)).sort();
    expect(spans(a.cells, 1)).toEqual(spans(b.cells, -1));
  });

  it('scales distances with the height they are taken at', () => {
    for (const { floorM, deskM } of cut(45).cells) expect(deskM[1] / floorM[1]).toBeCloseTo(2.25 / 3, 9);
  });

  const room = bareRoom([10, 10, 3.2]);
  const base = { widthM: 2, depthM: 1, turnDeg: 0 as const, reflectance: 0.5 };
  const furniture: FurnitureSpec[] = [
    { ...base, id: 'desk', kind: 'desk', atM: [5, 7], heightM: 0.75 },
    { ...base, id: 'pane', kind: 'glassScreen', atM: [5, 2.5], heightM: 2.4 },
    { ...base, id: 'aside', kind: 'desk', atM: [1.5, 5], heightM: 0.75 },
  ];
  const full = createStage(room, bareSetup(room, { furniture }));
  const boxes = roomBoxes(room, furniture);

  it('shows what the plane cuts, where it stands, and nothing beside it', () => {
    const section = sideSection(full.tables, boxes, { ...DESK, bearingDeg: 0, maskedSectors: [0] });
    expect(section.alongM[0]).toBeCloseTo(-5, 9);
    expect(section.alongM[1]).toBeCloseTo(5, 9);
    expect(section.boxes.map((b) => b.furnitureId).sort()).toEqual(['desk', 'pane']);
    const desk = section.boxes.find((b) => b.furnitureId === 'desk')!;
    expect(desk.alongM[0]).toBeCloseTo(1.5, 9);
    expect(desk.alongM[1]).toBeCloseTo(2.5, 9);
    expect(section.shadows.find((s) => s.furnitureId === 'pane')?.glass).toBe(true);
    // Ends on the desk lie on its top.
    const onDesk = section.cells.filter(({ endsM }) => [endsM[1], endsM[3]].some((up) => Math.abs(up - 0.75) < 1e-6));
    expect(onDesk.length).toBeGreaterThan(0);
  });

  it('hides on the floor exactly what rays do not reach', () => {
    const shadows = floorShadows(full.tables.surroundings, boxes);
    const inside = (outline: PointM[], [x, y]: PointM) =>
      outline.every(([ax, ay], k) => {
        const [bx, by] = outline[(k + 1) % outline.length]!;
        return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -1e-9;
      });
    let hidden = 0;
    for (let i = 0; i < 40; i++) {
      for (let j = 0; j < 40; j++) {
        const at: PointM = [(i + 0.37) / 4, (j + 0.41) / 4];
        const d = [at[0] - 5, at[1] - 5, -3] as const;
        const far = Math.hypot(...d);
        const blocked = sceneDistanceM(full.tables.surroundings, d[0] / far, d[1] / far, d[2] / far) < far - 1e-6;
        const dotted = shadows.some(({ outlineM }) => inside(outlineM, at));
        expect(dotted).toBe(blocked);
        if (blocked) hidden++;
      }
    }
    expect(hidden).toBeGreaterThan(50);
    expect(furnitureBoxes(furniture[0]!)).toHaveLength(1);
  });
});

describe('signs in the cells', () => {
  it('are one stroke for − and two for +, inside the outline', () => {
    const cell = sightCells(DOME, stage.tables, []).find((c) => c.ring === 5 && c.polarity === 1)!;
    expect(signStrokesM(cell.outlineM, -1)).toHaveLength(1);
    const plus = signStrokesM(cell.outlineM, 1);
    expect(plus).toHaveLength(2);
    const xs = cell.outlineM.filter((_, k) => k % 3 === 0);
    for (const stroke of plus) {
      for (const x of [stroke[0]!, stroke[3]!]) {
        expect(x).toBeGreaterThan(Math.min(...xs));
        expect(x).toBeLessThan(Math.max(...xs));
      }
    }
  });
});
