/**
 * Lambert's polygon formula on a grid of rectangles: configuration factor of every cell of a plane rectangle from a
 * point with a normal. Neighbours share edges, so an edge costs one cross product and no angle function.
 * Source: Lambert 1760 as in any radiative-transfer text: F = 1/(2 pi) sum over edges of angle * (n . unit(a x b)).
 */
import { acos, PI, sqrt } from '../math.ts';
import { polygonFactor } from './factors.ts';

/** Below this squared sine the series of asin(s)/s is used, its first neglected term is 2e-7. */
const SERIES_MAX_S2 = 0.2;

/** angle / sin(angle) times n . (a x b) for unit vectors a, b. */
function edgeTerm(
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const cx = ay * bz - az * by;
  const cy = az * bx - ax * bz;
  const cz = ax * by - ay * bx;
  const s2 = cx * cx + cy * cy + cz * cz;
  const along = nx * cx + ny * cy + nz * cz;
  const dot = ax * bx + ay * by + az * bz;
  if (dot > 0 && s2 < SERIES_MAX_S2) {
    const series =
      1 + s2 * (1 / 6 + s2 * (3 / 40 + s2 * (5 / 112 + s2 * (35 / 1152 + s2 * (63 / 2816 + s2 * (231 / 13312))))));
    return series * along;
  }
  if (s2 < 1e-24) return 0;
  return (acos(dot > 1 ? 1 : Math.max(dot, -1)) / sqrt(s2)) * along;
}

const corners = new Float64Array(4 * 3);

/** A grid of rectangles in an axis-parallel plane. */
export interface PlaneGrid {
  fixedAxis: number;
  fixedM: number;
  uAxis: number;
  vAxis: number;
  us: Float64Array;
  vs: Float64Array;
  nu: number;
  nv: number;
}

/** Scratch of one call, grown to the largest grid seen: unit vectors to the grid's vertices, their heights, edge sums. */
let unit = new Float64Array(3 * 64);
let height = new Float64Array(64);
let lower = new Float64Array(64);
let upper = new Float64Array(64);

/** The point's normal in the grid's own frame; a mirrored frame only flips the sign, and absolute values are taken. */
const n = { u: 0, v: 0, w: 0 };

/** Unit vectors from (pu, pv), `w` before the plane, to all vertices, and their heights above the point's horizon. */
function lookAtVertices(grid: PlaneGrid, pu: number, pv: number, w: number): void {
  const { nu, nv, us, vs } = grid;
  const columns = nu + 1;
  const vertices = columns * (nv + 1);
  if (height.length < vertices) {
    unit = new Float64Array(vertices * 3);
    height = new Float64Array(vertices);
  }
  if (lower.length < columns) {
    lower = new Float64Array(columns);
    upper = new Float64Array(columns);
  }
  for (let j = 0; j <= nv; j++) {
    const v = vs[j]! - pv;
    for (let i = 0; i <= nu; i++) {
      const u = us[i]! - pu;
      const length = sqrt(u * u + v * v + w * w) + 1e-12;
      const k = j * columns + i;
      unit[k * 3] = u / length;
      unit[k * 3 + 1] = v / length;
      unit[k * 3 + 2] = w / length;
      height[k] = (n.u * u + n.v * v + n.w * w) / length;
    }
  }
}

/** Term of the edge between two vertices (numbers of their first component). */
function edge(a: number, b: number): number {
  return edgeTerm(unit[a]!, unit[a + 1]!, unit[a + 2]!, unit[b]!, unit[b + 1]!, unit[b + 2]!, n.u, n.v, n.w);
}

/** A cell across the point's horizon. */
function clippedFactor(u0: number, u1: number, v0: number, v1: number, w: number): number {
  corners.set([u0, v0, w, u1, v0, w, u1, v1, w, u0, v1, w]);
  return polygonFactor(corners, 0, 0, 0, n.u, n.v, n.w);
}

/**
 * Fills `out[j * nu + i]` with the configuration factor (0-1) of each cell from `point` with unit `normal`.
 * The side of the plane is not looked at: the caller skips planes seen from behind.
 */
export function gridFactors(
  grid: PlaneGrid,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
  out: Float64Array,
): void {
  const { nu, nv, us, vs, fixedAxis, uAxis, vAxis } = grid;
  const pu = uAxis === 0 ? px : py;
  const pv = vAxis === 1 ? py : pz;
  const w = grid.fixedM - (fixedAxis === 0 ? px : fixedAxis === 1 ? py : pz);
  n.u = uAxis === 0 ? nx : ny;
  n.v = vAxis === 1 ? ny : nz;
  n.w = fixedAxis === 0 ? nx : fixedAxis === 1 ? ny : nz;
  lookAtVertices(grid, pu, pv, w);
  const columns = nu + 1;
  for (let i = 0; i < nu; i++) lower[i] = edge(i * 3, (i + 1) * 3);
  for (let j = 0; j < nv; j++) {
    const row = j * columns;
    const next = row + columns;
    for (let i = 0; i < nu; i++) upper[i] = edge((next + i) * 3, (next + i + 1) * 3);
    let left = edge(row * 3, next * 3);
    for (let i = 0; i < nu; i++) {
      const right = edge((row + i + 1) * 3, (next + i + 1) * 3);
      const h0 = height[row + i]!;
      const h1 = height[row + i + 1]!;
      const h2 = height[next + i]!;
      const h3 = height[next + i + 1]!;
      let factor = 0;
      if (Math.min(h0, h1, h2, h3) >= 0) factor = Math.abs(lower[i]! + right - upper[i]! - left) / (2 * PI);
      else if (Math.max(h0, h1, h2, h3) > 1e-9) {
        factor = clippedFactor(us[i]! - pu, us[i + 1]! - pu, vs[j]! - pv, vs[j + 1]! - pv, w);
      }
      out[j * nu + i] = factor;
      left = right;
    }
    const swap = lower;
    lower = upper;
    upper = swap;
  }
}
