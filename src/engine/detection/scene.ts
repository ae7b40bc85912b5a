/** What stands still: distance to the first surface that is opaque to heat, and what is warmer than the room. */
import { bandRadiance8to14 } from '../heat/planck.ts';
import { sqrt } from '../math.ts';
import { roomBoxes } from '../room/boxes.ts';
import { CORRIDOR_M } from '../room/corridor.ts';
import { doorOpenings } from '../room/openings.ts';
import { hitDistance, nearestBox, packBoxes } from '../room/rays.ts';
import type { RoomSpec, Setup, Vector3 } from '../types.ts';
import type { StaticScene, Surroundings } from './types.ts';

/** Pixels across the lower half space. Assumed: a pixel is 0.4 degrees straight down; coarser would fray desk edges by
 *  more than a hand at 3 m. */
export const SCENE_PX = 576;
/** Tiles across the lower half space for the test whether anything stands before a body. Assumed: 16 pixels each; finer
 *  ones cost more than they save. */
export const TILE_SIDE = 36;

/** Boxes, walls and open doors around the detector. */
export function surroundingsOf(room: RoomSpec, setup: Setup): Surroundings {
  const { mount } = setup;
  const open = doorOpenings(room).filter((_, i) => {
    const id = room.doors[i]!.id;
    return setup.doors.find((d) => d.doorId === id)?.open ?? room.doors[i]!.openAtStart;
  });
  return {
    eyeM: [mount.atM[0], mount.atM[1], mount.heightM],
    roomM: [room.widthM, room.depthM, room.heightM],
    boxes: packBoxes(roomBoxes(room, setup.furniture)),
    doorways: open.map((o) => {
      const axis = o.normal[0] !== 0 ? 0 : 1;
      const along = axis === 0 ? 1 : 0;
      const fromM = o.originM[along];
      return { axis, wallM: o.originM[axis], fromM, toM: fromM + o.uM[along], headM: o.originM[2] + o.vM[2] };
    }),
  };
}

/** Distance along a unit direction (room frame) to where the room's shell stops it, through open doors. */
function shellDistanceM(s: Surroundings, dx: number, dy: number, dz: number): number {
  const [ex, ey, ez] = s.eyeM;
  const toX = dx > 0 ? (s.roomM[0] - ex) / dx : dx < 0 ? -ex / dx : Number.POSITIVE_INFINITY;
  const toY = dy > 0 ? (s.roomM[1] - ey) / dy : dy < 0 ? -ey / dy : Number.POSITIVE_INFINITY;
  const toZ = dz > 0 ? (s.roomM[2] - ez) / dz : dz < 0 ? -ez / dz : Number.POSITIVE_INFINITY;
  const wall = Math.min(toX, toY);
  if (toZ <= wall) return toZ;
  const axis = toX < toY ? 0 : 1;
  const across = axis === 0 ? Math.abs(dx) : Math.abs(dy);
  for (const door of s.doorways) {
    const wallM = axis === 0 ? ex + dx * wall : ey + dy * wall;
    const alongM = axis === 0 ? ey + dy * wall : ex + dx * wall;
    if (door.axis !== axis || Math.abs(wallM - door.wallM) > 1e-6) continue;
    if (alongM < door.fromM || alongM > door.toM || ez + dz * wall > door.headM) continue;
    return Math.min(toZ, wall + CORRIDOR_M / across);
  }
  return wall;
}

/** Whether the last `sceneDistanceM` ended on furniture; scratch. */
const lastHit = { furniture: false };

/** Distance to the first surface opaque to heat (glass is), m. Direction: unit, room frame. */
export function sceneDistanceM(s: Surroundings, dx: number, dy: number, dz: number): number {
  const shell = shellDistanceM(s, dx, dy, dz);
  const [ex, ey, ez] = s.eyeM;
  lastHit.furniture = nearestBox(s.boxes, ex, ey, ez, dx, dy, dz, shell) >= 0;
  return lastHit.furniture ? hitDistance.value : shell;
}

