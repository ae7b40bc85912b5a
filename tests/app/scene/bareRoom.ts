import type { RoomSpec } from '../../../src/engine/types.ts';

/** A room with one window and one door, nothing in it. */
export function bareRoom(change: Partial<RoomSpec> = {}): RoomSpec {
  return {
    widthM: 8,
    depthM: 8,
    heightM: 3,
    backWallFacesDeg: 180,
    reflectance: { front: 0.5, back: 0.5, left: 0.5, right: 0.5, floor: 0.2, ceiling: 0.7 },
    windows: [
      {
        id: 'w',
        wall: 'back',
        fromM: 2,
        widthM: 2,
        sillM: 1,
        headM: 2.5,
        transmittance: 0.8,
        frameFactor: 0.75,
        dirtFactor: 0.9,
        revealM: 0.2,
      },
    ],
    doors: [{ id: 'd', wall: 'left', fromM: 0.5, widthM: 1, headM: 2.1, openAtStart: false, corridorLx: 100 }],
    furniture: [],
    luminaires: [],
    maintenanceFactor: 0.8,
    deskPoints: [],
    airTemperatureC: 21,
    radiantTemperatureC: 21,
    ...change,
  };
}
