/**
 * The nouns of the engine that more than one stage needs. Stage-private shapes live in `<stage>/types.ts`.
 * Room axes: x along the front and back walls (left to right), y from the front wall (y = 0) to the back wall, z up;
 * origin at the front left floor corner. Angles in files are degrees; bearings in the room are clockwise from +y.
 */
import type { ControlState } from './control/types.ts';
import type { MovementState } from './detection/types.ts';
import type { LightState } from './light/types.ts';
import type { PersonState } from './people/types.ts';
import type { PlantState } from './plant/types.ts';
import type { WiresState } from './wires.ts';

/** Engine time: 0.1 s since the scenario's start. */
export type Tick = number;
export type PointM = [xM: number, yM: number];
export type Vector3 = [x: number, y: number, z: number];

export type RowId = 'inner' | 'window';
export type OutputId = 'innerRow' | 'windowRow' | 'airContact';
export type ButtonId = 'inner' | 'window' | 'air';
export type WallId = 'front' | 'back' | 'left' | 'right';
export type FaceId = WallId | 'floor' | 'ceiling';

// --- the room -----------------------------------------------------------------------------------------------------

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
}

export type SkyCondition = 'clear' | 'hazy' | 'passingClouds' | 'overcast';

// --- the detector -------------------------------------------------------------------------------------------------

/** What a data sheet of the sensing part would say; the rings are our own lens. */
export interface DetectorModel {
  id: string;
  rings: { nadirDeg: number; facets: number; areaCm2: number; staggerPitch: number }[];
  lensTransmittance: number;
  focalLengthMm: number;
  blurMm: number;
  elementWidthMm: number;
  elementLengthMm: number;
  elementSpacingMm: number;
  moduleTiltDeg: number;
  thermalTimeS: number;
  electricalTimeS: number;
  responsivityVPerW: number;
  highPassHz: number[];
  lowPassHz: number[];
  noiseUv: number;
  /** Comparator thresholds at factory sensitivity, µV at the chain output. */
  holdUv: number;
  switchOnUv: number;
  hysteresisShare: number;
  /** Both thresholds times this in reduced sensitivity. */
  reducedFactor: number;
  /** Two directional photometers: tilted this far from straight down, this half-angle, towards window and room. */
  photometerTiltDeg: number;
  photometerHalfAngleDeg: number;
}

export interface DetectorMount {
  atM: PointM;
  heightM: number;
  /** Bearing of the window arrow in the room: 0 = towards the back wall, clockwise. */
  turnDeg: number;
}

export type RowMode = 'autoOn' | 'manualOn' | 'shortImpulse';
export type SettingsLock = 'open' | 'dialsOnly' | 'handHeldOnly';

export interface ControllerSettings {
  innerMode: RowMode;
  windowMode: RowMode;
  /** null = brightness ignored. */
  innerSetpointLx: number | null;
  windowSetpointLx: number | null;
  innerOffDelayS: number;
  windowOffDelayS: number;
  innerDeskFactor: number;
  windowDeskFactor: number;
  delaysCoupled: boolean;
  brightDwellS: number;
  darkDwellS: number;
  /** null = automatic: the larger of 40 lx and a fifth of the setpoint. */
  releaseMarginLx: number | null;
  lampShare: 'learned' | 'off';
  adaptiveDelay: boolean;
  reentryGraceS: number;
  airOnDelayS: number;
  airGapLimitS: number;
  airOffDelayS: number;
  buttonPolicy: 'onAndOff' | 'onOnly';
  oneButtonForBothRows: boolean;
  reducedSensitivity: boolean;
  /** Clip-on sectors, k covers bearings 30k to 30k+30 degrees from the window arrow, clockwise. */
  maskedSectors: number[];
  settingsLock: SettingsLock;
  warmUpS: number;
}

// --- people -------------------------------------------------------------------------------------------------------

/** What a Stand-in does while staying in place. `sit…` need a seat height, the rest stand. */
export type Activity =
  | 'stand'
  | 'sway'
  | 'stretch'
  | 'sit'
  | 'type'
  | 'read'
  | 'reach'
  | 'lean'
  | 'sitStill'
  | 'standStill';

