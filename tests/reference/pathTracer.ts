/**
 * A slow, unbiased answer to the same question, by another method: paths from the sensor, one random bounce at a time.
 * Own glass and own sums, rays cast at will; shares with the engine only the shape of the sky. For tests.
 */

import type { ReferenceRoom, RoomOpening, RoomSource } from '../../src/cli/roomsFile.ts';
import { skyLuminanceRatio, skyZenithToHorizontal } from '../../src/engine/light/sky/sky.ts';

export type V = [number, number, number];

/** Mulberry32, public domain. */
export function randomFrom(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Hit {
  at: V;
  normal: V;
  reflectance: number;
  opening: RoomOpening | null;
}

/** What a ray from a point in the room along a unit direction meets first. */
export type Cast = (from: V, along: V) => Hit;

const NAMES = [
  ['west', 'east'],
  ['south', 'north'],
  ['floor', 'ceiling'],
] as const;

function inRectangle(o: RoomOpening, p: V, axis: number): boolean {
  for (let k = 0; k < 3; k++) if (k !== axis && (p[k]! < o.min_m[k]! || p[k]! > o.max_m[k]!)) return false;
  return true;
}

/** The hit at `at`: on a box of this reflectance, or (null) on the room's own face across `axis`. */
export function hitAt(room: ReferenceRoom, at: V, axis: number, along: V, boxReflectance: number | null): Hit {
  const normal: V = [0, 0, 0];
  normal[axis] = along[axis]! > 0 ? -1 : 1;
  if (boxReflectance !== null) return { at, normal, reflectance: boxReflectance, opening: null };
  const name = NAMES[axis]![along[axis]! > 0 ? 1 : 0]!;
  const opening = room.openings.find((o) => o.surface === name && inRectangle(o, at, axis)) ?? null;
  const reflectance = opening ? (opening.glass?.insideReflectance ?? 0) : room.reflectance[name];
  return { at, normal, reflectance, opening };
}

/** Every ray against every box, by its three slabs. */
export const slabCast =
  (room: ReferenceRoom): Cast =>
  (p, d) => {
    const perM: V = [1 / d[0], 1 / d[1], 1 / d[2]];
    let t = Infinity;
    let axis = 0;
    for (let k = 0; k < 3; k++) {
      const limit = d[k]! > 0 ? (room.size_m[k]! - p[k]!) * perM[k]! : d[k]! < 0 ? -p[k]! * perM[k]! : Infinity;
      if (limit < t) {
        t = limit;
        axis = k;
      }
    }
    let reflectance: number | null = null;
    for (const box of room.boxes) {
      let near = -Infinity;
      let far = Infinity;
      let nearAxis = 0;
      for (let k = 0; k < 3; k++) {
        const a = (box.min_m[k]! - p[k]!) * perM[k]!;
        const b = (box.max_m[k]! - p[k]!) * perM[k]!;
        if (Math.min(a, b) > near) {
          near = Math.min(a, b);
          nearAxis = k;
        }
        far = Math.min(far, Math.max(a, b));
      }
      if (near < far && near > 1e-7 && near < t) {
        t = near;
        axis = nearAxis;
        reflectance = box.reflectance;
      }
    }
    return hitAt(room, [p[0] + t * d[0], p[1] + t * d[1], p[2] + t * d[2]], axis, d, reflectance);
  };

/** Fresnel, one pane n = 1.526, reflections inside it added up, relative to normal incidence. */
function glassRatio(c: number): number {
  const n = 1.526;
  const pass = (cosine: number) => {
    const inside = Math.sqrt(1 - (1 - cosine * cosine) / (n * n));
    const rs = ((cosine - n * inside) / (cosine + n * inside)) ** 2;
    const rp = ((n * cosine - inside) / (n * cosine + inside)) ** 2;
    return ((1 - rs) / (1 + rs) + (1 - rp) / (1 + rp)) / 2;
  };
  return pass(c) / pass(1);
}

function through(o: RoomOpening, d: V): number {
  if (o.glass === null) return 1;
  const axis =
    o.surface === 'west' || o.surface === 'east' ? 0 : o.surface === 'south' || o.surface === 'north' ? 1 : 2;
  return o.glass.normalTransmittance * glassRatio(Math.abs(d[axis]!));
}

function cosineDirection(n: V, random: () => number): V {
  const r = Math.sqrt(random());
  const phi = 2 * Math.PI * random();
  const z = Math.sqrt(1 - r * r);
  const t: V = Math.abs(n[2]) < 0.9 ? [n[1], -n[0], 0] : [0, n[2], -n[1]];
  const l = Math.sqrt(t[0] * t[0] + t[1] * t[1] + t[2] * t[2]);
  const u: V = [t[0] / l, t[1] / l, t[2] / l];
  const w: V = [n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]];
  const [a, b] = [r * Math.cos(phi), r * Math.sin(phi)];
  return [a * u[0] + b * w[0] + z * n[0], a * u[1] + b * w[1] + z * n[1], a * u[2] + b * w[2] + z * n[2]];
}

