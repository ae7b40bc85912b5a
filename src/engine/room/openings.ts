/** Windows and doors as rectangles in room metres. */
import type { RoomSpec, Vector3, WallId } from '../types.ts';

export interface Opening {
  id: string;
  wall: WallId;
  /** Corner with the smallest coordinates on the inner wall face; u runs along the wall, v up. */
  originM: Vector3;
  uM: Vector3;
  vM: Vector3;
  /** Into the room. */
  normal: Vector3;
}

export function wallOpening(
  room: Pick<RoomSpec, 'widthM' | 'depthM'>,
  o: { id: string; wall: WallId; fromM: number; widthM: number; sillM: number; headM: number },
): Opening {
  const height = o.headM - o.sillM;
  const alongX = o.wall === 'front' || o.wall === 'back';
  const across = o.wall === 'back' ? room.depthM : o.wall === 'right' ? room.widthM : 0;
  const inward = o.wall === 'front' || o.wall === 'left' ? 1 : -1;
  return {
    id: o.id,
    wall: o.wall,
    originM: alongX ? [o.fromM, across, o.sillM] : [across, o.fromM, o.sillM],
    uM: alongX ? [o.widthM, 0, 0] : [0, o.widthM, 0],
    vM: [0, 0, height],
    normal: alongX ? [0, inward, 0] : [inward, 0, 0],
  };
}

export function windowOpenings(room: RoomSpec): Opening[] {
  return room.windows.map((w) => wallOpening(room, w));
}

export function doorOpenings(room: RoomSpec): Opening[] {
  return room.doors.map((d) => wallOpening(room, { ...d, sillM: 0 }));
}
