/** Shapes that travel from people to detection and light. */
import type { PointM } from './basics.ts';

/** Body parts, index into a body's ellipsoids. Temperature and emissivity go by `PartKind`. */
export type PartKind = 'hair' | 'face' | 'clothing' | 'hand' | 'thing';

/** Ellipsoids of a body. Source: our own rig, two for each limb and the trunk's few; fewer leave gaps that show and are seen. */
export const PARTS_PER_BODY = 16;
/** Numbers of an ellipsoid, m. Source: centre (3), then three semi-axis vectors (9). */
export const NUMBERS_PER_PART = 12;
export const PART_KINDS: readonly PartKind[] = ['hair', 'face', 'clothing', 'hand', 'thing'];
/** Limits of a room: 8 people and 4 warm things. Source: decision of the product; larger sites are divided. */
export const MOST_PEOPLE = 8;
/** People and warm things together. Source: the two limits above. */
export const MOST_BODIES = 12;

/** All bodies at one instant. Bodies of people first, then warm moving things. */
export interface BodyBuffer {
  count: number;
  /** Whose body: index into state.people, or -1 - index into warm things, so that whoever joins moves no number. */
  owner: Int32Array;
  /** Changes whenever the body's shape or place changes; an unchanged key means an unchanged flux. */
  poseKey: Float64Array;
  /** count x PARTS_PER_BODY x NUMBERS_PER_PART; unused parts have zero axes. */
  parts: Float64Array;
  /** [body * PARTS_PER_BODY + part]: index into PART_KINDS. Excess temperature is not stored here: the thermal model gives
   *  radiance per body (in the order of this buffer) and part kind. */
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

/** Somebody who stands so high that the photometers see them; heights above the floor, m. */
export interface UprightBody {
  atM: PointM;
  fromM: number;
  toM: number;
}
