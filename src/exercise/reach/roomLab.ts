/** The laboratory in a furnished room: its detector as it hangs, its walls, and how far one can go before them. */
import { buildMovementTables } from '../../engine/detection/sense.ts';
import type { MovementTables } from '../../engine/detection/types.ts';
import { cos, PI, sin } from '../../engine/math.ts';
import { staticWarmPatches } from '../../engine/people/people.ts';
import type { ControllerSettings, DetectorModel, PointM, RoomSpec, Setup } from '../../engine/types.ts';
import type { Lab } from './lab.ts';

export interface FurnishedRoom {
  model: DetectorModel;
  room: RoomSpec;
  setup: Setup;
  settings: Pick<ControllerSettings, 'maskedSectors' | 'reducedSensitivity'>;
  /** Built from the same room and setup; left out: built here, which takes a third of a second. */
  tables?: MovementTables;
}

/**
 * A room as it is furnished, with nobody in it and no warm thing moving: what warm things give by themselves is not
 * reach. Radiators stay in the background.
 */
export function labInRoom({ model, room, setup, settings, tables }: FurnishedRoom): Lab {
  return {
    tables: tables ?? buildMovementTables(model, room, setup, staticWarmPatches(setup.warmThings)),
    setup: { ...setup, warmThings: [] },
    model,
    centreM: setup.mount.atM,
    roomM: [room.widthM, room.depthM],
    maskedSectors: settings.maskedSectors,
    reduced: settings.reducedSensitivity,
  };
}

/** Nobody walks nearer to a wall than this, m. Assumed: half a person's breadth; less lets arms stick out of the room. */
export const CLEAR_OF_WALL_M = 0.25;

/** How far one may go from a floor point along a unit direction before a wall stops it, m; `mostM` when none does. */
export function roomAheadM(lab: Lab, fromM: PointM, alongX: number, alongY: number, mostM: number): number {
  let far = mostM;
  for (const axis of [0, 1] as const) {
    const step = axis === 0 ? alongX : alongY;
    if (step > 1e-12) far = Math.min(far, (lab.roomM[axis] - CLEAR_OF_WALL_M - fromM[axis]) / step);
    else if (step < -1e-12) far = Math.min(far, (CLEAR_OF_WALL_M - fromM[axis]) / step);
  }
  return Math.max(0, far);
}

/** The same from under the detector along a bearing. */
export function limitM(lab: Lab, bearingDeg: number, mostM: number): number {
  const rad = (bearingDeg * PI) / 180;
  return roomAheadM(lab, lab.centreM, sin(rad), cos(rad), mostM);
}
