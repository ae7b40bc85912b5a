/**
 * The corridor: a strip outside every wall that has a door, as long as that wall. People may stand and walk there, and
 * nobody there is in the room; furniture, lamps and warm things have their place inside the walls.
 */
import type { Input, PlanStep, PointM, RoomSpec, Scenario, WallId } from '../types.ts';
import { besideWall, type Floor, onWall, wallLengthM } from './walls.ts';

/** Width of the corridor from the inner face of the door's wall, m. Assumed: an ordinary one; wider would change nothing
 *  within reach, as whoever walks further away is out of the beams. */
export const CORRIDOR_M = 2;
/** What nobody stands in beside a door: the wall and half a body, m. Assumed: the plan's wall; the lens takes a wall for
 *  a sheet, so that it looks through a door at a slant by that thickness too far. */
export const WALL_CLEAR_M = 0.3;

type Walls = Floor & { doors: readonly Pick<RoomSpec['doors'][number], 'wall' | 'fromM' | 'widthM'>[] };

const WALLS: readonly WallId[] = ['front', 'back', 'left', 'right'];

function atDoor(room: Walls, wall: WallId, alongM: number): boolean {
  return room.doors.some((door) => door.wall === wall && alongM >= door.fromM && alongM <= door.fromM + door.widthM);
}

/** Between the walls, their inner faces included. */
export function isInRoom(room: Floor, [x, y]: PointM): boolean {
  return x >= 0 && y >= 0 && x <= room.widthM && y <= room.depthM;
}

/** Walls outside which a corridor runs. */
export function corridorWalls(room: Walls): WallId[] {
  return WALLS.filter((wall) => room.doors.some((door) => door.wall === wall));
}

/** The wall in whose corridor, or in whose doorway, a point lies; null: in the room, in a wall or elsewhere. */
export function corridorAt(room: Walls, p: PointM): WallId | null {
  if (isInRoom(room, p)) return null;
  const found = corridorWalls(room).find((wall) => {
    const { alongM, outM } = besideWall(room, wall, p);
    if (outM > CORRIDOR_M || alongM < 0 || alongM > wallLengthM(room, wall)) return false;
    return outM >= WALL_CLEAR_M || (outM > 0 && atDoor(room, wall, alongM));
  });
  return found ?? null;
}

/** The corridor outside a wall as a rectangle of the plan: corners with the smallest and the largest coordinates, m. */
export function corridorStrip(room: Floor, wall: WallId): { minM: PointM; maxM: PointM } {
  const [a, b] = [onWall(room, wall, 0), onWall(room, wall, wallLengthM(room, wall), CORRIDOR_M)];
  return {
    minM: [Math.min(a[0], b[0]), Math.min(a[1], b[1])],
    maxM: [Math.max(a[0], b[0]), Math.max(a[1], b[1])],
  };
}

/** The wall that a straight way goes through beside its doors; null: through none. Whether a door is open is not asked. */
export function wallInTheWay(room: Walls, fromM: PointM, toM: PointM): WallId | null {
  const found = WALLS.find((wall) => {
    const a = besideWall(room, wall, fromM);
    const b = besideWall(room, wall, toM);
    if (a.outM > 0 === b.outM > 0) return false;
    const share = a.outM / (a.outM - b.outM);
    const alongM = a.alongM + (b.alongM - a.alongM) * share;
    return alongM >= 0 && alongM <= wallLengthM(room, wall) && !atDoor(room, wall, alongM);
  });
  return found ?? null;
}

type Folk = Pick<Scenario, 'room' | 'people' | 'script'>;

function placesWalkedTo(plan: readonly PlanStep[]): PointM[] {
  return plan.flatMap((step) => (step.act === 'walk' ? [step.toM] : []));
}

function placesIn(input: Input): PointM[] {
  if (input.kind === 'addPerson') return [input.person.atM, ...placesWalkedTo(input.person.plan)];
  if (input.kind === 'placePerson') return [input.atM];
  return input.kind === 'setPlan' ? placesWalkedTo(input.plan) : [];
}

/** Walls in whose corridor somebody of the story stands or walks to: drawings leave room for these. */
export function corridorsUsed({ room, people, script }: Folk): WallId[] {
  const places = [
    ...people.flatMap(({ atM, plan }) => [atM, ...placesWalkedTo(plan)]),
    ...script.flatMap(({ input }) => placesIn(input)),
  ];
  return corridorWalls(room).filter((wall) => places.some((p) => corridorAt(room, p) === wall));
}
