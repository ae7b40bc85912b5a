/** What happened. Events are made where the decision is made and carry their reason; nothing re-derives it later. */
import type { ButtonId, Input, OutputId, PointM, Pulse, RowId, Tick } from './types.ts';

export type Phase = 'off' | 'warmUp' | 'running' | 'walkTest';
export type RowPhase = 'waiting' | 'litByAutomatic' | 'daylightIsEnough' | 'heldOn' | 'heldOff';
export type AirPhase = 'airOff' | 'watching' | 'airOn' | 'airHeldOn' | 'airHeldOff';

/** A condition as it stood at the decision. `value` meets `limit`; both in `unit`. */
export interface Condition {
  id: ConditionId;
  holds: boolean;
  value: number | null;
  limit: number | null;
  unit: 'lx' | 's' | 'none';
  /** Since when it has held (or failed). */
  sinceTick: Tick | null;
  /** When time alone will change it. */
  untilTick: Tick | null;
}

export type ConditionId =
  | 'occupied' // value: s since last seen, limit: off-delay
  | 'dark' // value: daylight estimate, limit: setpoint
  | 'bright' // value: daylight estimate, limit: release level
  | 'brightDwell' // value: s bright so far, limit: bright dwell
  | 'darkDwell'
  | 'movement'
  | 'switchOnPair' // two pulses of one channel above the switch-on threshold within 4 s
  | 'autoOnMode'
  | 'lightRequested'
  | 'reentryGrace'
  | 'heldByButton'
  | 'impulsePause'
  | 'onDelay'
  | 'gapLimit'
  | 'airOccupied'
  | 'supply'
  | 'warmUp'
  | 'walkTest';

export type ReasonCode =
  | 'seenAndDark'
  | 'seenNotDark'
  | 'pressed'
  | 'pressedBothRows'
  | 'brightLongEnough'
  | 'darkLongEnough'
  | 'nobodySeen'
  | 'warmUpBegan'
  | 'warmUpEnded'
  | 'supplyLost'
  | 'supplyReturned'
  | 'supplyDipRiddenThrough'
  | 'walkTestBegan'
  | 'walkTestEnded'
  | 'walkTestPulse'
  | 'walkTestPulseEnded'
  | 'impulse'
  | 'impulseEnded'
  | 'presenceBegan'
  | 'onDelayOver'
  | 'gapTooLong';

export interface Reason {
  code: ReasonCode;
  /** In the order a person would tell them. */
  conditions: Condition[];
}

export type TraceEvent = { tick: Tick } & (
  | { kind: 'output'; output: OutputId; on: boolean; reason: Reason }
  | { kind: 'row'; row: RowId; from: RowPhase; to: RowPhase; reason: Reason }
  | { kind: 'air'; from: AirPhase; to: AirPhase; reason: Reason }
  | { kind: 'phase'; from: Phase; to: Phase; reason: Reason }
  /** A pulse of the comparator; `counted` = the controller took it as movement. */
  | { kind: 'pulse'; pulse: Pulse; counted: boolean }
  /** Movement taken by the controller (own pulses, an extension pulse, or a timeline's). Restarts the delays. */
  | { kind: 'seen'; by: 'pulse' | 'extension' | 'given'; atM: PointM | null }
  | { kind: 'press'; input: ButtonId }
  | { kind: 'flag'; flag: 'inputStuckClosed'; input: ButtonId; state: 'raised' | 'cleared' }
  | { kind: 'note'; note: ControlNote; input?: ButtonId }
  | { kind: 'adaptiveDelay'; delayS: number }
  /** The daylight estimate of a row passed its setpoint or release level. */
  | {
      kind: 'crossing';
      row: RowId;
      level: 'setpoint' | 'release';
      rising: boolean;
      estimateLx: number;
      limitLx: number;
    }
  | { kind: 'lampShare'; row: RowId; shareLx: number }
  | { kind: 'input'; input: Input }
);

export type ControlNote =
  | 'dialIgnoredLocked'
  | 'handHeldIgnoredLocked'
  | 'closureInGuardBand'
  | 'storedUntilRunning'
  | 'ignoredOutsideRunning';

/** Badge shapes of the product, in words beside them always. */
export type BadgeId =
  /** Seen from outside alone: its lamps, or its fan. */
  | 'on'
  | 'off'
  | 'someoneSeen'
  | 'timing'
  | 'brightEnough'
  | 'enoughDaylight'
  | 'nobodySeen'
  | 'waitsForButton'
  | 'heldOn'
  | 'heldOff'
  | 'watching'
  | 'starting'
  | 'walkTest'
  | 'deviceOff'
  | 'notMeasured';

/** Why an output is as it is, why it is not otherwise, and what would change it, at one instant. */
export interface Explanation {
  output: OutputId;
  tick: Tick;
  on: boolean;
  phase: Phase;
  state: RowPhase | AirPhase;
  badge: BadgeId;
  /** When time alone will switch it (null: nothing is running). */
  untilTick: Tick | null;
  lastSeenTick: Tick | null;
  /** The decision that brought the present state: its tick and reason (null: since the start). */
  decided: { tick: Tick; reason: Reason } | null;
  /** Live conditions that keep it so. */
  because: Condition[];
  /** Live conditions that would have to hold for the opposite and do not. */
  missing: Condition[];
}
