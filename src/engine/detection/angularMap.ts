/**
 * The signed angular map: how much lens area, times sign of the element half, looks in each direction.
 *
 * Every quadrant has the same facets a quarter turn on, so one quadrant is baked and used four ways. The map lies on a
 * plane square to the quadrant's middle direction, a picture as a pinhole camera takes it: ellipsoids are outlined
 * there by true ellipses, and sums along the rows of the plane make the integral over a span two look-ups.
 */
import { cos, exp, PI, sin, sqrt } from '../math.ts';
import type { DetectorModel, Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';
import { CHANNELS, imageOf, lensFacets } from './lens.ts';
import type { AngularMap, ChannelFrame, Facet } from './types.ts';

/** Pixels per unit of the plane (tangent of the angle off its middle). Assumed: a pixel is 0.18 degrees in the middle
 *  and 0.14 in the outermost ring, below the blur of 0.27; half as many would move beam edges by a third of the blur. */
export const PX_PER_UNIT = 320;

/** Heights of the rows that are summed beforehand, pixels. Assumed: half a degree; rows of 4 pixels make peaks within 2 m
 *  of the detector wrong by up to 3 %, finer ones cost more. */
export const ROW_HEIGHTS_PX = [2, 3];

/** Tilt of the plane's middle direction from straight down, degrees. Assumed: midway between what a lens sees below it
 *  (0) and at the horizon's edge (85), so that neither corner is stretched more than fourfold. */
const PLANE_TILT_DEG = 50;
/** The plane reaches this far, tangents. Assumed: 63 degrees, beyond the corners of any quadrant that ends at 85. */
const PLANE_REACH = 2;

/** Across, up and away of the plane of a channel, three numbers each, in the detector frame; across is level. */
export function planeFrame(channel: number): Float64Array {
  const tilt = degToRad(PLANE_TILT_DEG);
  const half = sqrt(0.5);
  const rows = [
    half,
    -half,
    0,
    cos(tilt) * half,
    cos(tilt) * half,
    sin(tilt),
    sin(tilt) * half,
    sin(tilt) * half,
    -cos(tilt),
  ];
  const frame = Float64Array.from(rows);
  for (let k = 0; k < 9; k += 3) {
    for (let turn = 0; turn < channel; turn++) {
      const x = frame[k]!;
      frame[k] = frame[k + 1]!;
      frame[k + 1] = -x;
    }
  }
  return frame;
}

/** Planes of the channels, as the room and as the detector measure them. */
export function channelFrames(turnSin: number, turnCos: number): ChannelFrame[] {
  return Array.from({ length: CHANNELS }, (_, channel) => {
    const lens = planeFrame(channel);
    const room = Float64Array.from(lens);
    for (let k = 0; k < 9; k += 3) {
      room[k] = lens[k]! * turnCos + lens[k + 1]! * turnSin;
      room[k + 1] = lens[k + 1]! * turnCos - lens[k]! * turnSin;
    }
    return { room, lens };
  });
}

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
  minX: number;
  maxX: number;
  minY: number;
  maxY: number;
  /** How far it looks over the borders of its quadrant: largest -x, -y of a direction. */
  overlap: number;
}

const frame0 = planeFrame(0);

/** Where the softened image of the facet lies on the plane. */
function footprint(model: DetectorModel, f: Facet): Bounds {
  const [acrossSigmaMm, alongSigmaMm] = sigmasMm(model, f);
  const across = (model.elementSpacingMm + model.elementWidthMm) / 2 + EDGE_SIGMAS * acrossSigmaMm;
  const along = model.elementLengthMm / 2 + EDGE_SIGMAS * alongSigmaMm;
  const bounds = { minX: PLANE_REACH, maxX: -PLANE_REACH, minY: PLANE_REACH, maxY: -PLANE_REACH, overlap: 0 };
  for (let i = 0; i < 32; i++) {
    const side = Math.floor(i / 8);
    const t = (i % 8) / 4 - 1;
    const [a, b] = side === 0 ? [t, -1] : side === 1 ? [1, t] : side === 2 ? [-t, 1] : [-1, -t];
    const d = imageOf(model, f, a * across, b * along);
    bounds.overlap = Math.max(bounds.overlap, -d[0], -d[1]);
    const away = planeDot(d, 6);
    if (away < 0.2) continue;
    const x = Math.max(-PLANE_REACH, Math.min(PLANE_REACH, planeDot(d, 0) / away));
    const y = Math.max(-PLANE_REACH, Math.min(PLANE_REACH, planeDot(d, 3) / away));
    bounds.minX = Math.min(bounds.minX, x);
    bounds.maxX = Math.max(bounds.maxX, x);
    bounds.minY = Math.min(bounds.minY, y);
    bounds.maxY = Math.max(bounds.maxY, y);
  }
  return bounds;
}