/**
 * One line of a Walk Line. Steps run one after the other; `fromS` (scenario time) waits for its moment first.
 * `walk` goes straight to `toM`; an activity lasts `forS` (absent: until the next step's `fromS`, or for good).
 * `gestureEveryS`: mean gap between gestures of `type`, `read`, `reach`, `lean`, `stretch` (seeded); absent = the activity's own pace.
 */
export type PlanStep =
  | { act: 'walk'; toM: PointM; speedMps: number; fromS?: number }
  | { act: 'leave'; fromS?: number }
  | { act: Activity; forS?: number; fromS?: number; headingDeg?: number; gestureEveryS?: number };

export interface PersonSpec {
  /** One capital letter, shown on the disc above the head. */
  id: string;
  heightM: number;
  clothingClo: number;
  /** Air temperature where this person was before coming in, °C; surfaces adapt from there. */
  cameFromC: number;
  atM: PointM;
  headingDeg: number;
  /** Not in the room (and not seen) before the first step that moves them. */
  outsideAtStart: boolean;
  plan: PlanStep[];
}

export type WarmThingKind = 'radiator' | 'fan' | 'curtain' | 'warmAirOutlet' | 'cleaningRobot' | 'dog';

export interface WarmThingSpec {
  id: string;
  kind: WarmThingKind;
  atM: PointM;
  heightM: number;
  /** Above (or below) the room, K. */
  excessK: number;
  on: boolean;
  /** Where it walks or sways; meaning depends on the kind. */
  pathM?: PointM[];
  speedMps?: number;
}

// --- scenario -----------------------------------------------------------------------------------------------------

/** A story: everything needed to run it, references already resolved (`src/scenario` reads the JSON). */
export interface Scenario {
  id: string;
  title: string;
  /** The question over the picture, at most nine words. */
  question: string;
  /** One or two plain sentences for whoever opens it. */
  brief: string;
  seed: number;
  start: { localDate: string; localTime: string; utcOffsetH: number };
  /** The story is meant to be watched until here; it can run longer. */
  endS: number;
  /** Speed that Run begins with. */
  speed: number;
  site: Site;
  room: RoomSpec;
  sky: SkyCondition;
  detectorModel: DetectorModel;
  mount: DetectorMount;
  settings: ControllerSettings;
  supplyAtStart: boolean;
  people: PersonSpec[];
  warmThings: WarmThingSpec[];
  script: { atS: number; input: Input }[];
}

// --- inputs -------------------------------------------------------------------------------------------------------

/** What anybody does to the room. Instants inside a tick are `offsetMs` 0-99, default 0. */
export type Input =
  | { kind: 'setSettings'; change: Partial<ControllerSettings>; via?: 'dial' | 'handHeld' }
  | { kind: 'takePresentLight'; row: RowId }
  | { kind: 'walkTest'; action: 'start' | 'end' }
  | { kind: 'contact'; input: ButtonId; closed: boolean; offsetMs?: number }
  /** A finger: closes the input for `closedMs` (default 300). */
  | { kind: 'press'; input: ButtonId; closedMs?: number; offsetMs?: number }
  | { kind: 'supply'; on: boolean; offsetMs?: number }
  | { kind: 'addPerson'; person: PersonSpec }
  | { kind: 'removePerson'; personId: string }
  /** Set down somewhere at once. Placing is the stage manager's hand, not movement: it gives no pulse. */
  | { kind: 'placePerson'; personId: string; atM: PointM; headingDeg?: number }
  /** Replaces what is left of the plan; the person goes on from where they are. */
  | { kind: 'setPlan'; personId: string; plan: PlanStep[] }
  /** The sun's own clock: shift against the room's clock, and another date (null = the scenario's). */
  | { kind: 'moveSun'; shiftS: number; localDate: string | null }
  | { kind: 'setSky'; sky: SkyCondition }
  | { kind: 'setBlind'; windowId: string; closedShare: number }
  | { kind: 'setDoor'; doorId: string; open: boolean }
  | { kind: 'moveDetector'; mount: DetectorMount }
  | { kind: 'setTemperature'; airTemperatureC: number }
  | { kind: 'setWarmThing'; thingId: string; on: boolean }
  | { kind: 'moveFurniture'; furnitureId: string; atM: PointM }
  | { kind: 'setReflectance'; target: FaceId | string; reflectance: number };

