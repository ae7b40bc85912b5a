/**
 * Where the cells of a channel's plane lie in the static scene. Plane and scene both turn with the detector, so the way
 * from one to the other is gone once for all rooms.
 */
import { ROW_HEIGHTS_PX } from './angularMap.ts';
import { SCENE_PX } from './scene.ts';
import type { AngularMap, CellPixels, ChannelFrame } from './types.ts';

/** (u, v) of a point of the plane; scratch. */
export const spot = { u: 0, v: 0 };

/** Leaves in `spot` where the ray (x, y, 1) of a channel's plane lies in the scene. */
export function findSpot(lens: Float64Array, x: number, y: number): void {
  const scale = 1 / (Math.sqrt(1 + x * x + y * y) - lens[8]! - y * lens[5]!);
  spot.u = (lens[6]! + x * lens[0]! + y * lens[3]!) * scale;
  spot.v = (lens[7]! + x * lens[1]! + y * lens[4]!) * scale;
}

function build(map: AngularMap, lens: Float64Array, cellPx: number): CellPixels {
  const perRow = Math.ceil(map.widthPx / cellPx);
  const rows = Math.ceil(map.heightPx / cellPx);
  const pixel = new Int32Array(perRow * rows);
  const half = SCENE_PX / 2;
  const last = SCENE_PX - 1;
  for (let row = 0; row < rows; row++) {
    const y = ((row + 0.5) * cellPx) / map.pxPerUnit + map.lowY;
    for (let cell = 0; cell < perRow; cell++) {
      findSpot(lens, ((cell + 0.5) * cellPx) / map.pxPerUnit + map.leftX, y);
      const i = Math.min(last, Math.max(0, Math.floor((spot.u + 1) * half)));
      const j = Math.min(last, Math.max(0, Math.floor((spot.v + 1) * half)));
      pixel[row * perRow + cell] = j * SCENE_PX + i;
    }
  }
  return { perRow, pixel };
}

/** Shared by all maps of one plane. */
const built = new Map<string, CellPixels>();

/** Made at the first use of a channel and level, some 5 ms and 1 MB each. */
export function cellPixels(map: AngularMap, frame: ChannelFrame, channel: number, level: number): CellPixels {
  const at = channel * ROW_HEIGHTS_PX.length + level;
  const here = map.cells[at];
  if (here !== undefined) return here;
  const key = [at, map.widthPx, map.heightPx, map.pxPerUnit, map.leftX, map.lowY].join();
  const cells = built.get(key) ?? build(map, frame.lens, ROW_HEIGHTS_PX[level]!);
  built.set(key, cells);
  map.cells[at] = cells;
  return cells;
}
