/** The smallest nouns: time, places, names. Bearings in the room are clockwise from +y (towards the back wall). */

/** Engine time: 0.1 s since the scenario's start. */
export type Tick = number;
export type PointM = [xM: number, yM: number];
export type Vector3 = [x: number, y: number, z: number];

export type RowId = 'inner' | 'window';
export type OutputId = 'innerRow' | 'windowRow' | 'airContact';
export type ButtonId = 'inner' | 'window' | 'air';
export type WallId = 'front' | 'back' | 'left' | 'right';
export type FaceId = WallId | 'floor' | 'ceiling';
