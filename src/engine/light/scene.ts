/**
 * What the light calculation needs to know about a room, free of any file format: faces, openings, boxes, lamps,
 * sensors. `roomScene` (here) and the `rooms` verb of the command line both fill it.
 * Axes as everywhere: x left to right, y front to back, z up, origin in the front left floor corner; metres.
 */
import type { FaceId, LampDistribution, Vector3 } from '../types.ts';

/** Room faces in the order of the mesh: low and high side of x, y, z. */
export const FACE_ORDER: readonly FaceId[] = ['left', 'right', 'front', 'back', 'floor', 'ceiling'];

/** Glass, or nothing at all, in a rectangle of a face. */
export interface SceneOpening {
  id: string;
  face: FaceId;
  minM: Vector3;
  maxM: Vector3;
  /** Door openings are wall until they are opened; then they shine (see `doors.ts`). */
  kind: 'window' | 'door';
  /** At normal incidence, frame and dirt included; 1 for a hole. */
  transmittance: number;
  /** False: a hole, no change with angle. */
  glazed: boolean;
  insideReflectance: number;
  /** Wall thickness between the inner face and the glass, m. */
  revealM: number;
  /** Light leaving the open door, lm/m2; 0 for windows. */
  exitanceLx: number;
}

export interface SceneBox {
  minM: Vector3;
  maxM: Vector3;
  reflectance: number;
  furnitureId: string | null;
}

/** A luminous rectangle, horizontal; downward light by `distribution`, upward light Lambert. */
export interface SceneLamp {
  centreM: Vector3;
  sizeM: [xM: number, yM: number];
  downLm: number;
  upLm: number;
  distribution: LampDistribution;
}

/** Cosine-weighted illuminance at a point, or a directional photometer (`halfAngleDeg` set). */
export interface SceneSensor {
  id: string;
  positionM: Vector3;
  normal: Vector3;
  /** Cut-off of the photometer's cone; null: plain cosine receiver over the hemisphere. */
  halfAngleDeg: number | null;
}

export interface LightScene {
  sizeM: Vector3;
  reflectance: Record<FaceId, number>;
  openings: SceneOpening[];
  boxes: SceneBox[];
  /** Lamps that switch together. */
  lampGroups: SceneLamp[][];
  sensors: SceneSensor[];
  /** True bearing of the room's +y axis, degrees clockwise from north. */
  yBearingDeg: number;
  groundReflectance: number;
  obstructionAltitudeDeg: number;
  obstructionReflectance: number;
}
