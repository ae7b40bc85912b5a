/** Lines as flat strips for `lineMaterial`: two vertices a point, one on each side. */
import { BufferAttribute, BufferGeometry } from 'three';
import type { Vector3 } from '../../../engine/types.ts';
import type { LightLine } from './lightLines.ts';

/** Dash and gap of the setpoint's line, m. Assumed: about 26 and 10 px on the stage, long enough to be no dotted line. */
export const DASH_M = 0.26;
export const DASH_EVERY_M = 0.36;

/** Direction of the line at point k, in the plane, of length 1. */
function tangent(points: readonly Vector3[], k: number): [number, number] {
  const last = points.length - 1;
  const round = points[0]![0] === points[last]![0] && points[0]![1] === points[last]![1];
  const before = points[k > 0 ? k - 1 : round ? last - 1 : 0]!;
  const after = points[k < last ? k + 1 : round ? 1 : last]!;
  const [x, y] = [after[0] - before[0], after[1] - before[1]];
  const length = Math.hypot(x, y) || 1;
  return [x / length, y / length];
}

/** Way along the line to each of its points, m, stretched where it is closed so that the last dash meets the first. */
function wayAlong(points: readonly Vector3[]): number[] {
  const way = [0];
  for (let k = 1; k < points.length; k++)
    way.push(way[k - 1]! + Math.hypot(points[k]![0] - points[k - 1]![0], points[k]![1] - points[k - 1]![1]));
  const [first, last] = [points[0]!, points.at(-1)!];
  if (first[0] !== last[0] || first[1] !== last[1]) return way;
  const total = way.at(-1)!;
  const stretch = (Math.max(1, Math.round(total / DASH_EVERY_M)) * DASH_EVERY_M) / total;
  return way.map((m) => m * stretch);
}

/** Attributes: `position`; `along` unit vector in the plane; `line` = side, way m, lux, lux of the sun; `own`. */
export function lineGeometry(lines: readonly LightLine[]): BufferGeometry {
  const count = lines.reduce((sum, { points }) => sum + points.length, 0) * 2;
  const position = new Float32Array(count * 3);
  const along = new Float32Array(count * 2);
  const line = new Float32Array(count * 4);
  const own = new Float32Array(count);
  const index: number[] = [];
  let at = 0;
  for (const { points, lux, sunLx, own: owner } of lines) {
    const way = wayAlong(points);
    points.forEach((p, k) => {
      const direction = tangent(points, k);
      for (const side of [-1, 1]) {
        position.set(p, at * 3);
        along.set(direction, at * 2);
        line.set([side, way[k]!, lux, sunLx], at * 4);
        own[at] = owner;
        at++;
      }
      if (k > 0) index.push(at - 4, at - 3, at - 2, at - 2, at - 3, at - 1);
    });
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(position, 3));
  geometry.setAttribute('along', new BufferAttribute(along, 2));
  geometry.setAttribute('line', new BufferAttribute(line, 4));
  geometry.setAttribute('own', new BufferAttribute(own, 1));
  geometry.setIndex(index);
  return geometry;
}
