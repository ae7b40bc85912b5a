/** Somebody who passes the open door of a room again and again, and the clips that would hide that door. */
import { corridorStrip } from '../../engine/room/corridor.ts';
import type { DoorSpec, PointM, RoomSpec, Scenario } from '../../engine/types.ts';
import { wrapDeg } from '../../engine/units.ts';
import type { CandidateFile } from '../../scenario/schemas/faults.ts';
import { MAX_PEOPLE } from '../../scenario/schemas/story.ts';
import { polarOf } from '../reach/polygon.ts';

/** From one pass to the next, s. Assumed: an ordinary corridor; under most off-delays, so that the rows stay lit. */
const EVERY_S = 150;
const WALK_MPS = 1.2;
/** Clear of the ends of the corridor, m. Assumed: a body's half width. */
const CLEAR_M = 0.4;
/** Most repeats that a plan may have. Source: the schema of plans. */
const MOST_TIMES = 500;
/** A clip is needed also this far beside the door, degrees. Assumed: the blur of a beam; the bundled rooms show less. */
const BESIDE_DEG = 3;
const SECTOR_DEG = 30;

/** Both ends of a walk along the middle of the corridor outside a door. */
function endsOf(room: RoomSpec, { wall }: DoorSpec): [PointM, PointM] {
  const { minM, maxM } = corridorStrip(room, wall);
  const middle: PointM = [(minM[0] + maxM[0]) / 2, (minM[1] + maxM[1]) / 2];
  if (wall === 'front' || wall === 'back')
    return [
      [minM[0] + CLEAR_M, middle[1]],
      [maxM[0] - CLEAR_M, middle[1]],
    ];
  return [
    [middle[0], minM[1] + CLEAR_M],
    [middle[0], maxM[1] - CLEAR_M],
  ];
}

/** Sectors through which the detector sees a door. */
export function sectorsToDoor({ room, mount }: Pick<Scenario, 'room' | 'mount'>, door: DoorSpec): number[] {
  const { minM, maxM } = corridorStrip(room, door.wall);
  const at = (alongM: number): PointM => {
    if (door.wall === 'front' || door.wall === 'back') return [alongM, door.wall === 'front' ? maxM[1] : minM[1]];
    return [door.wall === 'left' ? maxM[0] : minM[0], alongM];
  };
  const bearing = (alongM: number) => polarOf(mount.atM, at(alongM)).bearingDeg - mount.turnDeg;
  const from = bearing(door.fromM);
  const turn = wrapDeg(bearing(door.fromM + door.widthM) - from + 180) - 180;
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
