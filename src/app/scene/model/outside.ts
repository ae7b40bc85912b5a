/** What is not in the room: outer wall faces, cut faces, slab, baseboard. Lit for presentation only. */
import { CORRIDOR_M } from '../../../engine/room/corridor.ts';
import type { RoomSpec, Vector3, WallId } from '../../../engine/types.ts';
import { type Builder, box, CUBE, type Paint, polygon } from './builder.ts';
import { MATERIAL } from './palette.ts';
import { cutHeightM, LOW_CUT_M, solidParts, WALL_M, wallFrame, wallGaps, wallQuad } from './shell.ts';

/** Depth of the floor slab below the floor, and of the board under it, m. Values: `look`; proportion only. */
export const SLAB_M = 0.16;
export const BOARD_M = 0.12;
/** The board's margin around the outer wall faces (.6 around the room), m. */
export const BOARD_MARGIN_M = 0.34;

const PLASTER: Paint = { color: MATERIAL.plaster, light: CUBE };
const CUT: Paint = { color: [0, 0, 0], light: CUBE, cut: true };
const BOARD: Paint = { color: MATERIAL.baseboard, light: CUBE };

/** Where the corridor's floor lies outside a door: as a box in room metres (top at the floor). */
export function corridorBox(room: RoomSpec, wall: WallId, fromM: number, toM: number): { min: Vector3; max: Vector3 } {
  const frame = wallFrame(room, wall);
  const a0 = Math.max(-WALL_M, fromM - 1.6);
  const a1 = Math.min(frame.lengthM + WALL_M, toM + 1);
  const p = frame.at(a0, WALL_M, 0);
  const q = frame.at(a1, CORRIDOR_M, 0);
  return {
    min: [Math.min(p[0], q[0]), Math.min(p[1], q[1]), -SLAB_M],
    max: [Math.max(p[0], q[0]), Math.max(p[1], q[1]), 0],
  };
}

/** The board's outline: around the walls and whatever corridor lies outside. */
export function boardBounds(room: RoomSpec): { min: [number, number]; max: [number, number] } {
  const min: [number, number] = [-WALL_M - BOARD_MARGIN_M, -WALL_M - BOARD_MARGIN_M];
  const max: [number, number] = [room.widthM + WALL_M + BOARD_MARGIN_M, room.depthM + WALL_M + BOARD_MARGIN_M];
  for (const door of room.doors) {
    const corridor = corridorBox(room, door.wall, door.fromM, door.fromM + door.widthM);
    for (const axis of [0, 1] as const) {
      min[axis] = Math.min(min[axis], corridor.min[axis] - BOARD_MARGIN_M * 0.5);
      max[axis] = Math.max(max[axis], corridor.max[axis] + BOARD_MARGIN_M * 0.5);
    }
  }
  return { min, max };
}

function buildOuterWall(b: Builder, room: RoomSpec, wall: WallId): void {
  const frame = wallFrame(room, wall);
  const top = cutHeightM(room, wall);
  const gaps = wallGaps(room, wall);
  const corner = wall === 'back' || wall === 'front' ? WALL_M : 0;
  const widened = gaps.map((g) => ({ ...g, fromM: g.fromM + corner, toM: g.toM + corner }));
  for (const [a0, a1, z0, z1] of solidParts(widened, frame.lengthM + 2 * corner, top)) {
    const low = z0 === 0 ? -SLAB_M : z0;
    const [f, t] = [a0 - corner, a1 - corner];
    wallQuad(
      b,
      frame,
      [
        [t, WALL_M, low],
        [f, WALL_M, low],
        [f, WALL_M, z1],
        [t, WALL_M, z1],
      ],
      PLASTER,
    );
    if (z1 === top)
      wallQuad(
        b,
        frame,
        [
          [f, 0, top],
          [t, 0, top],
          [t, WALL_M, top],
          [f, WALL_M, top],
        ],
        CUT,
      );
  }
  for (const g of gaps) {
    if (g.sillM > 0 || !g.door) continue;
    wallQuad(
      b,
      frame,
      [
        [g.toM, WALL_M, -SLAB_M],
        [g.fromM, WALL_M, -SLAB_M],
        [g.fromM, WALL_M, 0],
        [g.toM, WALL_M, 0],
      ],
      PLASTER,
    );
  }
}

/** Outer faces of the corners that the left and right walls leave to the front and back walls. */
function buildCorners(b: Builder, room: RoomSpec): void {
  const low = Math.min(LOW_CUT_M, room.heightM);
  const tall = cutHeightM(room, 'back');
  const strip = (x: number, y: number, top: number) => {
    const points: Vector3[] = [
      [x, y, -SLAB_M],
      [x, y + WALL_M, -SLAB_M],
      [x, y + WALL_M, top],
      [x, y, top],
    ];
    polygon(b, x > 0 ? points : points.reverse(), PLASTER);
  };
  const right = room.widthM + WALL_M;
  strip(right, -WALL_M, low);
  strip(right, room.depthM, low);
  strip(-WALL_M, -WALL_M, low);
  strip(-WALL_M, room.depthM, tall);
}

/** Ends of the tall walls above the low ones, where left meets front and back meets right. */
function buildWallEnds(b: Builder, room: RoomSpec): void {
  const top = cutHeightM(room, 'back');
  const z0 = Math.min(LOW_CUT_M, room.heightM);
  polygon(
    b,
    [
      [-WALL_M, 0, z0],
      [0, 0, z0],
      [0, 0, top],
      [-WALL_M, 0, top],
    ],
    PLASTER,
  );
  const x = room.widthM + WALL_M;
  const y = room.depthM;
  polygon(
    b,
    [
      [x, y, z0],
      [x, y + WALL_M, z0],
      [x, y + WALL_M, top],
      [x, y, top],
    ],
    PLASTER,
  );
  polygon(
    b,
    [
      [room.widthM, y, z0],
      [x, y, z0],
      [x, y, top],
      [room.widthM, y, top],
    ],
    PLASTER,
  );
}

export function buildOutside(b: Builder, room: RoomSpec): void {
  for (const wall of ['back', 'left', 'front', 'right'] as const) buildOuterWall(b, room, wall);
  buildCorners(b, room);
  buildWallEnds(b, room);
  const { min, max } = boardBounds(room);
  box(b, [min[0], min[1], -SLAB_M - BOARD_M], [max[0], max[1], -SLAB_M], (side) => (side === 'bottom' ? null : BOARD));
}
