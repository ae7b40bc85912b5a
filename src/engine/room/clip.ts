/** Convex outlines in plan: cut by one another, widened to their hull, measured. Room metres, corners in order. */
import type { PointM } from '../types.ts';

/** Twice the signed area, positive when the corners run counter-clockwise, m2. */
function signed2(outline: readonly PointM[]): number {
  let sum = 0;
  outline.forEach(([x, y], k) => {
    const [nx, ny] = outline[(k + 1) % outline.length]!;
    sum += x * ny - nx * y;
  });
  return sum;
}

export function areaM2(outline: readonly PointM[]): number {
  return Math.abs(signed2(outline)) / 2;
}

/** How far c lies to the left of the way from a to b, times its length. */
function leftOf(a: PointM, b: PointM, c: PointM): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** What two convex outlines share; empty when nothing. Source: Sutherland and Hodgman 1974, one edge after the other. */
export function clipConvex(subject: readonly PointM[], window: readonly PointM[]): PointM[] {
  const around = signed2(window) < 0 ? [...window].reverse() : window;
  let kept = [...subject];
  around.forEach((a, k) => {
    const b = around[(k + 1) % around.length]!;
    const before = kept;
    kept = [];
    before.forEach((p, i) => {
      const q = before[(i + 1) % before.length]!;
      const [lp, lq] = [leftOf(a, b, p), leftOf(a, b, q)];
      if (lp >= 0) kept.push(p);
      if (lp >= 0 === lq >= 0) return;
      const share = lp / (lp - lq);
      kept.push([p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share]);
    });
  });
  return kept.length >= 3 && areaM2(kept) > 1e-6 ? kept : [];
}

/** Convex hull, counter-clockwise. Source: Andrew 1979, monotone chain. */
export function hullOf(points: readonly PointM[]): PointM[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (along: readonly PointM[]): PointM[] => {
    const out: PointM[] = [];
    for (const p of along) {
      while (out.length > 1 && leftOf(out[out.length - 2]!, out[out.length - 1]!, p) <= 0) out.pop();
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...chain(sorted), ...chain([...sorted].reverse())];
}

export function rectangle(x0: number, y0: number, x1: number, y1: number): PointM[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}
