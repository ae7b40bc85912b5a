/** Rays through the cone of a directional photometer, drawn in proportion to the cosine to its axis; no chance in them. */
import { cos, PI, sin, sqrt } from '../math.ts';
import type { Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';

/** First two components of the generalised golden ratio sequence in two dimensions. Source: M. Roberts 2018. */
const R2 = [0.7548776662466927, 0.5698402909980532] as const;

export interface Cone {
  axis: Vector3;
  /** Two unit vectors across the axis. */
  t: readonly number[];
  b: readonly number[];
  /** Sine of the half-angle. */
  limit: number;
}

export function coneOf(axis: Vector3, halfAngleDeg: number): Cone {
  const [nx, ny, nz] = axis;
  const [tx, ty, tz] = Math.abs(nz) < 0.9 ? [ny, -nx, 0] : [0, nz, -ny];
  const tl = sqrt(tx * tx + ty * ty + tz * tz);
  const t = [tx / tl, ty / tl, tz / tl];
  const b = [ny * t[2]! - nz * t[1]!, nz * t[0]! - nx * t[2]!, nx * t[1]! - ny * t[0]!];
  return { axis, t, b, limit: sin(degToRad(halfAngleDeg)) };
}

/** Direction of ray `r` (0, 1, …), a unit vector, into `out`. */
export function coneRay({ axis, t, b, limit }: Cone, r: number, out: Float64Array): void {
  const s1 = (r + 1) * R2[0];
  const s2 = (r + 1) * R2[1];
  const radius = limit * sqrt(s1 - Math.floor(s1));
  const phi = 2 * PI * (s2 - Math.floor(s2));
  const along = sqrt(1 - radius * radius);
  const a = radius * cos(phi);
  const d = radius * sin(phi);
  for (let i = 0; i < 3; i++) out[i] = axis[i]! * along + t[i]! * a + b[i]! * d;
}
