/** Coordinates of a wall in plan: along it from its end nearest the room's origin, and outward from its inner face, m. */
import type { PointM, RoomSpec, WallId } from '../types.ts';

export type Floor = Pick<RoomSpec, 'widthM' | 'depthM'>;

export function wallLengthM(room: Floor, wall: WallId): number {
  return wall === 'front' || wall === 'back' ? room.widthM : room.depthM;
}

/** The point of the room that lies there. */
export function onWall(room: Floor, wall: WallId, alongM: number, outM = 0): PointM {
  switch (wall) {
    case 'front':
      return [alongM, 0 - outM];
    case 'back':
      return [alongM, room.depthM + outM];
    case 'left':
      return [0 - outM, alongM];
    case 'right':
      return [room.widthM + outM, alongM];
  }
}

/** A point of the room as its wall sees it. */
export function besideWall(room: Floor, wall: WallId, [x, y]: PointM): { alongM: number; outM: number } {
  switch (wall) {
    case 'front':
      return { alongM: x, outM: 0 - y };
    case 'back':
      return { alongM: x, outM: y - room.depthM };
    case 'left':
      return { alongM: y, outM: 0 - x };
    case 'right':
      return { alongM: y, outM: x - room.widthM };
  }
}