function planeDot(d: Vector3, row: number): number {
  return frame0[row]! * d[0] + frame0[row + 1]! * d[1] + frame0[row + 2]! * d[2];
}

function lengthOf(v: Vector3): number {
  return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
}

/** Blur in the element plane: the optics as they appear square to the beam, stretched back onto the element. */
function sigmasMm(model: DetectorModel, f: Facet): [number, number] {
  const sigma = Math.max(model.blurMm, 1e-3);
  return [sigma / lengthOf(f.widthPerp), sigma / lengthOf(f.lengthPerp)];
}

/** A vector's parts along across, up and away of the plane. */
function inPlane(v: Vector3): Vector3 {
  return [planeDot(v, 0), planeDot(v, 3), planeDot(v, 6)];
}

/** Adds one facet to the map. */
function paint(model: DetectorModel, f: Facet, box: Bounds, map: AngularMap): void {
  const [acrossSigma, alongSigma] = sigmasMm(model, f);
  const { widthPx, heightPx, pxPerUnit, leftX, lowY, weightsM2 } = map;
  const i0 = Math.max(0, Math.floor((box.minX - leftX) * pxPerUnit));
  const i1 = Math.min(widthPx - 1, Math.ceil((box.maxX - leftX) * pxPerUnit));
  const j0 = Math.max(0, Math.floor((box.minY - lowY) * pxPerUnit));
  const j1 = Math.min(heightPx - 1, Math.ceil((box.maxY - lowY) * pxPerUnit));
  const half = model.elementWidthMm / 2 / acrossSigma;
  const centre = model.elementSpacingMm / 2 / acrossSigma;
  const halfLength = model.elementLengthMm / 2 / alongSigma;
  const acrossReach = centre + half + EDGE_SIGMAS;
  const alongReach = halfLength + EDGE_SIGMAS;
  const [ax, ay, az] = inPlane(f.axis);
  const [wx, wy, wz] = inPlane(f.widthDual);
  const [lx, ly, lz] = inPlane(f.lengthDual);
  for (let j = j0; j <= j1; j++) {
    const y = (j + 0.5) / pxPerUnit + lowY;
    for (let i = i0; i <= i1; i++) {
      const x = (i + 0.5) / pxPerUnit + leftX;
      // The direction is (x, y, 1); its length cancels below.
      const along = x * ax + y * ay + az;
      if (along <= 0) continue;
      const scale = -model.focalLengthMm / along;
      const a = ((x * wx + y * wy + wz) * scale) / acrossSigma;
      const b = ((x * lx + y * ly + lz) * scale) / alongSigma;
      if (a > acrossReach || a < -acrossReach || b > alongReach || b < -alongReach) continue;
      const plus = normalCdf(a - centre + half) - normalCdf(a - centre - half);
      const minus = normalCdf(a + centre + half) - normalCdf(a + centre - half);
      const lengthwise = normalCdf(b + halfLength) - normalCdf(b - halfLength);
      weightsM2[j * widthPx + i]! += f.openingM2 * lengthwise * (plus - minus);
    }
  }
}

