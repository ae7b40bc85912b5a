/** Somebody who passes the open door of a room again and again, and the clips that would hide that door. */
import { CORRIDOR_M } from '../../engine/room/corridor.ts';
import { onWall, wallLengthM } from '../../engine/room/walls.ts';
import type { DoorSpec, PointM, RoomSpec, Scenario } from '../../engine/types.ts';
import { shortestTurnDeg, wrapDeg } from '../../engine/units.ts';
import type { CandidateFile } from '../../scenario/schemas/faults.ts';
import { MAX_PEOPLE } from '../../scenario/schemas/story.ts';
import { polarOf, SECTOR_DEG } from '../reach/polygon.ts';

/** From one pass to the next, s. Assumed: an ordinary corridor; under most off-delays, so that the rows stay lit. */
const EVERY_S = 150;
const WALK_MPS = 1.2;
/** Clear of the ends of the corridor, m. Assumed: a body's half width. */
const CLEAR_M = 0.4;
/** Most repeats that a plan may have. Source: the schema of plans. */
const MOST_TIMES = 500;
/** A clip is needed also this far beside the door, degrees. Assumed: the blur of a beam; the bundled rooms show less. */
const BESIDE_DEG = 3;

/** Both ends of a walk along the middle of the corridor outside a door. */
function endsOf(room: RoomSpec, { wall }: DoorSpec): [PointM, PointM] {
  const at = (alongM: number) => onWall(room, wall, alongM, CORRIDOR_M / 2);
  return [at(CLEAR_M), at(wallLengthM(room, wall) - CLEAR_M)];
}

/** Sectors through which the detector sees a door. */
export function sectorsToDoor({ room, mount }: Pick<Scenario, 'room' | 'mount'>, door: DoorSpec): number[] {
  const bearing = (alongM: number) => polarOf(mount.atM, onWall(room, door.wall, alongM)).bearingDeg - mount.turnDeg;
  const from = bearing(door.fromM);
  const turn = shortestTurnDeg(from, bearing(door.fromM + door.widthM));
  const [low, high] = [from + Math.min(0, turn) - BESIDE_DEG, from + Math.max(0, turn) + BESIDE_DEG];
  const sectors = new Set<number>();
  for (let deg = low; deg <= high; deg++) sectors.add(Math.floor(wrapDeg(deg) / SECTOR_DEG));
  sectors.add(Math.floor(wrapDeg(high) / SECTOR_DEG));
  return [...sectors].sort((a, b) => a - b);
}

/** The first door left open and its corridor used; null: the room is full. */
export function passedBy(scenario: Scenario): Pick<CandidateFile, 'edit' | 'remedy' | 'repair'> | null {
  const { room, people, settings, endS } = scenario;
  const door = room.doors[0];
  const id = [...'BCDEFGHJK'].find((letter) => people.every((person) => person.id !== letter));
  // You have a place of your own.
  if (!door || !id || people.length + 2 > MAX_PEOPLE) return null;
  const [hereM, thereM] = endsOf(room, door);
  const pause = { act: 'standStill', forS: EVERY_S } as const;
  const walk = (toM: PointM) => ({ act: 'walk', toM, speedMps: WALK_MPS }) as const;
  const steps = [walk(thereM), { act: 'leave' } as const, pause, walk(hereM), { act: 'leave' } as const, pause];
  const times = Math.min(MOST_TIMES, Math.ceil(endS / (2 * EVERY_S)));
  const passer = {
    id,
    heightM: 1.75,
    clothingClo: 0.9,
    cameFromC: room.airTemperatureC,
    atM: hereM,
    headingDeg: 0,
    outsideAtStart: true,
    plan: [{ act: 'repeat' as const, times, steps }],
  };
  const clips = sectorsToDoor(scenario, door);
  const maskedSectors = [...new Set([...settings.maskedSectors, ...clips])].sort((a, b) => a - b);
  return {
    edit: { doors: [{ doorId: door.id, open: true }], addPeople: [passer] },
    remedy: [[{ clipsOn: clips }], [{ movedM: 1.5 }]],
    repair: [{ kind: 'setSettings', change: { maskedSectors } }],
  };
}
