/**
 * The room as data. Axes: x along the front and back walls (left to right), y from the front wall (y = 0) to the back
 * wall, z up; origin at the front left floor corner.
 */
import type { FaceId, PointM, RowId, WallId } from './basics.ts';

/** A window: a rectangle in a wall. `fromM` runs along the wall from its left/front end in plan (x or y axis). */
export interface WindowSpec {
  id: string;
  wall: WallId;
  fromM: number;
  widthM: number;
  sillM: number;
  headM: number;
  /** Transmittance at normal incidence, before frame and dirt. */
  transmittance: number;
  /** Share of the opening that is glass. */
  frameFactor: number;
  /** Share of light left by dirt. */
  dirtFactor: number;
  /** Depth of the reveal (wall thickness to the glass), m. */
  revealM: number;
}

export interface DoorSpec {
  id: string;
  wall: WallId;
  fromM: number;
  widthM: number;
  headM: number;
  openAtStart: boolean;
  /** Illuminance on the corridor floor outside, lx; light enters through the open door. */
  corridorLx: number;
}

export type FurnitureKind =
  | 'desk'
  | 'table'
  | 'chair'
  | 'shelf'
  | 'cabinet'
  | 'screen'
  | 'glassScreen'
  | 'whiteboard'
  | 'plant';

/** A piece of furniture; the engine sees its boxes (`room/furniture.ts`), the picture the same boxes with detail. */
export interface FurnitureSpec {
  id: string;
  kind: FurnitureKind;
  atM: PointM;
  /** Turned clockwise in plan; quarter turns only, the ray tests work on axis-parallel boxes. */
  turnDeg: 0 | 90 | 180 | 270;
  widthM: number;
  depthM: number;
  heightM: number;
  /** Top reflectance; white paper on a desk is a lighter top. */
  reflectance: number;
}

export type LampDistribution = 'lambert' | 'cosine3' | 'batwing';

export interface LuminaireSpec {
  id: string;
  row: RowId;
  atM: PointM;
  heightM: number;
  lengthM: number;
  widthM: number;
  turnDeg: 0 | 90;
  fluxLm: number;
  distribution: LampDistribution;
  /** Share of the flux that leaves upwards. */
  upShare: number;
}

export interface RoomSpec {
  widthM: number;
  depthM: number;
  heightM: number;
  /** True compass bearing that the outside of the back wall faces (180 = south). */
  backWallFacesDeg: number;
  reflectance: Record<FaceId, number>;
  windows: WindowSpec[];
  doors: DoorSpec[];
  furniture: FurnitureSpec[];
  luminaires: LuminaireSpec[];
  /** Maintained / initial flux of the lamps (0.8 = dirty and aged). */
  maintenanceFactor: number;
  /** Places whose lux is always known (desk tags). Normal up, at `heightM`. */
  deskPoints: { id: string; label: string; row: RowId; atM: PointM; heightM: number }[];
  airTemperatureC: number;
  radiantTemperatureC: number;
}

export interface Site {
  latitudeDeg: number;
  longitudeDeg: number;
  groundReflectance: number;
  /** Obstruction opposite, seen from the façade: everything below this altitude is hidden. 0 = open. */
  obstructionAltitudeDeg: number;
  obstructionReflectance: number;
  /** Air outside, °C, for the glass on the Warmth Map; absent: not known. Sensing does not use it. */
  outsideAirC?: number;
}

export type SkyCondition = 'clear' | 'hazy' | 'passingClouds' | 'overcast';
