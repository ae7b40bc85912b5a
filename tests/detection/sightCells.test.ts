import { describe, expect, it } from 'vitest';
import { weightM2 } from '../../src/engine/detection/angularMap.ts';
import { WEIGHTS_PER_CHANNEL } from '../../src/engine/detection/lookup.ts';
import { weighBody } from '../../src/engine/detection/raster.ts';
import { bakedDepthM, sceneDistanceM } from '../../src/engine/detection/scene.ts';
import { sightCells } from '../../src/engine/detection/sightCells.ts';
import { createBodyBuffer, type FurnitureSpec, type Vector3 } from '../../src/engine/types.ts';
import { bareRoom, bareSetup, createStage, DOME } from './stage.ts';

const EYE: Vector3 = [20, 20, 3];

/** Direction (detector frame, arrow along +y) from the detector to a point of an outline. */
function towards(outlineM: number[], k: number): Vector3 {
  const d: Vector3 = [outlineM[3 * k]! - EYE[0], outlineM[3 * k + 1]! - EYE[1], outlineM[3 * k + 2]! - EYE[2]];
  const length = Math.hypot(...d);
  return [d[0] / length, d[1] / length, d[2] / length];
}

/** Middle of an outline, as a direction. */
function middle(outlineM: number[]): Vector3 {
  const sum: Vector3 = [0, 0, 0];
  for (let k = 0; k < outlineM.length / 3; k++)
    towards(outlineM, k).forEach((x, i) => {
      sum[i]! += x;
    });
  const length = Math.hypot(...sum);
  return [sum[0] / length, sum[1] / length, sum[2] / length];
}

/** Lens of one ring, so that no neighbour overlaps. */
const LONE = { ...DOME, rings: [{ nadirDeg: 54, facets: 12, areaCm2: 0.12, staggerPitch: 0.5 }] };

