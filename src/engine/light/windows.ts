/** Windows as grids of small cells: what every element receives through every cell, and from where. */
import { PI, sqrt } from '../math.ts';
import type { WindowCells } from './cells.ts';
import { gridInFront } from './cells.ts';
import type { Mesh } from './mesh.ts';
import type { DirectionMap } from './outside.ts';
import { openingRatio, outsideBin, REVEAL_BIN } from './outside.ts';
import type { PlaneGrid } from './polygon.ts';
import { gridFactors } from './polygon.ts';
import type { LightScene, SceneOpening } from './scene.ts';
import { isBlocked } from './trace.ts';

/** Element to cell couplings, one line per element. */
export interface WindowCoupling {
  start: Int32Array;
  cell: Uint16Array;
  bin: Uint16Array;
  /** Configuration factor x visibility: lx per lm/m2 of a shining cell (closed blind, open door). */
  factor: Float32Array;
  /** lx per cd/m2 of the bin, without the transmittance at normal incidence. */
  weight: Float32Array;
}

/** What is seen through one cell from a point: up to three parts with their bins, shares of the cell and glass ratios. */
export const seen = { count: 0, bin: new Uint16Array(3), share: new Float64Array(3), ratio: new Float64Array(3) };

/** Share of [low, high] inside [from, to]. */
function overlap(low: number, high: number, from: number, to: number): number {
  return Math.max(0, Math.min(high, to) - Math.max(low, from)) / (high - low);
}

function addSeen(
  map: DirectionMap,
  opening: SceneOpening,
  face: number,
  grid: PlaneGrid,
  du: number,
  dv: number,
  dw: number,
  share: number,
): void {
  const { fixedAxis } = grid;
  const length = sqrt(du * du + dv * dv + dw * dw);
  const x = fixedAxis === 0 ? dw : du;
  const y = fixedAxis === 1 ? dw : fixedAxis === 0 ? du : dv;
  const z = fixedAxis === 2 ? dw : dv;
  const k = seen.count++;
  seen.bin[k] = outsideBin(map, face, x / length, y / length, z / length);
  seen.share[k] = share;
  seen.ratio[k] = openingRatio(opening, Math.abs(dw) / length);
}

/**
 * Looks from (px, py, pz) through cell (i, j) of an opening's grid, into `seen`. A cell across the horizon is shared
 * between sky and ground, one across the edge of the reveal between outside and reveal: counted whole on one side by
 * its centre, cells err the same way again and again where elements and cells have a common step (2 to 4 % of a
 * window's light in a trial).
 */
export function lookThroughCell(
  map: DirectionMap,
  opening: SceneOpening,
  face: number,
  grid: PlaneGrid,
  i: number,
  j: number,
  px: number,
  py: number,
  pz: number,
): void {
  const { fixedAxis, uAxis, vAxis, us, vs, nu, nv } = grid;
  const pu = uAxis === 0 ? px : py;
  const pv = vAxis === 1 ? py : pz;
  const dw = grid.fixedM - (fixedAxis === 0 ? px : fixedAxis === 1 ? py : pz);
  const u0 = us[i]!;
  const u1 = us[i + 1]!;
  const v0 = vs[j]!;
  const v1 = vs[j + 1]!;
  const du = (u0 + u1) / 2 - pu;
  const dv = (v0 + v1) / 2 - pv;
  seen.count = 0;
  let clear = 1;
  if (opening.revealM > 0) {
    // A line leaves the reveal inside its outer edge e when u + (u - pu) t <= e, t = reveal / distance.
    const t = opening.revealM / Math.max(Math.abs(dw), 1e-6);
    clear =
      overlap(u0, u1, (us[0]! + pu * t) / (1 + t), (us[nu]! + pu * t) / (1 + t)) *
      overlap(v0, v1, (vs[0]! + pv * t) / (1 + t), (vs[nv]! + pv * t) / (1 + t));
  }
  if (clear > 0) {
    const above = vAxis === 2 ? overlap(v0, v1, pz, Infinity) : 1;
    if (above > 0 && above < 1) {
      addSeen(map, opening, face, grid, du, (v1 - pz) / 2, dw, clear * above);
      addSeen(map, opening, face, grid, du, (v0 - pz) / 2, dw, clear * (1 - above));
    } else {
      addSeen(map, opening, face, grid, du, dv, dw, clear);
    }
  }
  if (clear < 1) {
    addSeen(map, opening, face, grid, du, dv, dw, 1 - clear);
    seen.bin[seen.count - 1] = REVEAL_BIN + face;
  }
}

