/** Shapes made of reach outlines and of recorded points. Pure geometry, room metres; for plan, picture and notebook alike. */
import type { PointM } from '../../engine/types.ts';
import { shortestTurnDeg } from '../../engine/units.ts';
import { placeOf } from '../../exercise/reach/polygon.ts';
import type { ReachKind, ReachOutline, ReachRay } from '../../host/messages.ts';

export { inOrder, type OutlineError, outlineError, placeOf, polarOf, rayReachM } from '../../exercise/reach/polygon.ts';

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

/** Whether it is the wall that ends the outline here. */
export function endsAtWall(ray: ReachRay): boolean {
  return ray.halfM !== null && ray.limitM - ray.halfM < 0.11;
}

/** Places where the outline is written at with its metres. */
export function labelsOf(outline: ReachOutline, centreM: PointM): ReachLabel[] {
  return LABELS_AT_DEG[outline.kind].flatMap((wantedDeg) => {
    const apartDeg = (deg: number): number => Math.abs(shortestTurnDeg(deg, wantedDeg));
    const near = outline.rays
      .filter((ray) => ray.halfM !== null && apartDeg(ray.bearingDeg) < 45)
      .sort((a, b) => apartDeg(a.bearingDeg) - apartDeg(b.bearingDeg));
    const ray = near[0];
    if (!ray || ray.halfM === null) return [];
    return [{ atM: placeOf(centreM, ray.bearingDeg, ray.halfM), metres: ray.halfM, wall: endsAtWall(ray) }];
  });
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