describe('the picture of the beams', () => {
  const stage = createStage();
  const cells = sightCells(DOME, stage.tables, []);

  it('has a + and a - outline for each facet of the lens', () => {
    expect(cells).toHaveLength(2 * DOME.rings.reduce((n, ring) => n + ring.facets, 0));
    expect(cells.filter((c) => c.polarity === 1)).toHaveLength(cells.length / 2);
    for (let channel = 0; channel < 4; channel++) {
      expect(cells.filter((c) => c.channel === channel)).toHaveLength(cells.length / 4);
    }
  });

  it('runs where the map has half its weight, and has the sign of the map inside', () => {
    const lone = createStage(undefined, undefined, 1, LONE);
    for (const cell of sightCells(LONE, lone.tables, [])) {
      const inside = weightM2(lone.tables.map, cell.channel, middle(cell.outlineM));
      expect(Math.sign(inside)).toBe(cell.polarity);
      // Points 2, 6, 10, 14 are middles of the sides (corners are half of a half).
      for (const k of [2, 6, 10, 14]) {
        const edge = weightM2(lone.tables.map, cell.channel, towards(cell.outlineM, k));
        expect(Math.abs(edge / inside - 0.5)).toBeLessThan(0.1);
      }
    }
  });

  it('is true for a probe: a small sphere on the edge gives half of what it gives in the middle', () => {
    const lone = createStage(undefined, undefined, 1, LONE);
    lone.tables.fineness = 8;
    const flux = (d: Vector3, channel: number) => {
      const buffer = createBodyBuffer(1);
      buffer.count = 1;
      const at = d.map((x, i) => EYE[i]! + 4 * x);
      const r = 0.012;
      buffer.parts.set([...at, r, 0, 0, 0, r, 0, 0, 0, r]);
      const out = new Array<number>(4 * WEIGHTS_PER_CHANNEL).fill(0);
      weighBody(lone.tables, buffer, 0, [...at, r], [], 0, out);
      return out[channel * WEIGHTS_PER_CHANNEL]!;
    };
    const cell = sightCells(LONE, lone.tables, []).find((c) => c.channel === 1 && c.polarity === 1)!;
    const inside = flux(middle(cell.outlineM), 1);
    expect(inside).toBeGreaterThan(0);
    for (const k of [2, 6, 10, 14]) {
      // Remaining error: the sphere is a third of a degree wide, pixels of the map 0.15.
      expect(Math.abs(flux(towards(cell.outlineM, k), 1) / inside - 0.5)).toBeLessThan(0.12);
    }
  });

  it('lies on the first surface met: floor, desk tops, walls, and not behind glass', () => {
    const room = bareRoom([10, 10, 3.2]);
    const desk: FurnitureSpec = {
      id: 'd',
      kind: 'desk',
      atM: [6.5, 6.5],
      turnDeg: 0,
      widthM: 2,
      depthM: 2,
      heightM: 0.75,
      reflectance: 0.5,
    };
    const glass: FurnitureSpec = {
      ...desk,
      id: 'g',
      kind: 'glassScreen',
      atM: [2, 5],
      turnDeg: 90,
      widthM: 10,
      heightM: 3.2,
    };
    const small = createStage(room, bareSetup(room, { furniture: [desk, glass] }));
    const xyz = sightCells(DOME, small.tables, []).flatMap((c) =>
      Array.from({ length: c.outlineM.length / 3 }, (_, k) => c.outlineM.slice(3 * k, 3 * k + 3)),
    );
    const onFloor = xyz.filter(([, , z]) => Math.abs(z!) < 1e-9).length;
    const onDesk = xyz.filter(
      ([x, y, z]) => Math.abs(z! - 0.75) < 1e-9 && x! > 5.4 && x! < 7.6 && y! > 5.4 && y! < 7.6,
    );
    const onWall = xyz.filter(([x, y]) => Math.abs(x! - 10) < 1e-9 || Math.abs(y! - 10) < 1e-9 || Math.abs(y!) < 1e-9);
    expect(onFloor).toBeGreaterThan(1000);
    expect(onDesk.length).toBeGreaterThan(100);
    expect(onWall.length).toBeGreaterThan(100);
    expect(xyz.every(([x]) => x! > 1.9)).toBe(true);
  });

  it('is dimmed exactly where masks are clipped on', () => {
    const masked = sightCells(DOME, stage.tables, [0, 7]);
    for (const cell of masked) {
      const d = middle(cell.outlineM);
      const bearing = ((Math.atan2(d[0], d[1]) * 180) / Math.PI + 360) % 360;
      const sector = Math.floor(bearing / 30);
      // Directions within a hair of a border may fall either way.
      if (Math.abs(bearing / 30 - Math.round(bearing / 30)) < 0.02) continue;
      expect(cell.masked).toBe(sector === 0 || sector === 7);
    }
    expect(masked.some((c) => c.masked)).toBe(true);
  });
});

describe('the static scene', () => {
  it('is as deep as rays find it, and reaches through an open door only', () => {
    const room = {
      ...bareRoom([8, 6, 3]),
      doors: [
        { id: 'door', wall: 'left' as const, fromM: 2.5, widthM: 1, headM: 2.1, openAtStart: false, corridorLx: 100 },
      ],
    };
    const mount = { atM: [4, 3] as [number, number], heightM: 3, turnDeg: 35 };
    for (const open of [false, true]) {
      const { tables } = createStage(room, bareSetup(room, { mount, doors: [{ doorId: 'door', open }] }));
      const toDoor: Vector3 = [-4, 0, -1.6];
      const length = Math.hypot(...toDoor);
      const unit = toDoor.map((x) => x / length) as Vector3;
      const found = sceneDistanceM(tables.surroundings, ...unit);
      // Closed: the wall 4 m away; open: 2 m of corridor behind it, the floor comes later.
      expect(found).toBeCloseTo((open ? 6 : 4) * (length / 4), 9);
      const d: Vector3 = [
        unit[0] * tables.turnCos - unit[1] * tables.turnSin,
        unit[0] * tables.turnSin + unit[1] * tables.turnCos,
        unit[2],
      ];
      expect(Math.abs(bakedDepthM(tables.scene, d) / found - 1)).toBeLessThan(0.02);
    }
  });
});
