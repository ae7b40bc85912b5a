import type { BoxSoup } from '../room/rays.ts';
import type { Vector3 } from '../types.ts';

/** What detection remembers of one body between two sub-steps. Arrays keep their length. */
export interface BodyTrack {
  /** See BodyBuffer.owner. */
  owner: number;
  poseKey: number;
  /** Bodies that may hide part of this one: [owner, poseKey, …] as of the last weighing. */
  hiders: number[];
  /** Sphere around the body: centre x, y, z and radius, room metres. */
  sphereM: number[];
  /** Seen optical weight, m2 sr: per channel the five part kinds, then minus the warm background hidden, W. */
  weights: number[];
  /** Flux difference to an empty room per channel, W. */
  fluxW: number[];
  /** Fading sum of flux changes per channel, W: who caused the signal. */
  recentW: number[];
}

/** Signal chain, comparators and what was seen last; plain numbers, complete. */
export interface MovementState {
  /** Generator of the noise. */
  noise: number[];
  /** [channel * sections + section], one number per first-order section. */
  filters: number[];
  /** Added to each channel's flux so that jumps made by hand are not seen, W. */
  offsetW: number[];
  /** [channel * 4 + level]: 1 above the window, -1 below, 0 inside. */
  comparators: number[];
  /** Largest |signal| since the last change of sign, and that of the excursion before, signed, µV, per channel. */
  runningPeakUv: number[];
  lastPeakUv: number[];
  /** Scene, surfaces in sun or cold, and masks that the tracks were weighed with. */
  sceneKey: number;
  backgroundKey: number;
  maskBits: number;
  tracks: BodyTrack[];
}

/** One facet of the lens and the element that it images, detector frame (x right of the arrow, y along it, z up). */
export interface Facet {
  channel: number;
  ring: number;
  /** Where the middle of the element is imaged. */
  axis: Vector3;
  /** Transmittance times area, m2. */
  openingM2: number;
  /** Element axes seen along the facet (perpendicular to `axis`), and their duals. */
  widthPerp: Vector3;
  lengthPerp: Vector3;
  widthDual: Vector3;
  lengthDual: Vector3;
}

/**
 * Signed angular map of one quadrant channel; the other three are the same map turned by quarter turns.
 * Pixel (i, j) covers x = i / pxPerUnit + leftX, y likewise from lowY; a direction is x across + y up + away of the
 * quadrant's plane (`planeFrame`).
 */
export interface AngularMap {
  widthPx: number;
  heightPx: number;
  pxPerUnit: number;
  /** Left and lower edge, tangents. */
  leftX: number;
  lowY: number;
  /** How far the channel looks over the borders of its quadrant: largest -x or -y of a unit direction. */
  overlap: number;
  /** W(direction), m2, row-major. */
  weightsM2: Float32Array;
  /** Per height of ROW_HEIGHTS_PX, two numbers for each pixel edge of each row (the last edge twice): integral of W dOmega
   *  from the left edge, m2 sr, and how it grows with each pixel that what covers the row lies above its middle. */
  rowSums: Float32Array[];
  /** By channel and level, filled as they are first used: see cellPixels. */
  cells: (CellPixels | undefined)[];
}

/** Cells of a channel's plane, as wide as a row is high: the pixel of the static scene at the middle of each, row by row. */
export interface CellPixels {
  perRow: number;
  pixel: Int32Array;
}

/** Across, up, away of a channel's plane, three numbers each: as the room and as the detector measure them. */
export interface ChannelFrame {
  room: Float64Array;
  lens: Float64Array;
}

/** What stands still around the detector, seen from it: (u, v) = (x, y) / (1 - z) of the direction (detector frame) over
 *  the whole lower half space, which needs no trigonometry per look-up. */
export interface StaticScene {
  sidePx: number;
  /** Distance to the nearest surface that is opaque to heat, m. */
  depthM: Float32Array;
  /** Background radiance above the room's, W m-2 sr-1; null when nothing differs from the room. */
  warmth: Float32Array | null;
  tileSide: number;
  /** Distance to the nearest furniture in each tile, m; the room's shell hides nobody who is inside. */
  tileDepthM: Float32Array;
  /** 1 for each tile in which anything is warmer or colder than the room. */
  tileWarm: Uint8Array;
}

/** The room as rays from the detector see it, room frame. */
export interface Surroundings {
  eyeM: Vector3;
  roomM: Vector3;
  boxes: BoxSoup;
  /** Open doors as [axis, wall coordinate, from, to, head]. */
  doorways: { axis: 0 | 1; wallM: number; fromM: number; toM: number; headM: number }[];
}

/** First-order sections of one channel, transposed direct form: y = b0 x + s, s' = b1 x - a1 y. */
export interface Chain {
  count: number;
  /** [section * 3]: b0, b1, a1. */
  coefficients: Float64Array;
  /** µV at the chain's input per W of flux. */
  uvPerW: number;
  /** Output over input standard deviation of white noise; no unit. */
  noiseGain: number;
}

/** Derived from detector, mount, room; never part of the state. */
export interface MovementTables {
  thresholdsUv: { hold: number; switchOn: number; holdReduced: number; switchOnReduced: number };
  /** The same in order of the comparators: hold, holdReduced, switchOn, switchOnReduced. */
  levelsUv: Float64Array;
  hysteresisShare: number;
  facets: Facet[];
  map: AngularMap;
  frames: ChannelFrame[];
  scene: StaticScene;
  surroundings: Surroundings;
  chain: Chain;
  /** Rows over a body, times the usual number; tests compare with finer ones. */
  fineness: number;
  /** Standard deviation of the noise entering the chain, draughts included, µV. */
  inputNoiseUv: number;
  /** … under a cloth: the detector's own alone. */
  coveredNoiseUv: number;
  /** Sine and cosine of the window arrow's bearing. */
  turnSin: number;
  turnCos: number;
  mountTurnDeg: number;
  /** Fingerprint of everything above but the scene's surfaces in sun or cold, which have their own. */
  sceneKey: number;
  /** Those surfaces in one text, '' without any, and its fingerprint. */
  background: string;
  backgroundKey: number;
}
