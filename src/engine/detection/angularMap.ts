/**
 * The signed angular map: how much lens area, times sign of the element half, looks in each direction.
 *
 * Every quadrant has the same facets a quarter turn on, so one quadrant is baked and looked up four ways. A facet near
 * a border looks a little over it; the map reaches `margin` beyond u = 0 and v = 0, and a direction there is looked up
 * for more than one channel. Stereographic coordinates (u, v) = (x, y) / (1 - z) need no trigonometry per lookup.
 */
import { exp, PI, sqrt } from '../math.ts';
import type { DetectorModel, Vector3 } from '../types.ts';
import { imageOf, lensFacets } from './lens.ts';
import type { AngularMap, Facet } from './types.ts';

/** Pixels per unit of u: 1152 across the lower half space. Assumed: a pixel is 0.2 degrees straight down and 0.1 at the
 *  horizon, below the blur of 0.27; half as many would move beam edges by a third of the blur. */
export const PX_PER_UNIT = 576;

/** Cells up to this wide are looked up in the level with the same index, rad. Source: blur of a square cell, side / sqrt 12. */
export const LEVEL_CELL_RAD = [0.008, 0.016, 0.032];

/** Edges are followed this many standard deviations out. Assumed: the rest of a Gaussian there is 2e-4. */
const EDGE_SIGMAS = 3.5;

const CDF_STEPS_PER_SIGMA = 256;
const CDF_REACH = 4;
/** Normal distribution function on [-4, 4], by Simpson's rule from 0; error below 1e-9. */
const CDF = (() => {
  const n = CDF_REACH * CDF_STEPS_PER_SIGMA;
  const table = new Float64Array(2 * n + 2);
  const h = 1 / CDF_STEPS_PER_SIGMA;
  const density = (x: number) => exp((-x * x) / 2) / sqrt(2 * PI);
  let sum = 0.5;
  table[n] = sum;
  for (let i = 1; i <= n; i++) {
    const x = (i - 1) * h;
    sum += (h / 6) * (density(x) + 4 * density(x + h / 2) + density(x + h));
    table[n + i] = sum;
    table[n - i] = 1 - sum;
  }
  table[2 * n + 1] = 1;
  return table;
})();

function normalCdf(x: number): number {
  if (x <= -CDF_REACH) return 0;
  if (x >= CDF_REACH) return 1;
  const at = (x + CDF_REACH) * CDF_STEPS_PER_SIGMA;
  const i = Math.floor(at);
  return CDF[i]! + (CDF[i + 1]! - CDF[i]!) * (at - i);
}

interface Bounds {
  minU: number;
  maxU: number;
  minV: number;
  maxV: number;
}

/** Where the softened image of the facet lies in (u, v). */
function footprint(model: DetectorModel, f: Facet, acrossSigmaMm: number, alongSigmaMm: number): Bounds {
  const across = (model.elementSpacingMm + model.elementWidthMm) / 2 + EDGE_SIGMAS * acrossSigmaMm;
  const along = model.elementLengthMm / 2 + EDGE_SIGMAS * alongSigmaMm;
  const bounds = { minU: 2, maxU: -2, minV: 2, maxV: -2 };
  for (let i = 0; i <= 32; i++) {
    const side = Math.floor(i / 8) % 4;
    const t = (i % 8) / 4 - 1;
    const [a, b] = side === 0 ? [t, -1] : side === 1 ? [1, t] : side === 2 ? [-t, 1] : [-1, -t];
    const d = imageOf(model, f, a * across, b * along);
    const u = d[0] / (1 - d[2]);
    const v = d[1] / (1 - d[2]);
    bounds.minU = Math.min(bounds.minU, u);
    bounds.maxU = Math.max(bounds.maxU, u);
    bounds.minV = Math.min(bounds.minV, v);
    bounds.maxV = Math.max(bounds.maxV, v);
  }
  return bounds;
}

function lengthOf(v: Vector3): number {
  return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
}

/** Blur in the element plane: optics and cell as they appear square to the beam, stretched back onto the element. */
function sigmasMm(model: DetectorModel, f: Facet, cellRad: number): [number, number] {
  const cellMm = (cellRad * model.focalLengthMm) / sqrt(12);
  const sigma = sqrt(model.blurMm * model.blurMm + cellMm * cellMm);
  return [sigma / lengthOf(f.widthPerp), sigma / lengthOf(f.lengthPerp)];
}

