/** A body from above: each ellipsoid's shadow straight down, as a path. Room metres in, plan px out. */
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../../../engine/types.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';

export interface PartPath {
  part: number;
  /** Height of its middle, m: what lies higher is drawn later. */
  upM: number;
  d: string;
}

/** Least half axis, px: thinner cannot be seen. */
const LEAST_PX = 0.8;

/** Semi-axes and turn of an ellipse whose shape matrix is the sum of its half axes' outer products. */
export function ellipseOf(xx: number, xy: number, yy: number): { a: number; b: number; turnRad: number } {
  const middle = (xx + yy) / 2;
  const spread = Math.hypot((xx - yy) / 2, xy);
  return {
    a: Math.sqrt(middle + spread),
    b: Math.sqrt(Math.max(0, middle - spread)),
    turnRad: Math.atan2(2 * xy, xx - yy) / 2,
  };
}

/** The ellipse as two arcs; `turnRad` from x towards y of the paper. */
export function ellipsePath(x: number, y: number, a: number, b: number, turnRad: number): string {
  const [dx, dy] = [Math.cos(turnRad) * a, Math.sin(turnRad) * a];
  const deg = ((turnRad * 180) / Math.PI).toFixed(1);
  const arc = `A${a.toFixed(1)} ${b.toFixed(1)} ${deg} 1 0`;
  const [x0, y0] = [(x - dx).toFixed(1), (y - dy).toFixed(1)];
  const [x1, y1] = [(x + dx).toFixed(1), (y + dy).toFixed(1)];
  return `M${x0} ${y0}${arc} ${x1} ${y1}${arc} ${x0} ${y0}z`;
}

/** Parts in use, lowest first. `body`: index into the frame's bodies. */
export function partsFromAbove(parts: ArrayLike<number>, body: number, scale: PlanScale): PartPath[] {
  const paths: PartPath[] = [];
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const k = (body * PARTS_PER_BODY + part) * NUMBERS_PER_PART;
    let [xx, xy, yy] = [0, 0, 0];
    for (let axis = k + 3; axis < k + NUMBERS_PER_PART; axis += 3) {
      const [ax, ay] = [parts[axis] ?? 0, parts[axis + 1] ?? 0];
      xx += ax * ax;
      xy += ax * ay;
      yy += ay * ay;
    }
    if (xx + yy === 0) continue;
    const { a, b, turnRad } = ellipseOf(xx, xy, yy);
    const [x, y] = [scale.x(parts[k]!), scale.y(parts[k + 1]!)];
    const px = (m: number) => Math.max(LEAST_PX, m * scale.pxPerM);
    // The paper's y runs down.
    paths.push({ part, upM: parts[k + 2]!, d: ellipsePath(x, y, px(a), px(b), -turnRad) });
  }
  return paths.sort((p, q) => p.upM - q.upM);
}
