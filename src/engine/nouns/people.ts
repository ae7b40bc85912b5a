/** Stand-ins and warm things as data. */
import type { PointM } from './basics.ts';

/**
 * What a Stand-in does while staying in place. `sit…` need a seat height, `ladder` is up a step ladder at the detector's
 * work, the rest stand.
 */
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
  | 'standStill'
  | 'ladder';

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
  /** Bearing that a curtain's cloth faces; default 0 (it hangs along x). */
  turnDeg?: number;
}