/** Sums from the left edge for rows of `rowPx` pixels; see AngularMap.rowSums. */
function sumRows(map: AngularMap, rowPx: number): Float32Array {
  const { widthPx, heightPx, pxPerUnit, leftX, lowY, weightsM2 } = map;
  const stride = 2 * (widthPx + 2);
  const rows = Math.ceil(heightPx / rowPx);
  const out = new Float32Array(rows * stride);
  const sum = new Float64Array(widthPx);
  const rise = new Float64Array(widthPx);
  // Least squares: the sum of the squared heights of the pixels' middles above the row's is rowPx (rowPx2 - 1) / 12.
  const perSquare = 12 / (rowPx * rowPx - 1);
  for (let r = 0; r < rows; r++) {
    sum.fill(0);
    rise.fill(0);
    for (let j = r * rowPx; j < Math.min(heightPx, (r + 1) * rowPx); j++) {
      const y = (j + 0.5) / pxPerUnit + lowY;
      const up = (j + 0.5 - (r + 0.5) * rowPx) * perSquare;
      for (let i = 0; i < widthPx; i++) {
        const w = weightsM2[j * widthPx + i]!;
        if (w === 0) continue;
        const x = (i + 0.5) / pxPerUnit + leftX;
        const square = 1 + x * x + y * y;
        const solid = w / (square * sqrt(square) * pxPerUnit * pxPerUnit);
        sum[i]! += solid;
        rise[i]! += solid * up;
      }
    }
    let total = 0;
    let totalRise = 0;
    for (let i = 0; i <= widthPx; i++) {
      total += sum[i] ?? 0;
      totalRise += rise[i] ?? 0;
      out[r * stride + 2 * i + 2] = total;
      out[r * stride + 2 * i + 3] = totalRise;
    }
  }
  return out;
}

/** Pure function of the model. `pxPerUnit`: tests compare with finer maps. */
export function bakeAngularMap(model: DetectorModel, pxPerUnit = PX_PER_UNIT): AngularMap {
  const facets = lensFacets(model).filter((f) => f.channel === 0);
  const boxes = facets.map((f) => footprint(model, f));
  const leftX = Math.min(...boxes.map((b) => b.minX));
  const lowY = Math.min(...boxes.map((b) => b.minY));
  const widthPx = Math.ceil((Math.max(...boxes.map((b) => b.maxX)) - leftX) * pxPerUnit) + 1;
  const heightPx = Math.ceil((Math.max(...boxes.map((b) => b.maxY)) - lowY) * pxPerUnit) + 1;
  const weightsM2 = new Float32Array(widthPx * heightPx);
  const overlap = Math.max(...boxes.map((b) => b.overlap));
  const map: AngularMap = { widthPx, heightPx, pxPerUnit, leftX, lowY, overlap, weightsM2, rowSums: [], cells: [] };
  facets.forEach((f, k) => {
    paint(model, f, boxes[k]!, map);
  });
  map.rowSums = ROW_HEIGHTS_PX.map((rowPx) => sumRows(map, rowPx));
  return map;
}

/** Signed area that channel `channel` looks with into direction `d` (unit, detector frame), m2; bilinear. */
export function weightM2(map: AngularMap, channel: number, d: Vector3): number {
  if (d[2] >= 0) return 0;
  const [dx, dy] = d;
  const turned: Vector3 =
    channel === 0 ? d : channel === 1 ? [-dy, dx, d[2]] : channel === 2 ? [-dx, -dy, d[2]] : [dy, -dx, d[2]];
  const away = planeDot(turned, 6);
  if (away <= 0) return 0;
  const x = (planeDot(turned, 0) / away - map.leftX) * map.pxPerUnit - 0.5;
  const y = (planeDot(turned, 3) / away - map.lowY) * map.pxPerUnit - 0.5;
  const i = Math.floor(x);
  const j = Math.floor(y);
  if (i < 0 || j < 0 || i + 1 >= map.widthPx || j + 1 >= map.heightPx) return 0;
  const { weightsM2, widthPx } = map;
  const k = j * widthPx + i;
  const fx = x - i;
  const lower = weightsM2[k]! + (weightsM2[k + 1]! - weightsM2[k]!) * fx;
  const upper = weightsM2[k + widthPx]! + (weightsM2[k + widthPx + 1]! - weightsM2[k + widthPx]!) * fx;
  return lower + (upper - lower) * (y - j);
}
