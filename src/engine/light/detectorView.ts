/**
 * What a photometer looks at: luminance over its half-space. The picture is the disc of directions seen along the axis,
 * so that equal areas of it weigh equally (a cosine receiver); inside the cone of the photometer the mean of the picture
 * times pi is its reading.
 */
import { PI, sin, sqrt } from '../math.ts';
import type { Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';
import { type DetectorView, VIEW_PX, type ViewOutline } from './detectorParts.ts';
import type { DaylitRoom } from './detectorShares.ts';
import { isDeskTop } from './detectorShares.ts';
import { lampIntensity } from './lamps.ts';
import { openingRatio, outsideBin, REVEAL_BIN } from './outside.ts';
import type { SensorPart } from './parts.ts';
import { blindExitance } from './parts.ts';
import type { SceneLamp } from './scene.ts';
import { hit, traceElement } from './trace.ts';
import type { LightTables } from './types.ts';

/** Axes of the picture in the room: along the line of sight, to the right, up. */
interface Axes {
  n: Vector3;
  right: Vector3;
  up: Vector3;
}

/** Where each pixel's line of sight ends: an element, and through glass the bin, row and weight of what lies behind. */
interface Sight {
  element: Int32Array;
  bin: Int16Array;
  row: Int16Array;
  weight: Float32Array;
  /** Lamp before it, group x 64 + number, or -1; candela per m2 of it at full light. */
  lamp: Int16Array;
  lampCdM2: Float32Array;
  outlines: ViewOutline[];
}

const sightOf = new WeakMap<SensorPart, Sight>();

function cross(a: Vector3, b: Vector3): Vector3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** Up is the way the photometer leans, so that the far wall lies at the top. */
function axesOf(n: Vector3): Axes {
  const lean: Vector3 = [-n[0] * n[2], -n[1] * n[2], 1 - n[2] * n[2]];
  const length = sqrt(lean[0] * lean[0] + lean[1] * lean[1] + lean[2] * lean[2]);
  const up: Vector3 = length > 1e-6 ? [lean[0] / length, lean[1] / length, lean[2] / length] : [0, 1, 0];
  return { n, right: cross(n, up), up };
}

/** Calls `look` for every pixel of the disc with its number and direction. */
function eachPixel({ n, right, up }: Axes, look: (pixel: number, x: number, y: number, z: number) => void): void {
  for (let j = 0; j < VIEW_PX; j++) {
    const b = 1 - ((j + 0.5) / VIEW_PX) * 2;
    for (let i = 0; i < VIEW_PX; i++) {
      const a = ((i + 0.5) / VIEW_PX) * 2 - 1;
      const r2 = a * a + b * b;
      if (r2 >= 0.999) continue;
      const along = sqrt(1 - r2);
      look(
        j * VIEW_PX + i,
        n[0] * along + right[0] * a + up[0] * b,
        n[1] * along + right[1] * a + up[1] * b,
        n[2] * along + right[2] * a + up[2] * b,
      );
    }
  }
}

function lampLuminance(lamp: SceneLamp, z: number): number {
  const area = lamp.sizeM[0] * lamp.sizeM[1];
  // Looking up at it its lower side shines, looking down its upper side, a Lambert source.
  if (z > 0) return (lamp.downLm * lampIntensity(lamp.distribution, z)) / (area * z);
  return lamp.upLm / (PI * area);
}

/** Lamps nearer than `farM` on a line of sight; writes the nearest into the sight. */
function lookForLamps(
  tables: LightTables,
  sight: Sight,
  pixel: number,
  p: Vector3,
  [x, y, z]: Vector3,
  far: number,
): void {
  let nearest = far;
  tables.scene.lampGroups.forEach((lamps, group) => {
    lamps.forEach((lamp, k) => {
      const t = (lamp.centreM[2] - p[2]) / z;
      if (!(t > 1e-3 && t < nearest)) return;
      if (Math.abs(p[0] + x * t - lamp.centreM[0]) > lamp.sizeM[0] / 2) return;
      if (Math.abs(p[1] + y * t - lamp.centreM[1]) > lamp.sizeM[1] / 2) return;
      nearest = t;
      sight.lamp[pixel] = group * 64 + k;
      sight.lampCdM2[pixel] = lampLuminance(lamp, z);
    });
  });
}

function lookThroughGlass(tables: LightTables, sight: Sight, pixel: number, index: number, d: Vector3): void {
  const { geometry } = tables.parts;
  const opening = tables.scene.openings[index]!;
  const g = geometry.cells.grids.find((grid) => grid.opening === index)!;
  const { fixedAxis, uAxis, vAxis, us, vs, nu, nv } = g.grid;
  const at = [hit.x, hit.y, hit.z];
  const depth = Math.abs(d[fixedAxis]!);
  const share = (at[vAxis]! - vs[0]!) / (vs[nv]! - vs[0]!);
  const u = at[uAxis]! + (d[uAxis]! * opening.revealM) / depth;
  const v = at[vAxis]! + (d[vAxis]! * opening.revealM) / depth;
  const inReveal = opening.revealM > 0 && (u < us[0]! || u > us[nu]! || v < vs[0]! || v > vs[nv]!);
  sight.row[pixel] = g.firstRow + Math.min(nv - 1, Math.max(0, Math.floor(share * nv)));
  sight.bin[pixel] = inReveal ? REVEAL_BIN + g.face : outsideBin(geometry.map, g.face, d[0], d[1], d[2]);
  sight.weight[pixel] = openingRatio(opening, depth) * opening.transmittance;
}

function sightFor(tables: LightTables, part: SensorPart): Sight {
  const known = sightOf.get(part);
  if (known) return known;
  const pixels = VIEW_PX * VIEW_PX;
  const { mesh } = tables.parts.geometry;
  const p = part.point;
  const axes = axesOf(part.sensor.normal);
  const sight: Sight = {
    element: new Int32Array(pixels).fill(-1),
    bin: new Int16Array(pixels).fill(-1),
    row: new Int16Array(pixels),
    weight: new Float32Array(pixels),
    lamp: new Int16Array(pixels).fill(-1),
    lampCdM2: new Float32Array(pixels),
    outlines: outlinesOf(tables, part, axes),
  };
  eachPixel(axes, (pixel, x, y, z) => {
    const e = traceElement(mesh, p[0], p[1], p[2], x, y, z);
    sight.element[pixel] = e;
    const index = mesh.opening[e]!;
    const far = sqrt(
      (hit.x - p[0]) * (hit.x - p[0]) + (hit.y - p[1]) * (hit.y - p[1]) + (hit.z - p[2]) * (hit.z - p[2]),
    );
    if (tables.scene.openings[index]?.kind === 'window') lookThroughGlass(tables, sight, pixel, index, [x, y, z]);
    lookForLamps(tables, sight, pixel, p, [x, y, z], far);
  });
  sightOf.set(part, sight);
  return sight;
}

/** Points along each side of an outline: straight lines of the room are curves on the disc. Assumed: 8 look smooth. */
const SIDE_POINTS = 8;

function outline(kind: ViewOutline['kind'], corners: Vector3[], p: Vector3, axes: Axes): ViewOutline | null {
  const points: [number, number][] = [];
  for (let k = 0; k < corners.length; k++) {
    const from = corners[k]!;
    const to = corners[(k + 1) % corners.length]!;
    for (let s = 0; s < SIDE_POINTS; s++) {
      const d = [0, 1, 2].map((c) => from[c]! + ((to[c]! - from[c]!) * s) / SIDE_POINTS - p[c]!) as Vector3;
      const length = sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
      const along = (v: Vector3) => (d[0] * v[0] + d[1] * v[1] + d[2] * v[2]) / length;
      if (along(axes.n) > 0) points.push([along(axes.right), along(axes.up)]);
    }
  }
  return points.length > 2 ? { kind, points } : null;
}

/** Corners of a rectangle with one thin axis, in order round it. */
function rectangle(min: Vector3, max: Vector3): Vector3[] {
  const thin = [0, 1, 2].reduce((a, b) => (max[b]! - min[b]! < max[a]! - min[a]! ? b : a), 0);
  const [u, v] = [0, 1, 2].filter((axis) => axis !== thin) as [number, number];
  const corner = (a: Vector3, b: Vector3): Vector3 => {
    const out: Vector3 = [...min];
    out[u] = a[u]!;
    out[v] = b[v]!;
    return out;
  };
  return [corner(min, min), corner(max, min), corner(max, max), corner(min, max)];
}

function outlinesOf(tables: LightTables, part: SensorPart, axes: Axes): ViewOutline[] {
  const { openings, boxes, lampGroups } = tables.scene;
  const windows = openings.filter((o) => o.kind === 'window').map((o) => ['window', o.minM, o.maxM] as const);
  const desks = boxes
    .filter(isDeskTop)
    .map((b) => ['desk', [b.minM[0], b.minM[1], b.maxM[2]] as Vector3, b.maxM] as const);
  const lamps = lampGroups.flat().map(({ centreM: c, sizeM: s }) => {
    const side = (sign: number): Vector3 => [c[0] + (sign * s[0]) / 2, c[1] + (sign * s[1]) / 2, c[2]];
    return ['lamp', side(-1), side(1)] as const;
  });
  return [...windows, ...desks, ...lamps].flatMap(([kind, min, max]) => {
    const made = outline(kind, rectangle(min, max), part.point, axes);
    return made ? [made] : [];
  });
}

/**
 * The picture of photometer `which` (0 inner, 1 window). `exitance`: light leaving every element, lm/m2, all sources;
 * `levels`: lamps of each row, 0-1. The sun's own disc is left out: no cone of ours points at it.
 */
export function detectorView(
  tables: LightTables,
  day: DaylitRoom | null,
  exitance: Float64Array,
  levels: { inner: number; window: number },
  which: 0 | 1,
): DetectorView {
  const part = tables.parts.sensors[which]!;
  const sight = sightFor(tables, part);
  const { geometry, blinds } = tables.parts;
  const behind = tables.scene.openings.map(() => 0);
  if (day && blinds.anyClosed) {
    for (const g of geometry.cells.grids)
      behind[g.opening] = blindExitance(geometry, tables.scene, day.light, day.bins, g.opening) / PI;
  }
  const luminance = new Float32Array(VIEW_PX * VIEW_PX).fill(-1);
  for (let k = 0; k < luminance.length; k++) {
    const e = sight.element[k]!;
    if (e < 0) continue;
    let cdM2 = exitance[e]! / PI;
    if (day && sight.bin[k]! >= 0) {
      const row = sight.row[k]!;
      const open = blinds.openShare[row]!;
      cdM2 += open * sight.weight[k]! * day.bins[sight.bin[k]!]!;
      cdM2 += (1 - open) * behind[geometry.cells.openingOfRow[row]!]!;
    }
    const lamp = sight.lamp[k]!;
    const level = lamp < 0 ? 0 : lamp < 64 ? levels.inner : levels.window;
    if (level > 0) cdM2 = level * sight.lampCdM2[k]!;
    luminance[k] = cdM2;
  }
  const coneRadius = sin(degToRad(part.sensor.halfAngleDeg ?? 90));
  return { luminance, coneRadius, outlines: sight.outlines };
}
