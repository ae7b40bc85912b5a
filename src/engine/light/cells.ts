/** Openings as grids of small cells. */
import { faceIndex } from './outside.ts';
import type { PlaneGrid } from './polygon.ts';
import type { LightScene, SceneOpening } from './scene.ts';
import { planeAxes } from './surfaces.ts';

/** Height and width of window cells, m. Assumed: 0.15 and 0.3; cells as tall as elements put whole cells on the wrong
 *  side of the horizon, which cost a ceiling sensor 3 to 7 % in a trial. */
const CELL_HEIGHT_M = 0.15;
const CELL_WIDTH_M = 0.3;
/** Sides of cells of openings in the ceiling, m. Assumed: 0.2; 0.3 loses 0.5 % of a small roof light. */
const ROOF_CELL_M = 0.2;
/** Cells of all windows before they are enlarged. Assumed: 420, a quarter of a second of tables. */
const MAX_CELLS = 420;

export interface CellGrid {
  /** Index into scene.openings. */
  opening: number;
  face: number;
  grid: PlaneGrid;
  /** First cell and first row in the tables; rows run along v (up a wall). */
  firstCell: number;
  firstRow: number;
}

export interface WindowCells {
  grids: CellGrid[];
  cellCount: number;
  rowCount: number;
  /** Row of each cell; opening of each row; where the row lies in the opening, 0 = sill, 1 = head. */
  rowOfCell: Uint16Array;
  openingOfRow: Uint16Array;
  rowFrom: Float64Array;
  rowTo: Float64Array;
}

function evenLines(fromM: number, toM: number, stepM: number): Float64Array {
  const n = Math.max(1, Math.ceil((toM - fromM) / stepM - 1e-9));
  return Float64Array.from({ length: n + 1 }, (_, i) => (i === n ? toM : fromM + ((toM - fromM) * i) / n));
}

export function openingGrid(opening: SceneOpening, widthM: number, heightM: number): PlaneGrid {
  const fixedAxis = faceIndex(opening) >> 1;
  const [uAxis, vAxis] = planeAxes(fixedAxis);
  const us = evenLines(opening.minM[uAxis]!, opening.maxM[uAxis]!, widthM);
  const vs = evenLines(opening.minM[vAxis]!, opening.maxM[vAxis]!, heightM);
  return { fixedAxis, fixedM: opening.minM[fixedAxis]!, uAxis, vAxis, us, vs, nu: us.length - 1, nv: vs.length - 1 };
}

function cellGrids(scene: LightScene, kind: SceneOpening['kind'], scale: number, perSide: number): CellGrid[] {
  const grids: CellGrid[] = [];
  let firstCell = 0;
  let firstRow = 0;
  scene.openings.forEach((opening, index) => {
    if (opening.kind !== kind) return;
    const face = faceIndex(opening);
    const upright = face < 4;
    const width = (upright ? CELL_WIDTH_M : ROOF_CELL_M) * scale;
    const grid = openingGrid(opening, width, (upright ? CELL_HEIGHT_M : ROOF_CELL_M) * scale);
    const refined = perSide === 1 ? grid : refineGrid(grid, perSide);
    grids.push({ opening: index, face, grid: refined, firstCell, firstRow });
    firstCell += refined.nu * refined.nv;
    firstRow += refined.nv;
  });
  return grids;
}

function refineGrid(grid: PlaneGrid, perSide: number): PlaneGrid {
  const refine = (lines: Float64Array) =>
    Float64Array.from({ length: (lines.length - 1) * perSide + 1 }, (_, k) => {
      const i = Math.floor(k / perSide);
      const rest = (k % perSide) / perSide;
      return rest === 0 ? lines[i]! : lines[i]! + (lines[i + 1]! - lines[i]!) * rest;
    });
  return { ...grid, us: refine(grid.us), vs: refine(grid.vs), nu: grid.nu * perSide, nv: grid.nv * perSide };
}

/** `kind` 'door' makes the cells of door openings. */
export function buildCells(scene: LightScene, kind: SceneOpening['kind'], refine = 1): WindowCells {
  let scale = 1 / refine;
  let grids = cellGrids(scene, kind, scale, 1);
  const total = () => grids.reduce((sum, g) => sum + g.grid.nu * g.grid.nv, 0);
  while (total() > MAX_CELLS * refine * refine) {
    scale *= 1.2;
    grids = cellGrids(scene, kind, scale, 1);
  }
  const cellCount = total();
  const rowCount = grids.reduce((sum, g) => sum + g.grid.nv, 0);
  const cells: WindowCells = {
    grids,
    cellCount,
    rowCount,
    rowOfCell: new Uint16Array(cellCount),
    openingOfRow: new Uint16Array(rowCount),
    rowFrom: new Float64Array(rowCount),
    rowTo: new Float64Array(rowCount),
  };
  for (const g of grids) {
    const { nu, nv, vs } = g.grid;
    const height = vs[nv]! - vs[0]!;
    for (let j = 0; j < nv; j++) {
      cells.openingOfRow[g.firstRow + j] = g.opening;
      cells.rowFrom[g.firstRow + j] = (vs[j]! - vs[0]!) / height;
      cells.rowTo[g.firstRow + j] = (vs[j + 1]! - vs[0]!) / height;
      for (let i = 0; i < nu; i++) cells.rowOfCell[g.firstCell + j * nu + i] = g.firstRow + j;
    }
  }
  return cells;
}

/** Whether any corner of the grid's rectangle lies in front of a plane; else no cell can be seen. */
export function gridInFront(
  g: PlaneGrid,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
): boolean {
  const n = [nx, ny, nz];
  const p = [px, py, pz];
  const w = (g.fixedM - p[g.fixedAxis]!) * n[g.fixedAxis]!;
  const u0 = (g.us[0]! - p[g.uAxis]!) * n[g.uAxis]!;
  const u1 = (g.us[g.nu]! - p[g.uAxis]!) * n[g.uAxis]!;
  const v0 = (g.vs[0]! - p[g.vAxis]!) * n[g.vAxis]!;
  const v1 = (g.vs[g.nv]! - p[g.vAxis]!) * n[g.vAxis]!;
  return w + Math.max(u0, u1) + Math.max(v0, v1) > 1e-9;
}

/** Finer cells for sensors, whose reading is told as a number: each cell split in `perSide` squared. */
export function fineGrid(grid: PlaneGrid, perSide: number): PlaneGrid {
  return refineGrid(grid, perSide);
}
