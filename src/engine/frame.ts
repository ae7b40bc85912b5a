/**
 * What a view may know about one instant. Faults, plans to come and hidden settings are not in it.
 * Numbers that move every frame are typed arrays; everything else is small and plain.
 */
import type { AirPhase, BadgeId, Phase, RowPhase } from './trace.ts';
import type { Activity, OutputId, PointM, Pulse, RowId, Tick } from './types.ts';

export interface OutputView {
  output: OutputId;
  on: boolean;
  state: RowPhase | AirPhase;
  badge: BadgeId;
  /** Running count: from `sinceTick` to `untilTick`; null when nothing runs. */
  sinceTick: Tick | null;
  untilTick: Tick | null;
}

/** The three quantities of light of a row, lx; never one word. */
export interface RowLightView {
  ceilingReadingLx: number;
  deskEstimateLx: number;
  daylightEstimateLx: number;
  lampShareLx: number;
  setpointLx: number | null;
  releaseLx: number | null;
}

export interface PersonView {
  id: string;
  atM: PointM;
  headingDeg: number;
  act: Activity | 'walk' | 'outside';
  present: boolean;
}

/** What a hand holds before the detector, and when it is taken away by itself; null: nothing. */
export interface HeldView {
  cloth: { untilTick: Tick } | null;
  torch: { side: RowId; untilTick: Tick } | null;
}

export interface Frame {
  tick: Tick;
  phase: Phase;
  phaseEndsTick: Tick | null;
  sun: {
    altitudeDeg: number;
    /** True azimuth, and bearing in the room (clockwise from +y). */
    azimuthDeg: number;
    bearingDeg: number;
    directNormalLx: number;
    outsideHorizontalLx: number;
    /** The sun's own clock, s after its local midnight, and date. */
    localS: number;
    localDate: string;
  };
  people: PersonView[];
  /** Ellipsoids of the bodies (see BodyBuffer.parts), people first, then warm moving things. */
  bodyParts: Float32Array;
  bodyCount: number;
  /** Light output of the lamps of each row, 0-1 (start-up included). */
  lamps: { inner: number; window: number };
  outputs: Record<OutputId, OutputView>;
  light: { inner: RowLightView; window: RowLightView };
  /** Desk points of the room in their order, lx. */
  deskLx: number[];
  pips: { movement: boolean; light: boolean; air: boolean };
  held: HeldView;
  /** Filtered signal of the five sub-steps, channel-major: [channel * 5 + subStep], µV. */
  signalUv: Float32Array;
  /** Thresholds in force, µV. */
  thresholdsUv: { hold: number; switchOn: number };
  pulses: Pulse[];
  lastSeenTick: Tick | null;
}
