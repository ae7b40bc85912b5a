import type { Activity, PersonSpec, PlanStep, PointM, Tick } from '../types.ts';

/** Where a plan step stands. `turning`, `settling` and `rising` are the ways into and out of an activity. */
export type StepPhase = 'waiting' | 'turning' | 'settling' | 'rising' | 'doing';

/** What the arms rest on between gestures. */
export type ArmRest = 'hang' | 'lap' | 'desk' | 'book' | 'tool';

export type GestureKind = 'type' | 'pageTurn' | 'reach' | 'lean' | 'stretch' | 'shift';

/** A bounded movement that starts and ends in the pose it left; a pure function of time in between. */
export interface Gesture {
  kind: GestureKind;
  startTick: Tick;
  ticks: number;
  /** +1 right, -1 left. */
  side: 1 | -1;
}

/** A Stand-in at one instant; plain, complete. Owner of the shape: this folder. */
export interface PersonState {
  spec: PersonSpec;
  present: boolean;
  /** Taken out of the story; the place in the list stays, so that nobody else's number changes. */
  removed: boolean;
  /** Place and bearing at the start of the tick last advanced to. */
  atM: PointM;
  headingDeg: number;
  act: Activity | 'walk' | 'outside';
  plan: PlanStep[];
  /** Step being done; plan.length when finished. */
  stepIndex: number;
  stepPhase: StepPhase;
  stepStartTick: Tick;
  /** End of `turning`, `settling`, `rising`. */
  readyTick: Tick;
  /** The walk: straight from `fromM` to `toM`; `walkTicks` 0 = standing at `atM`. */
  fromM: PointM;
  toM: PointM;
  walkStartTick: Tick;
  walkTicks: number;
  /** Part of a tick by which a chain of walks is late (+) after rounding each leg to ticks. */
  walkLagTicks: number;
  turnFromDeg: number;
  turnToDeg: number;
  turnStartTick: Tick;
  turnTicks: number;
  /** What is sat down or climbed on; absent: a chair. */
  perch?: 'ladder';
  /** 0 standing, 1 seated, or up the ladder. */
  seatFrom: number;
  seatTo: number;
  seatStartTick: Tick;
  seatTicks: number;
  /** Hands between gestures, body frame: left x y z, right x y z at the moment the rest changed. */
  handsFromM: number[];
  armRest: ArmRest;
  armsStartTick: Tick;
  /** Half the ground a foot covers in a stance, m: from, to, since; falls to 0 by `strideEndTick` (null: walks on). */
  strideFromM: number;
  strideToM: number;
  strideStartTick: Tick;
  strideEndTick: Tick | null;
  /** Gait cycle: phase at `strideStartTick` and cycles per second. */
  gaitPhase: number;
  gaitHz: number;
  gesture: Gesture | null;
  nextGestureTick: Tick | null;
  /** Surfaces now and where they tend, °C: hair, face, clothing, hand. Relaxed a little every tick. */
  surfaceC: number[];
  balanceC: number[];
  /** What `balanceC` was computed for: air °C, radiant °C, work in met. */
  balanceFor: number[];
}
