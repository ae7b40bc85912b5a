/** Lux of one surface on a fine lattice, smoothed, from edge to edge: what the lines of the Light Map are drawn from. */
import type { FieldFace, LightField } from '../../../engine/light/types.ts';

export interface Lattice {
  /** Points along u and v; the first and last lie on the face's edges. */
  nu: number;
  nv: number;
  /** Lux at point (i, j): values[j * nu + i]. */
  values: Float32Array;
}

/** Most distance between lattice points, m. Assumed: five pixels on the stage; straight pieces of it look curved. */
const STEP_M = 0.05;
/** Spread of the smoothing, m, and in cells where those are coarse. Assumed: takes the ray noise and the corners of the
 *  0.3 m elements out of a line and moves it by less than a hand's width. */
const SMOOTH_M = 0.14;
const SMOOTH_CELLS = 0.6;
/** Reach of the smoothing in spreads. Beyond it lies 0.3 % of its weight. */
const REACH = 3;

/** Weights of the cells at one lattice point: `from` the first cell. */
interface Tap {
  from: number;
  weights: number[];
}

/** Gaussian weights of cell centres along one axis. Beyond the edges values run on straight, so that nothing bends there. */
function taps(cells: number, lengthM: number): Tap[] {
  const cellM = lengthM / cells;
  const spread = Math.max(SMOOTH_M / cellM, SMOOTH_CELLS);
  const points = Math.max(1, Math.ceil(lengthM / STEP_M)) + 1;
  return Array.from({ length: points }, (_, p) => {
    const at = (p / (points - 1)) * cells - 0.5;
    const dense = new Map<number, number>();
    const add = (cell: number, weight: number) => dense.set(cell, (dense.get(cell) ?? 0) + weight);
    let sum = 0;
    for (let k = Math.ceil(at - REACH * spread); k <= at + REACH * spread; k++) {
      const weight = Math.exp(-0.5 * ((k - at) / spread) ** 2);
      const edge = Math.min(Math.max(k, 0), cells - 1);
      const inside = Math.min(Math.max(2 * edge - k, 0), cells - 1);
      sum += weight;
      if (edge === k) add(k, weight);
      else {
        add(edge, 2 * weight);
        add(inside, -weight);
      }
    }
    const from = Math.min(...dense.keys());
    const to = Math.max(...dense.keys());
    return { from, weights: Array.from({ length: to - from + 1 }, (_, k) => (dense.get(from + k) ?? 0) / sum) };
  });
}

/** Lux of the face's cells, all sources at the lamps' levels. */
export function totalLux(field: LightField, face: FieldFace, lamps: { inner: number; window: number }): Float32Array {
  const { daylightLx, innerRowLx, windowRowLx, doorLx } = field;
  const out = new Float32Array(face.nu * face.nv);
  for (let k = 0, c = face.offset; k < out.length; k++, c++)
    out[k] = daylightLx[c]! + innerRowLx[c]! * lamps.inner + windowRowLx[c]! * lamps.window + doorLx[c]!;
  return out;
}

/** `cells` holds nu x nv values of the face's cells. Nothing beyond the face is read. */
export function smoothLattice(face: FieldFace, cells: Float32Array): Lattice {
  const across = taps(face.nu, Math.hypot(...face.uM));
  const along = taps(face.nv, Math.hypot(...face.vM));
  const [nu, nv] = [across.length, along.length];
  const rows = new Float32Array(nu * face.nv);
  for (let j = 0; j < face.nv; j++) {
    for (let i = 0; i < nu; i++) {
      const { from, weights } = across[i]!;
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * cells[j * face.nu + from + k]!;
      rows[j * nu + i] = sum;
    }
  }
  const values = new Float32Array(nu * nv);
  for (let j = 0; j < nv; j++) {
    const { from, weights } = along[j]!;
    for (let k = 0; k < weights.length; k++) {
      const row = (from + k) * nu;
      for (let i = 0; i < nu; i++) values[j * nu + i]! += weights[k]! * rows[row + i]!;
    }
  }
  return { nu, nv, values };
}
