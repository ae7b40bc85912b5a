/** Places of the room as people call them: at a desk, at the door, by the window, under the detector. */
import { corridorAt } from '../engine/room/corridor.ts';
import type { PointM, RoomSpec, Scenario, Setup } from '../engine/types.ts';
import { wallEnds } from './planGeometry.ts';
import { en } from './text/en.ts';
import { metres } from './text/format.ts';

/** Nearer than this to what is worked at, a person is "at" it, m. Assumed: a chair drawn back and an arm's length. */
const AT_DESK_M = 1;
/** … and to the middle of a door, m. Assumed: a step inside or outside. */
const AT_DOOR_M = 0.9;
/** … and to the plumb line of the detector, m. Assumed: its centre facets. */
const UNDER_DETECTOR_M = 0.6;
/** … and to a stretch of glass, m. Assumed: near enough to look out. */
const BY_WINDOW_M = 0.8;
/** Distances to walls are told in steps of this, m. Assumed: finer is read by nobody. */
const STEP_M = 0.25;

interface Named {
  text: string;
  farM: number;
  withinM: number;
}

function distanceM(a: PointM, b: PointM): number {
  return Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2);
}

/** Distance to a straight stretch, m. */
function toStretchM(at: PointM, [a, b]: [PointM, PointM]): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / length2;
  const share = Math.min(1, Math.max(0, along));
  return distanceM(at, [a[0] + dx * share, a[1] + dy * share]);
}

function middle([a, b]: [PointM, PointM]): PointM {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

function named(room: RoomSpec, setup: Setup, at: PointM): Named[] {
  const desks = room.deskPoints.map((point) => ({
    text: en.words.nearDesk(point.label),
    farM: distanceM(at, point.atM),
    withinM: AT_DESK_M,
  }));
  const doors = room.doors.map((door, i) => ({
    text: en.words.atDoor(i + 1, room.doors.length),
    farM: distanceM(at, middle(wallEnds(room, door))),
    withinM: AT_DOOR_M,
  }));
  const windows = room.windows.map((window) => ({
    text: en.words.byWindow,
    farM: toStretchM(at, wallEnds(room, window)),
    withinM: BY_WINDOW_M,
  }));
  const detector = { text: en.words.underDetector, farM: distanceM(at, setup.mount.atM), withinM: UNDER_DETECTOR_M };
  return [...desks, ...doors, ...windows, detector];
}

/** "at Desk C, 5.25 m from the left wall, 4.5 m from the front wall"; the two distances alone where nothing is near. */
export function placeInWords(scenario: Scenario, setup: Setup, atM: PointM): string {
  const corridor = corridorAt(scenario.room, atM);
  if (corridor) return en.words.inCorridor(corridor);
  const near = named(scenario.room, setup, atM)
    .filter((place) => place.farM <= place.withinM)
    .sort((a, b) => a.farM - b.farM);
  const step = (m: number): string => metres(Math.max(0, Math.round(m / STEP_M) * STEP_M));
  const walls = en.words.place(step(atM[0]), step(atM[1]));
  return near[0] ? `${near[0].text}, ${walls}` : walls;
}
