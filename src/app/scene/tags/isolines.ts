/** Where the isolines of the Light Map carry their numbers. Pure: field and levels in, places out. */
import type { FieldFace, LightField } from '../../../engine/light/types.ts';
import type { PointM } from '../../../engine/types.ts';

export interface IsolineMark {
  lux: number;
  atM: PointM;
}

/** Total lux of a face's cells at the lamps' levels, smoothed as the drawn lines are (cubic B-spline at cell centres). */
export function smoothLux(field: LightField, face: FieldFace, lamps: { inner: number; window: number }): Float32Array {
  const { nu, nv, offset } = face;
  const raw = new Float32Array(nu * nv);
  for (let k = 0; k < raw.length; k++) {
    const c = offset + k;
    raw[k] =
      field.daylightLx[c]! +
      field.innerRowLx[c]! * lamps.inner +
      field.windowRowLx[c]! * lamps.window +
      field.doorLx[c]!;
  }
  const out = new Float32Array(nu * nv);
  const tap = (i: number, j: number) => raw[Math.min(Math.max(j, 0), nv - 1) * nu + Math.min(Math.max(i, 0), nu - 1)]!;
  for (let j = 0; j < nv; j++) {
    for (let i = 0; i < nu; i++) {
      let sum = 0;
      for (let dj = -1; dj <= 1; dj++) {
        for (let di = -1; di <= 1; di++) sum += tap(i + di, j + dj) * (di === 0 ? 4 : 1) * (dj === 0 ? 4 : 1);
      }
      out[j * nu + i] = sum / 36;
    }
  }
  return out;
}

/** Points where the value passes `level` between neighbouring cell centres, in cells. */
function crossings(values: Float32Array, nu: number, nv: number, level: number): [number, number][] {
  const found: [number, number][] = [];
  const pass = (i: number, j: number, di: number, dj: number) => {
    if (i + di >= nu || j + dj >= nv) return;
    const a = values[j * nu + i]!;
    const b = values[(j + dj) * nu + i + di]!;
    if (a < level === b < level) return;
    const share = (level - a) / (b - a);
    found.push([i + 0.5 + di * share, j + 0.5 + dj * share]);
  };
  for (let j = 0; j < nv; j++) {
    for (let i = 0; i < nu; i++) {
      pass(i, j, 1, 0);
      pass(i, j, 0, 1);
    }
  }
  return found;
}

/**
 * At most one number near each of the wanted places per level, on the floor's own line and not under `covered`.
 * `wanted` in shares of the floor's width and depth.
 */
export function isolineMarks(
  field: LightField,
  lamps: { inner: number; window: number },
  wishes: readonly { lux: number; near: readonly (readonly [number, number])[] }[],
  covered: (at: PointM) => boolean,
): IsolineMark[] {
  const floor = field.faces.find((face) => face.kind === 'floor');
  if (!floor) return [];
  const values = smoothLux(field, floor, lamps);
  const width = Math.hypot(...floor.uM);
  const depth = Math.hypot(...floor.vM);
  const marks: IsolineMark[] = [];
  for (const { lux, near } of wishes) {
    const points = crossings(values, floor.nu, floor.nv, lux)
      .map(([i, j]): PointM => [(i / floor.nu) * width, (j / floor.nv) * depth])
      .filter((at) => !covered(at));
    for (const [sx, sy] of near) {
      const free = points.filter((p) => marks.every((m) => Math.hypot(m.atM[0] - p[0], m.atM[1] - p[1]) > 1));
      if (free.length === 0) continue;
      const away = (p: PointM) => Math.hypot(p[0] - sx * width, p[1] - sy * depth);
      marks.push({ lux, atM: free.reduce((a, b) => (away(b) < away(a) ? b : a)) });
    }
  }
  return marks;
}