/** A still box warmer than the room, in room metres. */
export interface WarmBox {
  minM: Vector3;
  maxM: Vector3;
  /** Above the room's radiant temperature, K; 0 while off. */
  excessK: number;
}

/**
 * Depth and warmth in the detector's own stereographic coordinates. `turnSin`, `turnCos`: bearing of the window arrow.
 * Slow warming of a radiator gives no signal (tests hold this), so only what a body hides of it matters.
 */
export function bakeScene(
  radiantTemperatureC: number,
  s: Surroundings,
  patches: readonly WarmBox[],
  turnSin: number,
  turnCos: number,
): StaticScene {
  const depthM = new Float32Array(SCENE_PX * SCENE_PX);
  const roomRadiance = bandRadiance8to14(radiantTemperatureC);
  const warm = patches
    .filter((patch) => patch.excessK !== 0)
    .map((patch) => ({ ...patch, excess: bandRadiance8to14(radiantTemperatureC + patch.excessK) - roomRadiance }));
  const warmSoup = packBoxes(warm);
  const warmth = warm.length > 0 ? new Float32Array(SCENE_PX * SCENE_PX) : null;
  const tileDepthM = new Float32Array(TILE_SIDE * TILE_SIDE).fill(1e6);
  const tileWarm = new Uint8Array(TILE_SIDE * TILE_SIDE);
  const perTile = SCENE_PX / TILE_SIDE;
  for (let j = 0; j < SCENE_PX; j++) {
    const v = ((j + 0.5) * 2) / SCENE_PX - 1;
    for (let i = 0; i < SCENE_PX; i++) {
      const u = ((i + 0.5) * 2) / SCENE_PX - 1;
      const r2 = u * u + v * v;
      if (r2 > 1) continue;
      const k = 2 / (1 + r2);
      const dz = 1 - k;
      const dx = k * (u * turnCos + v * turnSin);
      const dy = k * (v * turnCos - u * turnSin);
      const far = sceneDistanceM(s, dx, dy, dz);
      depthM[j * SCENE_PX + i] = far;
      const tile = Math.floor(j / perTile) * TILE_SIDE + Math.floor(i / perTile);
      if (lastHit.furniture && far < tileDepthM[tile]!) tileDepthM[tile] = far;
      if (!warmth) continue;
      const hit = nearestBox(warmSoup, s.eyeM[0], s.eyeM[1], s.eyeM[2], dx, dy, dz, far);
      if (hit < 0) continue;
      warmth[j * SCENE_PX + i] = warm[hit]!.excess;
      tileWarm[tile] = 1;
    }
  }
  return { sidePx: SCENE_PX, depthM, warmth, tileSide: TILE_SIDE, tileDepthM, tileWarm };
}

/** Pixel of a direction: unit, detector frame, below the horizon. */
function pixelOf(scene: StaticScene, d: Vector3): number {
  const half = scene.sidePx / 2;
  const i = Math.min(scene.sidePx - 1, Math.floor((d[0] / (1 - d[2]) + 1) * half));
  const j = Math.min(scene.sidePx - 1, Math.floor((d[1] / (1 - d[2]) + 1) * half));
  return j * scene.sidePx + i;
}

/** Distance to the scene by the baked map, m; direction unit, detector frame, below the horizon. */
export function bakedDepthM(scene: StaticScene, d: Vector3): number {
  return scene.depthM[pixelOf(scene, d)]!;
}

/** Radiance of what lies there above the room's, W m-2 sr-1; direction as above. */
export function bakedWarmth(scene: StaticScene, d: Vector3): number {
  return scene.warmth ? scene.warmth[pixelOf(scene, d)]! : 0;
}

/** Distance between two points, m. */
export function distanceM(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const x = a[0]! - b[0]!;
  const y = a[1]! - b[1]!;
  const z = a[2]! - b[2]!;
  return sqrt(x * x + y * y + z * z);
}
