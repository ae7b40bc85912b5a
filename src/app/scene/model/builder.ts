/** Collects quads and simple solids into one geometry, with the attributes that the lit materials read. */
import { BufferAttribute, BufferGeometry, Matrix4, Vector3 as V3 } from 'three';
import type { Vector3 } from '../../../engine/types.ts';
import { type AtlasSlot, atlasUv, type FieldAtlas, furnitureSlot } from '../light/fieldAtlas.ts';
import type { Rgb } from './palette.ts';

/** Where a surface takes its lux from. */
export type LightFrom =
  | { kind: 'cube' }
  | { kind: 'corridor' }
  | { kind: 'slot'; slot: AtlasSlot }
  | { kind: 'furniture'; furnitureId: string };

export interface Paint {
  color: Rgb;
  light: LightFrom;
  /** Share of that lux. Below 1 where something the calculation does not know stands in the way (legs under a top). */
  share?: number;
  /** Number of the furniture whose boxes cast no sun edge on this surface (it is their detail); -1 none. */
  own?: number;
  /** Takes the Light Map's colour. */
  map?: boolean;
  /** Wall cut, on outside meshes. */
  cut?: boolean;
}

export const CUBE: LightFrom = { kind: 'cube' };

export interface Builder {
  positions: number[];
  normals: number[];
  colors: number[];
  fields: number[];
  extras: number[];
  indices: number[];
  atlas: FieldAtlas | null;
  /** Applied to every point; set and reset by `placed`. */
  place: Matrix4 | null;
}

export function createBuilder(atlas: FieldAtlas | null): Builder {
  return { positions: [], normals: [], colors: [], fields: [], extras: [], indices: [], atlas, place: null };
}

/** Runs `build` with every point moved by `place` (room metres). */
export function placed(b: Builder, place: Matrix4, build: () => void): void {
  const before = b.place;
  b.place = before ? before.clone().multiply(place) : place;
  build();
  b.place = before;
}

/** A turn about z (radians, counter-clockwise seen from above) and a shift. */
export function turnedAt(x: number, y: number, z: number, turnRad: number): Matrix4 {
  return new Matrix4().makeRotationZ(turnRad).setPosition(x, y, z);
}

const scratch = new V3();

function fieldOf(b: Builder, p: Vector3, n: Vector3, light: LightFrom): [number, number] {
  if (light.kind === 'corridor') return [-2, 0];
  if (light.kind === 'cube' || !b.atlas) return [-1, 0];
  const slot = light.kind === 'slot' ? light.slot : furnitureSlot(b.atlas, light.furnitureId, p, n);
  return slot ? atlasUv(b.atlas, slot, p) : [-1, 0];
}

function vertex(b: Builder, p: Vector3, n: Vector3, paint: Paint, light: LightFrom): void {
  b.positions.push(...p);
  b.normals.push(...n);
  b.colors.push(...paint.color);
  b.fields.push(...fieldOf(b, p, n, light));
  b.extras.push(paint.share ?? 1, paint.own ?? -1, paint.map || paint.cut ? 1 : 0);
}

function moved(b: Builder, p: Vector3): Vector3 {
  if (!b.place) return p;
  scratch.set(p[0], p[1], p[2]).applyMatrix4(b.place);
  return [scratch.x, scratch.y, scratch.z];
}

/** Light for a whole polygon: furniture faces are found once, at its middle, so that no corner falls back alone. */
function settled(b: Builder, corners: Vector3[], n: Vector3, light: LightFrom): LightFrom {
  if (light.kind !== 'furniture' || !b.atlas) return light;
  const mid: Vector3 = [0, 0, 0];
  for (const c of corners) for (let k = 0; k < 3; k++) mid[k]! += c[k]! / corners.length;
  const slot = furnitureSlot(b.atlas, light.furnitureId, mid, n);
  return slot ? { kind: 'slot', slot } : CUBE;
}

/** A flat convex polygon, counter-clockwise seen from its front. `normals` (unplaced) replace the flat one. */
export function polygon(b: Builder, points: Vector3[], paint: Paint, normals?: Vector3[]): void {
  const corners = points.map((p) => moved(b, p));
  const [p0, p1, p2] = corners as [Vector3, Vector3, Vector3];
  const e1 = new V3(p1[0] - p0[0], p1[1] - p0[1], p1[2] - p0[2]);
  const e2 = new V3(p2[0] - p0[0], p2[1] - p0[1], p2[2] - p0[2]);
  const flat = e1.cross(e2).normalize();
  const n: Vector3 = [flat.x, flat.y, flat.z];
  const light = settled(b, corners, n, paint.light);
  const first = b.positions.length / 3;
  corners.forEach((p, i) => {
    vertex(b, p, normals ? rotated(b, normals[i]!) : n, paint, light);
  });
  for (let i = 2; i < corners.length; i++) b.indices.push(first, first + i - 1, first + i);
}

