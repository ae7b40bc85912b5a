import { describe, expect, it } from 'vitest';
import { bakeAngularMap, PX_PER_UNIT, weightM2 } from '../../src/engine/detection/angularMap.ts';
import { WEIGHTS_PER_CHANNEL } from '../../src/engine/detection/lookup.ts';
import { weighBody } from '../../src/engine/detection/raster.ts';
import { createBodyBuffer, NUMBERS_PER_PART, PARTS_PER_BODY, type Vector3 } from '../../src/engine/types.ts';
import { mulberry } from './random.ts';
import { createStage, DOME } from './stage.ts';

type Matrix = [Vector3, Vector3, Vector3];
interface Blob {
  centre: Vector3;
  axes: Matrix;
  kind: number;
}

const dot = (a: Vector3, b: Vector3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector3, b: Vector3): Vector3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a: Vector3): Vector3 => {
  const l = Math.hypot(...a);
  return [a[0] / l, a[1] / l, a[2] / l];
};

/** Distance along a unit ray to the ellipsoid, by scaling it to a unit ball; Infinity when missed. */
function hit(blob: Blob, eye: Vector3, d: Vector3): number {
  const inBall = (v: Vector3): Vector3 => blob.axes.map((a) => dot(v, a) / dot(a, a)) as Vector3;
  const o = inBall([eye[0] - blob.centre[0], eye[1] - blob.centre[1], eye[2] - blob.centre[2]]);
  const e = inBall(d);
  const a = dot(e, e);
  const b = dot(o, e);
  const under = b * b - a * (dot(o, o) - 1);
  if (under < 0) return Number.POSITIVE_INFINITY;
  const t = (-b - Math.sqrt(under)) / a;
  return t > 0 ? t : Number.POSITIVE_INFINITY;
}

function randomBlobs(next: () => number, eye: Vector3): { blobs: Blob[]; middle: Vector3 } {
  const distance = 1.5 + 9 * next();
  const nadir = 0.1 + 1.1 * next();
  const bearing = 2 * Math.PI * next();
  const middle: Vector3 = [
    eye[0] + distance * Math.sin(nadir) * Math.sin(bearing),
    eye[1] + distance * Math.sin(nadir) * Math.cos(bearing),
    eye[2] - distance * Math.cos(nadir),
  ];
  const blobs = Array.from({ length: 2 + Math.floor(5 * next()) }, (_, kind): Blob => {
    const w = unit([next() - 0.5, next() - 0.5, next() - 0.5]);
    const u = unit(cross(w, [next(), next(), 0.3]));
    const v = cross(w, u);
    const size = () => 0.04 + 0.22 * next();
    const scaled = (a: Vector3, s: number): Vector3 => [a[0] * s, a[1] * s, a[2] * s];
    return {
      centre: [middle[0] + 0.6 * (next() - 0.5), middle[1] + 0.6 * (next() - 0.5), middle[2] + 0.6 * (next() - 0.5)],
      axes: [scaled(u, size()), scaled(v, size()), scaled(w, size())],
      kind: kind % 5,
    };
  });
  return { blobs, middle };
}

/** Weights by casting rays through a fine grid of directions; the nearest surface wins. */
function castRays(stage: ReturnType<typeof createStage>, blobs: Blob[], middle: Vector3, reachM: number) {
  const eye = stage.tables.surroundings.eyeM;
  const away = unit([middle[0] - eye[0], middle[1] - eye[1], middle[2] - eye[2]]);
  const right = unit(cross(away, [0, 0, 1]));
  const up = cross(right, away);
  const distance = Math.hypot(middle[0] - eye[0], middle[1] - eye[1], middle[2] - eye[2]);
  const half = Math.tan(Math.asin(Math.min(0.95, reachM / distance)));
  const n = 400;
  const cell = (2 * half) / n;
  const out = new Array<number>(4 * WEIGHTS_PER_CHANNEL).fill(0);
  let scale = 0;
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) {
      const x = (i + 0.5) * cell - half;
      const y = (j + 0.5) * cell - half;
      const d = unit([
        away[0] + x * right[0] + y * up[0],
        away[1] + x * right[1] + y * up[1],
        away[2] + x * right[2] + y * up[2],
      ]);
      let best = Number.POSITIVE_INFINITY;
      let kind = -1;
      for (const blob of blobs) {
        const t = hit(blob, eye, d);
        if (t < best) {
          best = t;
          kind = blob.kind;
        }
      }
      if (kind < 0) continue;
      const solid = (cell * cell) / (1 + x * x + y * y) ** 1.5;
      for (let c = 0; c < 4; c++) {
        const w = weightM2(stage.tables.map, c, d) * solid;
        out[c * WEIGHTS_PER_CHANNEL + kind]! += w;
        scale += Math.abs(w);
      }
    }
  }
  return { out, scale };
}

/** Rows of two thirds of a usual pixel, so that what is compared is the method and not the rows. */
const fineMap = bakeAngularMap(DOME, 3 * PX_PER_UNIT);

describe('a body against the map', () => {
  for (const seed of [11, 12, 13, 14, 15, 16, 17, 18]) {
    it(`weighs ellipsoids as casting 160 000 rays does (seed ${seed})`, () => {
      const next = mulberry(seed);
      const stage = createStage();
      const { blobs, middle } = randomBlobs(next, stage.tables.surroundings.eyeM);
      const buffer = createBodyBuffer(1);
      buffer.count = 1;
      blobs.forEach((blob, p) => {
        buffer.parts.set([...blob.centre, ...blob.axes.flat()], p * NUMBERS_PER_PART);
        buffer.partKind[p] = blob.kind;
      });
      expect(blobs.length).toBeLessThanOrEqual(PARTS_PER_BODY);
      const weights = new Array<number>(4 * WEIGHTS_PER_CHANNEL).fill(0);
      stage.tables.fineness = 1e6;
      stage.tables.map = fineMap;
      weighBody(stage.tables, buffer, 0, [...middle, 0.8], [], 0, weights);
      const cast = castRays(stage, blobs, middle, 0.8);
      expect(cast.scale).toBeGreaterThan(0);
      for (let k = 0; k < weights.length; k++) {
        // Remaining error: both grids' edges, and nearest against bilinear reading of the map.
        expect(Math.abs(weights[k]! - cast.out[k]!) / cast.scale).toBeLessThan(0.01);
      }
    });
  }
});
