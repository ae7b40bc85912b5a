/** Rooms that the tests of light share. All invented. */
import { localToUtcMs } from '../../src/engine/calendar.ts';
import type { SkyMoment } from '../../src/engine/light/light.ts';
import type {
  DetectorModel,
  FaceId,
  FurnitureSpec,
  LuminaireSpec,
  RoomSpec,
  Setup,
  Site,
  SkyCondition,
} from '../../src/engine/types.ts';

export const SITE: Site = {
  latitudeDeg: 50,
  longitudeDeg: 10,
  groundReflectance: 0.2,
  obstructionAltitudeDeg: 0,
  obstructionReflectance: 0.3,
};

/** Only the two photometers matter for light; the rest is never read here. */
export const MODEL = { photometerTiltDeg: 35, photometerHalfAngleDeg: 30 } as DetectorModel;

function desk(id: string, x: number, y: number): FurnitureSpec {
  return { id, kind: 'desk', atM: [x, y], turnDeg: 0, widthM: 1.6, depthM: 0.8, heightM: 0.74, reflectance: 0.4 };
}

function lamp(row: LuminaireSpec['row'], x: number, y: number): LuminaireSpec {
  return {
    id: `${row}-${x}`,
    row,
    atM: [x, y],
    heightM: 2.7,
    lengthM: 1.2,
    widthM: 0.1,
    turnDeg: 0,
    fluxLm: 4800,
    distribution: 'lambert',
    upShare: 0.2,
  };
}

export const REFLECTANCE: Record<FaceId, number> = {
  front: 0.5,
  back: 0.5,
  left: 0.5,
  right: 0.5,
  floor: 0.2,
  ceiling: 0.7,
};

/** 6 x 5.4 x 2.8 m, two windows in the back wall (facing south), two desks by them, two inside, two rows of lamps. */
export function office(change: Partial<RoomSpec> = {}): RoomSpec {
  const window = (id: string, fromM: number) => ({
    id,
    wall: 'back' as const,
    fromM,
    widthM: 2,
    sillM: 0.9,
    headM: 2.4,
    transmittance: 0.75,
    frameFactor: 0.75,
    dirtFactor: 0.9,
    revealM: 0.2,
  });
  return {
    widthM: 6,
    depthM: 5.4,
    heightM: 2.8,
    backWallFacesDeg: 180,
    reflectance: REFLECTANCE,
    windows: [window('w1', 0.7), window('w2', 3.3)],
    doors: [{ id: 'door', wall: 'left', fromM: 0.3, widthM: 0.9, headM: 2.1, openAtStart: false, corridorLx: 150 }],
    furniture: [desk('a', 1.6, 4.2), desk('b', 4.4, 4.2), desk('c', 1.6, 1.4), desk('d', 4.4, 1.4)],
    luminaires: [lamp('inner', 1.5, 1.4), lamp('inner', 4.5, 1.4), lamp('window', 1.5, 4), lamp('window', 4.5, 4)],
    maintenanceFactor: 1,
    deskPoints: [
      { id: 'a', label: 'A', row: 'window', atM: [1.6, 4.2], heightM: 0.74 },
      { id: 'b', label: 'B', row: 'window', atM: [4.4, 4.2], heightM: 0.74 },
      { id: 'c', label: 'C', row: 'inner', atM: [1.6, 1.4], heightM: 0.74 },
      { id: 'd', label: 'D', row: 'inner', atM: [4.4, 1.4], heightM: 0.74 },
    ],
    airTemperatureC: 21,
    radiantTemperatureC: 21,
    ...change,
  };
}

/** Order of numbers in `daylightLx`, `rowLx`. */
export const INNER_PHOTOMETER = 0;
export const WINDOW_PHOTOMETER = 1;
export const WINDOW_DESK = 2;
export const INNER_DESK = 4;

export function setupOf(room: RoomSpec, change: Partial<Setup> = {}): Setup {
  return {
    mount: { atM: [3, 2.7], heightM: room.heightM, turnDeg: 0 },
    sky: 'clear',
    sunShiftS: 0,
    sunLocalDate: '2026-03-20',
    airTemperatureC: 21,
    radiantTemperatureC: 21,
    blinds: room.windows.map((w) => ({ windowId: w.id, closedShare: 0 })),
    doors: room.doors.map((d) => ({ doorId: d.id, open: d.openAtStart })),
    furniture: room.furniture,
    reflectance: room.reflectance,
    warmThings: [],
    ...change,
  };
}

/** `utc` hours on a date. */
export function moment(date: string, utcH: number, sky: SkyCondition = 'clear', tick = 0): SkyMoment {
  return { tick, utcMs: localToUtcMs(date, utcH * 3600, 0), sky, seed: 5 };
}