function rotated(b: Builder, n: Vector3): Vector3 {
  if (!b.place) return n;
  scratch.set(n[0], n[1], n[2]).transformDirection(b.place);
  return [scratch.x, scratch.y, scratch.z];
}

export type Side = 'top' | 'bottom' | 'left' | 'right' | 'front' | 'back';

/** An axis-parallel box (before placing). `paintOf` may differ per side; null leaves the side out. */
export function box(b: Builder, min: Vector3, max: Vector3, paintOf: Paint | ((side: Side) => Paint | null)): void {
  const [x0, y0, z0] = min;
  const [x1, y1, z1] = max;
  const faces: [Side, Vector3[]][] = [
    [
      'top',
      [
        [x0, y0, z1],
        [x1, y0, z1],
        [x1, y1, z1],
        [x0, y1, z1],
      ],
    ],
    [
      'bottom',
      [
        [x0, y1, z0],
        [x1, y1, z0],
        [x1, y0, z0],
        [x0, y0, z0],
      ],
    ],
    [
      'left',
      [
        [x0, y1, z0],
        [x0, y0, z0],
        [x0, y0, z1],
        [x0, y1, z1],
      ],
    ],
    [
      'right',
      [
        [x1, y0, z0],
        [x1, y1, z0],
        [x1, y1, z1],
        [x1, y0, z1],
      ],
    ],
    [
      'front',
      [
        [x0, y0, z0],
        [x1, y0, z0],
        [x1, y0, z1],
        [x0, y0, z1],
      ],
    ],
    [
      'back',
      [
        [x1, y1, z0],
        [x0, y1, z0],
        [x0, y1, z1],
        [x1, y1, z1],
      ],
    ],
  ];
  for (const [side, points] of faces) {
    const paint = typeof paintOf === 'function' ? paintOf(side) : paintOf;
    if (paint) polygon(b, points, paint);
  }
}

/** A round solid about the z axis through (x, y): smooth side from radius r0 at z0 to r1 at z1, and its lids. */
export function cone(
  b: Builder,
  at: [x: number, y: number],
  [r0, z0]: [number, number],
  [r1, z1]: [number, number],
  sides: number,
  paint: Paint,
  lids: { top?: Paint; bottom?: Paint } = {},
): void {
  const ring = (r: number, z: number): Vector3[] =>
    Array.from({ length: sides }, (_, i) => {
      const a = (i / sides) * 2 * Math.PI;
      return [at[0] + r * Math.cos(a), at[1] + r * Math.sin(a), z];
    });
  const low = ring(r0, z0);
  const high = ring(r1, z1);
  const slope = (r0 - r1) / Math.max(z1 - z0, 1e-6);
  const out = (p: Vector3): Vector3 => {
    const v = new V3(p[0] - at[0], p[1] - at[1], slope * Math.hypot(p[0] - at[0], p[1] - at[1])).normalize();
    return [v.x, v.y, v.z];
  };
  for (let i = 0; i < sides; i++) {
    const k = (i + 1) % sides;
    const a = low[i]!;
    const c = low[k]!;
    const na = out(r0 > r1 ? a : high[i]!);
    const nc = out(r0 > r1 ? c : high[k]!);
    polygon(b, [a, c, high[k]!, high[i]!], paint, [na, nc, nc, na]);
  }
  if (lids.top) polygon(b, high, lids.top);
  if (lids.bottom) polygon(b, [...low].reverse(), lids.bottom);
}

export function toGeometry(b: Builder): BufferGeometry {
  const geometry = new BufferGeometry();
  const set = (name: string, values: number[], size: number) =>
    geometry.setAttribute(name, new BufferAttribute(new Float32Array(values), size));
  set('position', b.positions, 3);
  set('normal', b.normals, 3);
  set('color', b.colors, 3);
  set('field', b.fields, 2);
  set('extra', b.extras, 3);
  geometry.setIndex(b.indices);
  return geometry;
}