function toSun(s: { altitude: number; azimuth: number }): V {
  const a = (s.altitude * Math.PI) / 180;
  const z = (s.azimuth * Math.PI) / 180;
  return [Math.cos(a) * Math.sin(z), Math.cos(a) * Math.cos(z), Math.sin(a)];
}

/** Luminance seen outside along d. */
function outsideOf(room: ReferenceRoom, source: RoomSource): (d: V) => number {
  if (source.kind === 'lamps') return () => 0;
  if (source.kind === 'sun') {
    const e = source.directNormalIlluminance_lx * Math.sin((source.altitude_deg * Math.PI) / 180);
    return (d) => (d[2] < 0 ? (room.groundReflectance * e) / Math.PI : 0);
  }
  const zenith = source.horizontalIlluminance_lx * skyZenithToHorizontal(source.skyType, source.sunAltitude_deg);
  const ground = (room.groundReflectance * source.horizontalIlluminance_lx) / Math.PI;
  const sunZenith = ((90 - source.sunAltitude_deg) * Math.PI) / 180;
  const sunAzimuth = (source.sunAzimuth_deg * Math.PI) / 180;
  return (d) => {
    if (d[2] <= 0) return ground;
    return zenith * skyLuminanceRatio(source.skyType, Math.acos(d[2]), sunZenith, Math.atan2(d[0], d[1]) - sunAzimuth);
  };
}

/** Illuminance straight from sun or lamps at a point. */
function directOf(source: RoomSource, p: V, n: V, random: () => number, cast: Cast): number {
  if (source.kind === 'sun') {
    const d = toSun({ altitude: source.altitude_deg, azimuth: source.azimuth_deg });
    const c = n[0] * d[0] + n[1] * d[1] + n[2] * d[2];
    if (c <= 0) return 0;
    const hit = cast(p, d);
    return hit.opening ? source.directNormalIlluminance_lx * c * through(hit.opening, d) : 0;
  }
  if (source.kind !== 'lamps') return 0;
  let lx = 0;
  for (const lamp of source.lamps) {
    const toLamp = (k: 0 | 1 | 2) => lamp.min_m[k] + (lamp.max_m[k] - lamp.min_m[k]) * random() - p[k];
    const d: V = [toLamp(0), toLamp(1), toLamp(2)];
    const r = Math.sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
    const c = (n[0] * d[0] + n[1] * d[1] + n[2] * d[2]) / r;
    if (c <= 0 || d[2] <= 0) continue;
    const hit = cast(p, [d[0] / r, d[1] / r, d[2] / r]);
    if (Math.hypot(hit.at[0] - p[0], hit.at[1] - p[1], hit.at[2] - p[2]) < r - 1e-4) continue;
    lx += ((lamp.flux_lm / Math.PI) * (d[2] / r) * c) / (r * r);
  }
  return lx;
}

/** Mean of `paths` paths and its relative standard error. */
export function pathTraced(
  room: ReferenceRoom,
  source: RoomSource,
  position: V,
  normal: V,
  paths: number,
  random: () => number,
  cast: Cast = slabCast(room),
): { lx: number; error: number } {
  const outside = outsideOf(room, source);
  let sum = 0;
  let squares = 0;
  for (let path = 0; path < paths; path++) {
    let p = [0, 1, 2].map((k) => position[k]! + 1e-6 * normal[k]!) as V;
    let n = normal;
    let weight = 1;
    let lx = directOf(source, p, n, random, cast);
    for (let bounce = 0; bounce < 60; bounce++) {
      const d = cosineDirection(n, random);
      const hit = cast(p, d);
      if (hit.opening) lx += weight * Math.PI * outside(d) * through(hit.opening, d);
      weight *= hit.reflectance;
      if (weight < 0.1) {
        if (random() > 0.5) break;
        weight *= 2;
      }
      if (weight === 0) break;
      p = [hit.at[0] + 1e-7 * hit.normal[0], hit.at[1] + 1e-7 * hit.normal[1], hit.at[2] + 1e-7 * hit.normal[2]];
      n = hit.normal;
      lx += weight * directOf(source, p, n, random, cast);
    }
    sum += lx;
    squares += lx * lx;
  }
  const mean = sum / paths;
  return { lx: mean, error: Math.sqrt(Math.max(0, squares / paths - mean * mean) / paths) / mean };
}
