/** An outline drawn by hand, held against a computed one. Room metres, bearings clockwise from +y. */
import { atan2, cos, hypot2, PI, sin } from '../../engine/math.ts';
import type { DetectorMount, PointM } from '../../engine/types.ts';
import { degToRad, wrapDeg } from '../../engine/units.ts';
import type { ReachRay } from './types.ts';

export function placeOf(centreM: PointM, bearingDeg: number, radiusM: number): PointM {
  const rad = degToRad(bearingDeg);
  return [centreM[0] + radiusM * sin(rad), centreM[1] + radiusM * cos(rad)];
}

/** Bearing, deg from 0 to 360 clockwise from +y, and distance of a place from a centre. */
export function polarOf(centreM: PointM, atM: PointM): { bearingDeg: number; radiusM: number } {
  const [dx, dy] = [atM[0] - centreM[0], atM[1] - centreM[1]];
  return { bearingDeg: wrapDeg((atan2(dx, dy) * 180) / PI), radiusM: hypot2(dx, dy) };
}

/** Width of a sector of the clips, deg. Source: the product's own twelve. */
export const SECTOR_DEG = 30;

/** The sector in which the detector has a place, 0 to 11. */
export function sectorOf({ atM, turnDeg }: Pick<DetectorMount, 'atM' | 'turnDeg'>, placeM: PointM): number {
  return Math.floor(wrapDeg(polarOf(atM, placeM).bearingDeg - turnDeg) / SECTOR_DEG);
}

/** Edge points in order round the detector: the learner's outline. */
export function inOrder(points: readonly PointM[], centreM: PointM): PointM[] {
  return [...points].sort((a, b) => polarOf(centreM, a).bearingDeg - polarOf(centreM, b).bearingDeg);
}

/** Distance from the centre to where a ray leaves a polygon for the last time, m; null: it never meets it. */
export function rayReachM(polygon: readonly PointM[], centreM: PointM, bearingDeg: number): number | null {
  const [ux, uy] = placeOf([0, 0], bearingDeg, 1);
  let far: number | null = null;
  for (let i = 0; i < polygon.length; i++) {
    const [a, b] = [polygon[i]!, polygon[(i + 1) % polygon.length]!];
    const [ax, ay] = [a[0] - centreM[0], a[1] - centreM[1]];
    const [ex, ey] = [b[0] - a[0], b[1] - a[1]];
    const cross = ux * ey - uy * ex;
    if (Math.abs(cross) < 1e-12) continue;
    const along = (ax * ey - ay * ex) / cross;
    const share = (ax * uy - ay * ux) / cross;
    if (along > 0 && share >= 0 && share <= 1) far = Math.max(far ?? 0, along);
  }
  return far;
}

export interface OutlineError {
  meanM: number;
  /** Directions in which the learner's outline says something, and all. */
  directions: number;
  all: number;
}

/**
 * How far the learner's outline is from the computed one: mean of the distances along the directions of the latter.
 * A direction that the learner's outline does not reach says nothing. Null: fewer than three points, or none meets.
 */
export function outlineError(
  polygon: readonly PointM[],
  centreM: PointM,
  rays: readonly ReachRay[],
): OutlineError | null {
  if (polygon.length < 3) return null;
  let sumM = 0;
  let directions = 0;
  for (const ray of rays) {
    const mineM = rayReachM(polygon, centreM, ray.bearingDeg);
    if (mineM === null) continue;
    sumM += Math.abs(mineM - (ray.halfM ?? 0));
    directions++;
  }
  return directions === 0 ? null : { meanM: sumM / directions, directions, all: rays.length };
}