/** Order of work is total: by tick, then by serial. */
export interface TimedInput {
  tick: Tick;
  serial: number;
  input: Input;
}

// --- state --------------------------------------------------------------------------------------------------------

/** The part of the world that inputs can change (settings live in the controller, who may refuse them). */
export interface Setup {
  mount: DetectorMount;
  sky: SkyCondition;
  sunShiftS: number;
  sunLocalDate: string;
  airTemperatureC: number;
  radiantTemperatureC: number;
  blinds: { windowId: string; closedShare: number }[];
  doors: { doorId: string; open: boolean }[];
  furniture: FurnitureSpec[];
  reflectance: Record<FaceId, number>;
  warmThings: WarmThingSpec[];
}

/** Complete and plain: survives JSON unchanged, and nothing else affects the future. */
export interface SimState {
  engine: string;
  tick: Tick;
  seed: number;
  /** Named random streams, in order of first use; `values` is the generator's own state. */
  random: { name: string; values: number[] }[];
  setup: Setup;
  people: PersonState[];
  wires: WiresState;
  movement: MovementState;
  light: LightState;
  control: ControlState;
  plant: PlantState;
}

// --- shapes that travel between stages -----------------------------------------------------------------------------

/** Body parts, index into a body's ellipsoids. Temperature and emissivity go by `PartKind`. */
export type PartKind = 'hair' | 'face' | 'clothing' | 'hand' | 'thing';

/** Ellipsoids per body and numbers per ellipsoid: centre (3), then three semi-axis vectors (9), room metres. */
export const PARTS_PER_BODY = 16;
export const NUMBERS_PER_PART = 12;
export const PART_KINDS: readonly PartKind[] = ['hair', 'face', 'clothing', 'hand', 'thing'];
/** Limits of a room: 8 people and 4 warm things. Source: decision of the product; larger sites are divided. */
export const MOST_PEOPLE = 8;
export const MOST_BODIES = 12;

/** All bodies at one instant. Bodies of people first, then warm moving things. */
export interface BodyBuffer {
  count: number;
  /** Whose body: index into state.people, or state.people.length + index into warm things. */
  owner: Int32Array;
  /** Changes whenever the body's shape or place changes; an unchanged key means an unchanged flux. */
  poseKey: Float64Array;
  /** count x PARTS_PER_BODY x NUMBERS_PER_PART; unused parts have zero axes. */
  parts: Float64Array;
  /** Excess temperature is not stored here: the thermal model gives radiance per body and part kind. */
  partKind: Uint8Array;
}

export function createBodyBuffer(capacity: number): BodyBuffer {
  return {
    count: 0,
    owner: new Int32Array(capacity),
    poseKey: new Float64Array(capacity),
    parts: new Float64Array(capacity * PARTS_PER_BODY * NUMBERS_PER_PART),
    partKind: new Uint8Array(capacity * PARTS_PER_BODY),
  };
}

/** A comparator event. `level` says which threshold the signal passed; sensing never asks what control does with it. */
export interface Pulse {
  /** Sub-step 0-4 inside the tick. */
  subStep: number;
  /** Quadrant channel 0-3. */
  channel: number;
  polarity: 1 | -1;
  level: 'hold' | 'switchOn' | 'holdReduced' | 'switchOnReduced';
  /** Signal when the threshold was passed, µV. */
  signalUv: number;
  /** Bearing from the window arrow and floor place of the body that caused most of it (null: noise). */
  bearingDeg: number | null;
  atM: PointM | null;
}

/** Ceiling readings, lux-like (a uniform field of luminance L reads pi L). */
export interface CeilingReadings {
  innerLx: number;
  windowLx: number;
}