/** Adds one facet to one level. */
function paint(model: DetectorModel, f: Facet, cellRad: number, map: AngularMap, level: Float32Array): void {
  const [acrossSigma, alongSigma] = sigmasMm(model, f, cellRad);
  const box = footprint(model, f, acrossSigma, alongSigma);
  const { sidePx, pxPerUnit, margin } = map;
  const i0 = Math.max(0, Math.floor((box.minU + margin) * pxPerUnit));
  const i1 = Math.min(sidePx - 1, Math.ceil((box.maxU + margin) * pxPerUnit));
  const j0 = Math.max(0, Math.floor((box.minV + margin) * pxPerUnit));
  const j1 = Math.min(sidePx - 1, Math.ceil((box.maxV + margin) * pxPerUnit));
  const half = model.elementWidthMm / 2 / acrossSigma;
  const centre = model.elementSpacingMm / 2 / acrossSigma;
  const halfLength = model.elementLengthMm / 2 / alongSigma;
  const acrossReach = centre + half + EDGE_SIGMAS;
  const alongReach = halfLength + EDGE_SIGMAS;
  const [ax, ay, az] = f.axis;
  const [wx, wy, wz] = f.widthDual;
  const [lx, ly, lz] = f.lengthDual;
  for (let j = j0; j <= j1; j++) {
    const v = (j + 0.5) / pxPerUnit - margin;
    for (let i = i0; i <= i1; i++) {
      const u = (i + 0.5) / pxPerUnit - margin;
      // The direction times (1 + r2) / 2; its length cancels below.
      const z = (u * u + v * v - 1) / 2;
      const along = u * ax + v * ay + z * az;
      const scale = -model.focalLengthMm / along;
      const a = ((u * wx + v * wy + z * wz) * scale) / acrossSigma;
      const b = ((u * lx + v * ly + z * lz) * scale) / alongSigma;
      if (a > acrossReach || a < -acrossReach || b > alongReach || b < -alongReach) continue;
      const plus = normalCdf(a - centre + half) - normalCdf(a - centre - half);
      const minus = normalCdf(a + centre + half) - normalCdf(a + centre - half);
      const lengthwise = normalCdf(b + halfLength) - normalCdf(b - halfLength);
      level[j * sidePx + i]! += f.openingM2 * lengthwise * (plus - minus);
    }
  }
}

/** Pure function of the model. Each level is the map seen through a cell of LEVEL_CELL_RAD times 0.7 (its middle). */
export function bakeAngularMap(model: DetectorModel, onProgress?: (share: number) => void): AngularMap {
  const facets = lensFacets(model).filter((f) => f.channel === 0);
  const widest = LEVEL_CELL_RAD[LEVEL_CELL_RAD.length - 1]!;
  let margin = 0;
  for (const f of facets) {
    const box = footprint(model, f, ...sigmasMm(model, f, widest * 0.7));
    margin = Math.max(margin, -box.minU, -box.minV);
  }
  const marginPx = Math.ceil(margin * PX_PER_UNIT) + 1;
  const sidePx = PX_PER_UNIT + marginPx;
  const map: AngularMap = { sidePx, pxPerUnit: PX_PER_UNIT, margin: marginPx / PX_PER_UNIT, levels: [] };
  LEVEL_CELL_RAD.forEach((cellRad, index) => {
    const level = new Float32Array(sidePx * sidePx);
    for (const f of facets) paint(model, f, cellRad * 0.7, map, level);
    map.levels.push(level);
    onProgress?.((index + 1) / LEVEL_CELL_RAD.length);
  });
  return map;
}

/** Signed area that channel `channel` looks with into direction `d` (unit, detector frame), m2; bilinear, sharpest level. */
export function weightM2(map: AngularMap, channel: number, d: Vector3): number {
  if (d[2] >= 0) return 0;
  const u = d[0] / (1 - d[2]);
  const v = d[1] / (1 - d[2]);
  const [qu, qv] = channel === 0 ? [u, v] : channel === 1 ? [-v, u] : channel === 2 ? [-u, -v] : [v, -u];
  const x = (qu + map.margin) * map.pxPerUnit - 0.5;
  const y = (qv + map.margin) * map.pxPerUnit - 0.5;
  const i = Math.floor(x);
  const j = Math.floor(y);
  if (i < 0 || j < 0 || i + 1 >= map.sidePx || j + 1 >= map.sidePx) return 0;
  const level = map.levels[0]!;
  const k = j * map.sidePx + i;
  const fx = x - i;
  const lower = level[k]! + (level[k + 1]! - level[k]!) * fx;
  const upper = level[k + map.sidePx]! + (level[k + map.sidePx + 1]! - level[k + map.sidePx]!) * fx;
  return lower + (upper - lower) * (y - j);
}
