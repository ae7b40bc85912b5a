/**
 * Clips put on the lens take out what disturbs, and whoever sits or comes in there as well: as a cure they count only
 * where nobody is lost by them.
 */
import type { DoorSpec, PointM, RoomSpec, Scenario, SimState } from '../../engine/types.ts';
import { wrapDeg } from '../../engine/units.ts';
import { seatShares } from '../commission/design.ts';
import { polarOf } from '../reach/polygon.ts';
import { settingsOf } from './repair.ts';

/** A chair is seen from this share of reaches on. Source: the product's own rule for used seats. */
const SEEN_HALF = 0.5;
/** Width of a clip, deg. Source: twelve sectors. */
const SECTOR_DEG = 30;

/** The middle of a doorway on the floor. */
function doorwayM({ wall, fromM, widthM }: DoorSpec, room: RoomSpec): PointM {
  const middle = fromM + widthM / 2;
  if (wall === 'left' || wall === 'right') return [wall === 'left' ? 0 : room.widthM, middle];
  return [middle, wall === 'front' ? 0 : room.depthM];
}

/**
 * Whether everybody who was seen before clips were put on is still seen: each chair at which half of all reaches were,
 * tried again, and each doorway by its sector. `begin`: as it was found; `end`: as it is left.
 */
export function losesNobody(scenario: Scenario, begin: SimState, end: SimState): boolean {
  const { setup } = end;
  const settings = settingsOf(end);
  const before = settingsOf(begin).maskedSectors;
  const added = settings.maskedSectors.filter((sector) => !before.includes(sector));
  const { atM, turnDeg } = setup.mount;
  const inClip = (place: PointM): boolean =>
    added.includes(Math.floor(wrapDeg(polarOf(atM, place).bearingDeg - turnDeg) / SECTOR_DEG));
  if (scenario.room.doors.some((door) => inClip(doorwayM(door, scenario.room)))) return false;
  const chairs = setup.furniture.filter(({ kind }) => kind === 'chair').map(({ id }) => id);
  const open = seatShares(scenario, { settings: { ...settings, maskedSectors: before }, setup }, chairs);
  const seen = chairs.filter((_, i) => open[i]! >= SEEN_HALF);
  return seatShares(scenario, { settings, setup }, seen).every((share) => share >= SEEN_HALF);
}
