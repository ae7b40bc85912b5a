/**
 * Clips put on the lens take out what disturbs, and whoever sits or comes in there as well: as a cure they count only
 * where nobody is lost by them.
 */
import { onWall } from '../../engine/room/walls.ts';
import type { Scenario, SimState } from '../../engine/types.ts';
import { seatShares } from '../commission/design.ts';
import { sectorOf } from '../reach/polygon.ts';
import { settingsOf } from './repair.ts';

/** A chair is seen from this share of reaches on. Source: the product's own rule for used seats. */
const SEEN_HALF = 0.5;
/**
 * Whether everybody who was seen before clips were put on is still seen: each chair at which half of all reaches were,
 * tried again, and each doorway by its sector. `begin`: as it was found; `end`: as it is left.
 */
export function losesNobody(scenario: Scenario, begin: SimState, end: SimState): boolean {
  const { setup } = end;
  const settings = settingsOf(end);
  const before = settingsOf(begin).maskedSectors;
  const added = settings.maskedSectors.filter((sector) => !before.includes(sector));
  const doorways = scenario.room.doors.map(({ wall, fromM, widthM }) =>
    onWall(scenario.room, wall, fromM + widthM / 2),
  );
  if (doorways.some((middleM) => added.includes(sectorOf(setup.mount, middleM)))) return false;
  const chairs = setup.furniture.filter(({ kind }) => kind === 'chair').map(({ id }) => id);
  const open = seatShares(scenario, { settings: { ...settings, maskedSectors: before }, setup }, chairs);
  const seen = chairs.filter((_, i) => open[i]! >= SEEN_HALF);
  return seatShares(scenario, { settings, setup }, seen).every((share) => share >= SEEN_HALF);
}
