/** Before a body's spans are summed: how near does anything come that may stand before it? */
import { box } from './raster.ts';
import type { MovementTables } from './types.ts';

/** No part of the body nearer than this is hidden by furniture, m; whether anything warm or cold is behind it; scratch. */
export const clearance = { nearestM: 0, warm: false };

/**
 * Looks around the body boxed in `box`, on the plane of `channel`, and leaves in `clearance` what may stand before it and
 * behind. A body that the room's own shell may hide is taken to have everything near it.
 */
export function findClearance(tables: MovementTables, channel: number, inside: boolean): void {
  const { map, scene } = tables;
  clearance.nearestM = 0;
  clearance.warm = scene.warmth !== null;
  if (!inside) return;
  const lens = tables.frames[channel]!.lens;
  const perPx = 1 / map.pxPerUnit;
  const x0 = Math.max(0, box.minX) * perPx + map.leftX;
  const x1 = Math.min(map.widthPx, box.maxX) * perPx + map.leftX;
  const y0 = Math.max(0, box.minY) * perPx + map.lowY;
  const y1 = Math.min(map.heightPx, box.maxY) * perPx + map.lowY;
  let minU = 2;
  let maxU = -2;
  let minV = 2;
  let maxV = -2;
  // Corners, middles of the sides: the sides bulge by less than a tile between them.
  for (let c = 0; c < 9; c++) {
    const x = x0 + ((x1 - x0) * (c % 3)) / 2;
    const y = y0 + ((y1 - y0) * ((c / 3) | 0)) / 2;
    const dx = lens[6]! + x * lens[0]! + y * lens[3]!;
    const dy = lens[7]! + x * lens[1]! + y * lens[4]!;
    const dz = lens[8]! + x * lens[2]! + y * lens[5]!;
    const scale = 1 / (Math.sqrt(dx * dx + dy * dy + dz * dz) - dz);
    minU = Math.min(minU, dx * scale);
    maxU = Math.max(maxU, dx * scale);
    minV = Math.min(minV, dy * scale);
    maxV = Math.max(maxV, dy * scale);
  }
  const { tileSide, tileDepthM, tileWarm } = scene;
  const half = tileSide / 2;
  const i0 = Math.max(0, Math.floor((minU + 1) * half - 0.5));
  const i1 = Math.min(tileSide - 1, Math.floor((maxU + 1) * half + 0.5));
  const j0 = Math.max(0, Math.floor((minV + 1) * half - 0.5));
  const j1 = Math.min(tileSide - 1, Math.floor((maxV + 1) * half + 0.5));
  let nearestM = Number.POSITIVE_INFINITY;
  let warm = false;
  for (let j = j0; j <= j1; j++) {
    for (let i = i0; i <= i1; i++) {
      const tile = j * tileSide + i;
      if (tileDepthM[tile]! < nearestM) nearestM = tileDepthM[tile]!;
      if (tileWarm[tile] === 1) warm = true;
    }
  }
  clearance.nearestM = nearestM;
  clearance.warm = warm;
}
