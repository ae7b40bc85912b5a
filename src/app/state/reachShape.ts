/** Shapes made of reach outlines and of recorded points. Pure geometry, room metres; for plan, picture and notebook alike. */
import type { PointM } from '../../engine/types.ts';
import type { ReachKind, ReachOutline, ReachRay } from '../../host/messages.ts';

/** Dash, gap, dash, gap … along the line, in line widths; told apart without colour. */
export const DASHES: Record<ReachKind, readonly number[]> = {
  across: [5, 2.5],
  toward: [0.9, 2.1],
  seated: [4.5, 2, 0.9, 2],
};

/** Bearings near which an outline is written at, degrees. Assumed: apart from one another, so that no two labels meet
 *  where the outlines run together along a wall. */
const LABELS_AT_DEG: Record<ReachKind, readonly number[]> = {
  across: [65, 245],
  toward: [155, 335],
  seated: [110, 290],
};

export interface ReachLabel {
  atM: PointM;
  metres: number;
  wall: boolean;
}

export function placeOf(centreM: PointM, bearingDeg: number, radiusM: number): PointM {
  const rad = (bearingDeg * Math.PI) / 180;
  return [centreM[0] + radiusM * Math.sin(rad), centreM[1] + radiusM * Math.cos(rad)];
}

/** Bearing, deg from 0 to 360 clockwise from +y, and distance of a place from a centre. */
export function polarOf(centreM: PointM, atM: PointM): { bearingDeg: number; radiusM: number } {
  const [dx, dy] = [atM[0] - centreM[0], atM[1] - centreM[1]];
  return { bearingDeg: ((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360, radiusM: Math.hypot(dx, dy) };
}

function turn(aDeg: number, bDeg: number): number {
  return Math.abs(((((aDeg - bDeg) % 360) + 540) % 360) - 180);
}

/** Whether it is the wall that ends the outline here. */
export function endsAtWall(ray: ReachRay): boolean {
  return ray.halfM !== null && ray.limitM - ray.halfM < 0.11;
}

/** Places where the outline is written at with its metres. */
export function labelsOf(outline: ReachOutline, centreM: PointM): ReachLabel[] {
  return LABELS_AT_DEG[outline.kind].flatMap((wantedDeg) => {
    const near = outline.rays
      .filter((ray) => ray.halfM !== null && turn(ray.bearingDeg, wantedDeg) < 45)
      .sort((a, b) => turn(a.bearingDeg, wantedDeg) - turn(b.bearingDeg, wantedDeg));
    const ray = near[0];
    if (!ray || ray.halfM === null) return [];
    return [{ atM: placeOf(centreM, ray.bearingDeg, ray.halfM), metres: ray.halfM, wall: endsAtWall(ray) }];
  });
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

/** Flat dashes along a line as triangles [x, y, z, …], the pattern running on through its corners. */
export function flatDashes(
  line: readonly number[],
  pattern: readonly number[],
  halfWidthM: number,
  liftM: number,
): number[] {
  const triangles: number[] = [];
  const widthM = 2 * halfWidthM;
  let part = 0;
  let leftM = pattern[0]! * widthM;
  for (let k = 2; k + 1 < line.length; k += 2) {
    const [ax, ay, bx, by] = [line[k - 2]!, line[k - 1]!, line[k]!, line[k + 1]!];
    const length = Math.hypot(bx - ax, by - ay);
    if (length < 1e-6) continue;
    const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
    const corner = (along: number, side: number) =>
      [ax + ux * along - uy * side, ay + uy * along + ux * side, liftM] as const;
    let atM = 0;
    while (atM < length) {
      const stepM = Math.min(leftM, length - atM);
      if (part % 2 === 0) {
        const [p, q] = [corner(atM, -halfWidthM), corner(atM + stepM, -halfWidthM)];
        const [s, t] = [corner(atM + stepM, halfWidthM), corner(atM, halfWidthM)];
        triangles.push(...p, ...q, ...s, ...p, ...s, ...t);
      }
      atM += stepM;
      leftM -= stepM;
      if (leftM > 1e-9) continue;
      part = (part + 1) % pattern.length;
      leftM = pattern[part]! * widthM;
    }
  }
  return triangles;
}
