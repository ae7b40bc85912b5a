/** A straight look against an axis-parallel box. */
import type { Vector3 } from '../../engine/types.ts';

export interface Solid {
  minM: Vector3;
  maxM: Vector3;
}

/** Whether the ray from `from` along `direction` meets the box. */
export function meets({ minM, maxM }: Solid, from: Vector3, direction: Vector3): boolean {
  let near = 0;
  let far = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 3; k++) {
    const a = (minM[k]! - from[k]!) / direction[k]!;
    const b = (maxM[k]! - from[k]!) / direction[k]!;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return far > near;
}
