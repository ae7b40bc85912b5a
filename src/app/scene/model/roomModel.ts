/** The whole model of a room as a handful of geometries. Pure: scenario and setup in, meshes out. */
import type { BufferGeometry } from 'three';
import type {
  DetectorMount,
  DoorSpec,
  FaceId,
  FurnitureSpec,
  RoomSpec,
  WallId,
  WarmThingSpec,
} from '../../../engine/types.ts';
import type { FieldAtlas } from '../light/fieldAtlas.ts';
import { box, createBuilder, toGeometry } from './builder.ts';
import { buildFittings, buildLamps, buildWarmThings } from './fittings.ts';
import { buildFurniture } from './furniture.ts';
import { buildOutside, corridorBox } from './outside.ts';
import { MATERIAL, tinted } from './palette.ts';
import { buildBlinds, buildDoorLeaf, buildFloor, buildInnerWall, wallFrame } from './shell.ts';

export interface ModelInput {
  room: RoomSpec;
  furniture: readonly FurnitureSpec[];
  reflectance: Record<FaceId, number>;
  doors: readonly { doorId: string; open: boolean }[];
  blinds: readonly { windowId: string; closedShare: number }[];
  mount: DetectorMount;
  warmThings: readonly WarmThingSpec[];
  /** Walls outside which somebody of the story walks: there the corridor's floor is as long as the wall. */
  walked?: readonly WallId[];
}

export function isOpen(input: Pick<ModelInput, 'doors'>, door: DoorSpec): boolean {
  return input.doors.find((d) => d.doorId === door.id)?.open ?? door.openAtStart;
}

/** Everything lit by the calculated light. */
export function interiorGeometry(input: ModelInput, atlas: FieldAtlas): BufferGeometry {
  const b = createBuilder(atlas);
  const { room, reflectance } = input;
  buildFloor(b, atlas, room, reflectance.floor);
  for (const wall of ['back', 'left', 'front', 'right'] as const)
    buildInnerWall(b, atlas, room, wall, reflectance[wall]);
  buildBlinds(b, room, input.blinds);
  for (const door of room.doors) {
    buildDoorLeaf(b, room, door, isOpen(input, door));
    const whole = input.walked?.includes(door.wall) ?? false;
    const [fromM, toM] = whole ? [0, wallFrame(room, door.wall).lengthM] : [door.fromM, door.fromM + door.widthM];
    const corridor = corridorBox(room, door.wall, fromM, toM);
    const paint = { color: tinted(MATERIAL.floor, 0.5), light: { kind: 'corridor' } as const };
    box(b, corridor.min, corridor.max, (side) => (side === 'top' ? paint : { ...paint, share: 0.25 }));
  }
  input.furniture.forEach((f, index) => {
    buildFurniture(b, f, index, input.furniture, room);
  });
  buildFittings(b, room, input.mount);
  buildWarmThings(b, input.warmThings);
  return toGeometry(b);
}

export function lampGeometry(room: RoomSpec): BufferGeometry {
  const b = createBuilder(null);
  buildLamps(b, room);
  return toGeometry(b);
}

export function outsideGeometry(room: RoomSpec): BufferGeometry {
  const b = createBuilder(null);
  buildOutside(b, room);
  return toGeometry(b);
}
