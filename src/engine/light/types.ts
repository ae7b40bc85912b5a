import type { CeilingReadings, FaceId, Site, Tick, Vector3 } from '../types.ts';
import type { Columns, WindowLight } from './field.ts';
import type { SceneParts } from './memory.ts';
import type { PictureGrid } from './picture.ts';
import type { LightScene } from './scene.ts';

/** Sun and sky at one instant. */
export interface SkySample {
  tick: Tick;
  altitudeDeg: number;
  azimuthDeg: number;
  directNormalLx: number;
  outsideHorizontalLx: number;
  /** Daylight alone on the sensors: both photometers, then desk points, lx. */
  daylightLx: number[];
}

/** Two samples ten seconds of room time apart; readings between them are interpolated. Owner: this folder. */
export interface LightState {
  before: SkySample;
  after: SkySample;
}

/** Derived from room, site, setup; never part of the state. */
export interface LightTables {
  /** Full light of each lamp row on the sensors (inner and window photometer, then desk points), lx. */
  rowLx: { inner: number[]; window: number[] };
  /** The same for each door when open, in the room's order of doors. */
  doors: { doorId: string; lx: number[] }[];
  site: Site;
  scene: LightScene;
  parts: SceneParts;
  /** What the picture needs, made when it is first asked for. */
  picture: { grid: PictureGrid; columns: Columns; through: WindowLight } | null;
}

/** Elements of one surface of the room for the picture: a grid of nu x nv cells spanned by u and v. */
export interface FieldFace {
  id: string;
  kind: FaceId | 'furniture';
  furnitureId: string | null;
  originM: Vector3;
  uM: Vector3;
  vM: Vector3;
  normal: Vector3;
  nu: number;
  nv: number;
  /** First cell in the field arrays; cell (i, j) is offset + j * nu + i. */
  offset: number;
  reflectance: number;
}

/** Lux on every element, stored per source and mixed by the view: day + inner level x inner + ... . */
export interface LightField {
  faces: FieldFace[];
  /** Sky and sun reflected inside; the sun's own direct patch is added by the view, same formula, same lux. */
  daylightLx: Float32Array;
  innerRowLx: Float32Array;
  windowRowLx: Float32Array;
  /** Light through open doors. */
  doorLx: Float32Array;
}

export interface RoomLight {
  readings: CeilingReadings;
  deskLx: number[];
}
