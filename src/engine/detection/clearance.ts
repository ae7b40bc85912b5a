/** Before the cells are summed: can anything stand before this body, and in which quadrant does it lie? */
import { HIDDEN_BY_M } from './lookup.ts';
import type { Grid } from './raster.ts';
import type { MovementTables } from './types.ts';

const view = { free: false, quadrant: -1 };

/** Whether nothing stands before any cell of the grid, and the one quadrant in which all of it lies (-1: several). */
export function clearOfScene(tables: MovementTables, grid: Grid, inside: boolean): { free: boolean; quadrant: number } {
  const { lens, x0, y0, cell, nx, ny, farM } = grid;
  let minU = 2;
  let maxU = -2;
  let minV = 2;
  let maxV = -2;
  // Corners, middles of the sides: the sides bulge by less than a tile between them.
  for (let c = 0; c < 9; c++) {
    const x = x0 + ((c % 3) * nx * cell) / 2;
    const y = y0 + (Math.floor(c / 3) * ny * cell) / 2;
    const dx = lens[6]! + x * lens[0]! + y * lens[3]!;
    const dy = lens[7]! + x * lens[1]! + y * lens[4]!;
    const dz = lens[8]! + x * lens[2]! + y * lens[5]!;
    const scale = 1 / (Math.sqrt(dx * dx + dy * dy + dz * dz) - dz);
    minU = Math.min(minU, dx * scale);
    maxU = Math.max(maxU, dx * scale);
    minV = Math.min(minV, dy * scale);
    maxV = Math.max(maxV, dy * scale);
  }
  const { tileSide, tileDepthM } = tables.scene;
  const half = tileSide / 2;
  const i0 = Math.max(0, Math.floor((minU + 1) * half - 0.5));
  const i1 = Math.min(tileSide - 1, Math.floor((maxU + 1) * half + 0.5));
  const j0 = Math.max(0, Math.floor((minV + 1) * half - 0.5));
  const j1 = Math.min(tileSide - 1, Math.floor((maxV + 1) * half + 0.5));
  view.free = inside;
  for (let j = j0; j <= j1; j++) {
    for (let i = i0; i <= i1; i++) {
      if (tileDepthM[j * tileSide + i]! < farM - HIDDEN_BY_M) view.free = false;
    }
  }
  const edge = tables.map.margin + 1 / half;
  view.quadrant =
    minU > edge && minV > edge
      ? 0
      : minU > edge && maxV < -edge
        ? 1
        : maxU < -edge && maxV < -edge
          ? 2
          : maxU < -edge && minV > edge
            ? 3
            : -1;
  return view;
}