/** Direct coupling of every element with every cell of the given openings. */
export function coupleElements(mesh: Mesh, scene: LightScene, cells: WindowCells, map: DirectionMap): WindowCoupling {
  // Cells on the horizon or on the edge of a reveal are entered more than once.
  const lines = cells.grids.reduce((sum, g) => sum + g.grid.nu * g.grid.nv + 3 * g.grid.nu + 2 * g.grid.nv, 0);
  const capacity = Math.max(1, mesh.count * lines);
  const cell = new Uint16Array(capacity);
  const bin = new Uint16Array(capacity);
  const factor = new Float32Array(capacity);
  const weight = new Float32Array(capacity);
  const start = new Int32Array(mesh.count + 1);
  const largest = cells.grids.reduce((most, g) => Math.max(most, g.grid.nu * g.grid.nv), 1);
  const factors = new Float64Array(largest);
  const normal = [0, 0, 0];
  let used = 0;
  for (let e = 0; e < mesh.count; e++) {
    start[e] = used;
    if (mesh.areaM2[e]! === 0) continue;
    const s = mesh.surfaces[mesh.surfaceOf[e]!]!;
    normal.fill(0);
    normal[s.fixedAxis] = s.sign;
    const px = mesh.centre[e * 3]!;
    const py = mesh.centre[e * 3 + 1]!;
    const pz = mesh.centre[e * 3 + 2]!;
    for (const g of cells.grids) {
      if (s.face === g.face || !gridInFront(g.grid, px, py, pz, normal[0]!, normal[1]!, normal[2]!)) continue;
      gridFactors(g.grid, px, py, pz, normal[0]!, normal[1]!, normal[2]!, factors);
      const { nu, nv, us, vs, fixedM, fixedAxis, uAxis, vAxis } = g.grid;
      const opening = scene.openings[g.opening]!;
      for (let j = 0; j < nv; j++) {
        const v = (vs[j]! + vs[j + 1]!) / 2;
        for (let i = 0; i < nu; i++) {
          const f = factors[j * nu + i]!;
          if (f < 1e-8) continue;
          const u = (us[i]! + us[i + 1]!) / 2;
          const cx = fixedAxis === 0 ? fixedM : u;
          const cy = fixedAxis === 1 ? fixedM : uAxis === 1 ? u : v;
          const cz = fixedAxis === 2 ? fixedM : vAxis === 2 ? v : u;
          if (isBlocked(mesh, px, py, pz, cx, cy, cz)) continue;
          lookThroughCell(map, opening, g.face, g.grid, i, j, px, py, pz);
          for (let k = 0; k < seen.count; k++) {
            const part = f * seen.share[k]!;
            cell[used] = g.firstCell + j * nu + i;
            bin[used] = seen.bin[k]!;
            factor[used] = part;
            weight[used] = PI * part * seen.ratio[k]!;
            used++;
          }
        }
      }
    }
  }
  start[mesh.count] = used;
  keepEnergy(mesh, cells, start, cell, factor, weight);
  return {
    start,
    cell: cell.slice(0, used),
    bin: bin.slice(0, used),
    factor: factor.slice(0, used),
    weight: weight.slice(0, used),
  };
}

/**
 * All light through a cell lands somewhere: its factors are scaled so that they add up to its area (they miss by up to
 * 1.5 %, from taking each element at one point).
 */
function keepEnergy(
  mesh: Mesh,
  cells: WindowCells,
  start: Int32Array,
  cell: Uint16Array,
  factor: Float32Array,
  weight: Float32Array,
): void {
  const caughtM2 = new Float64Array(cells.cellCount);
  for (let e = 0; e < mesh.count; e++) {
    for (let i = start[e]!; i < start[e + 1]!; i++) caughtM2[cell[i]!]! += factor[i]! * mesh.areaM2[e]!;
  }
  const scale = new Float64Array(cells.cellCount);
  for (const { grid, firstCell } of cells.grids) {
    const { us, vs, nu, nv } = grid;
    for (let c = 0; c < nu * nv; c++) {
      const i = c % nu;
      const j = (c - i) / nu;
      const caught = caughtM2[firstCell + c]!;
      scale[firstCell + c] = caught > 0 ? ((us[i + 1]! - us[i]!) * (vs[j + 1]! - vs[j]!)) / caught : 1;
    }
  }
  for (let i = 0; i < start[mesh.count]!; i++) {
    factor[i]! *= scale[cell[i]!]!;
    weight[i]! *= scale[cell[i]!]!;
  }
}
