import type { AirPhase, Phase, Reason, RowPhase, TraceEvent } from '../trace.ts';
import type { ButtonId, CeilingReadings, ControllerSettings, Pulse, RowId, RowMode, Tick } from '../types.ts';

/** The last decision about an output: when, and why. */
export interface Decided {
  tick: Tick;
  reason: Reason;
}

/** What a row's light is worth. All lux at the desk except the ceiling reading. */
export interface RowLight {
  ceilingReadingLx: number;
  deskEstimateLx: number;
  daylightEstimateLx: number;
  /** The part of the desk estimate that is the controller's own lamps. */
  lampShareLx: number;
  /** Estimate under the setpoint, and since when it is (or is not); a changed setpoint starts the count again. */
  dark: boolean;
  darkTurnedTick: Tick;
  /** Estimate at or above the release level, and since when it is (or is not). */
  bright: boolean;
  brightTurnedTick: Tick;
}

/** Everything remembered about one row. */
export interface RowMemory {
  state: RowPhase;
  contactClosed: boolean;
  /** The row's own lamps are commanded on (impulses to an external timer and Warm-up do not count). */
  ownLampsLit: boolean;
  /** Mode in force. Differs from the settings while a change waits for the next absence. */
  mode: RowMode;
  /** Light was asked for by button in this visit (manual-on), or the visit goes on after a re-entry in time. */
  lightRequested: boolean;
  /** Last time that absence put this row's lamps out. */
  automaticOffTick: Tick | null;
  /** Short-impulse only: a visit has begun and absence has not ended it. */
  visiting: boolean;
  /** Start of the last impulse. */
  impulseTick: Tick | null;
  light: RowLight;
  decided: Decided | null;
}

export interface AirMemory {
  state: AirPhase;
  contactClosed: boolean;
  /** Start of the on-delay. */
  watchingTick: Tick | null;
  decided: Decided | null;
}

/** One button input. Instants are exact ms. */
export interface InputMemory {
  /** Null: open. */
  closedSinceMs: number | null;
  openSinceMs: number;
  /** The count towards "stuck" starts here (the closing, or the end of Warm-up if later). */
  stuckFromMs: number;
  /** This closure has already acted at 1.5 s. */
  acted: boolean;
  /** This closure means nothing: it crossed a change of phase, or the input was stuck when it began. */
  void: boolean;
  stuck: boolean;
}

/** Everything the controller remembers; plain data, complete. */
export interface ControlState {
  phase: Phase;
  /** Start and end of Warm-up or Walk-test. */
  phaseSinceTick: Tick | null;
  phaseEndsTick: Tick | null;
  /** In force. Replaced, never changed in place. */
  settings: ControllerSettings;
  /** Set outside Running; in force when Running begins. Null: nothing waits. */
  storedSettings: ControllerSettings | null;
  supply: { present: boolean; lostMs: number | null };
  inputs: Record<ButtonId, InputMemory>;
  inner: RowMemory;
  window: RowMemory;
  air: AirMemory;
  /** Last movement, extension pulse or accepted press. */
  lastSeenTick: Tick | null;
  /** Last movement or extension pulse. */
  lastMovementTick: Tick | null;
  /** When the running visit began. */
  visitSinceTick: Tick | null;
  /** A row off-delay was running at the end of the last tick. */
  occupiedAtEnd: boolean;
  /** Reduced sensitivity: the latest movement in an empty room that has no partner yet. */
  unpairedTick: Tick | null;
  /** Last pulse above the switch-on threshold by quadrant channel, in sub-steps since the start. */
  switchOnSubSteps: (number | null)[];
  adaptive: { delayS: number; automaticOffTick: Tick | null };
  /** Start of the last walk-test pulse. */
  walkPulseTick: Tick | null;
  /** The estimate has been taken since Running began. */
  lightKnown: boolean;
  /** Own lamps have just switched: estimates stand still, shares are learned in this tick. */
  learnAtTick: Tick | null;
}

export type SettingChange = { change: Partial<ControllerSettings>; via?: 'dial' | 'handHeld' };

/** Handled in order. `turned` brings the readings after the detector was turned in the middle of the list. */
export type ControlCommand =
  | { kind: 'takePresentLight'; row: RowId }
  | { kind: 'walkTest'; action: 'start' | 'end' }
  | ({ kind: 'setSettings' } & SettingChange)
  | { kind: 'turned'; readings: CeilingReadings };

/** What reaches the controller in one tick. Instants are ms since the start, exact, at or before the tick's own. */
export interface ControlTickInput {
  tick: Tick;
  supplyEdges: { tMs: number; on: boolean }[];
  /** Edges of the inputs' current above 1.5 mA. */
  contactEdges: { tMs: number; input: ButtonId; closed: boolean }[];
  commands: ControlCommand[];
  /** From sensing; the controller applies hold and switch-on rules (two pulses of one channel within 4 s). */
  pulses: Pulse[];
  /** Movement given as such (timelines): already past the pulse rules. `sector` null = anywhere. */
  movements: { sector: number | null }[];
  readings: CeilingReadings;
}

export interface ControlTickOutput {
  /** Contacts commanded at the end of the tick. */
  contacts: { inner: boolean; window: boolean; air: boolean };
  events: TraceEvent[];
}

/** A closure that ended in this tick. */
export interface Closure {
  input: ButtonId;
  lengthMs: number;
  acted: boolean;
  void: boolean;
}

/** One tick's work: passed from step to step, forgotten afterwards. */
export interface Work {
  readonly state: ControlState;
  readonly input: ControlTickInput;
  readonly tick: Tick;
  readonly nowMs: number;
  /** Readings in force: those of the input until the detector is turned. */
  readings: CeilingReadings;
  /** Null: none ended. */
  closures: Closure[] | null;
  pressed: { inner: boolean; window: boolean; air: boolean } | null;
  extensionPulse: boolean;
  /** Setpoint changed in this tick: both dwells of the row start again. */
  setpointChanged: { inner: boolean; window: boolean } | null;
  readonly events: TraceEvent[];
}
