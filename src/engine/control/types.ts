import type { AirPhase, Phase, RowPhase, TraceEvent } from '../trace.ts';
import type { ButtonId, CeilingReadings, ControllerSettings, Pulse, RowId, Tick } from '../types.ts';

/** Everything the controller remembers. Owner of the shape: this folder. */
export interface ControlState {
  phase: Phase;
  phaseEndsTick: Tick | null;
  settings: ControllerSettings;
  inner: { state: RowPhase; contactClosed: boolean };
  window: { state: RowPhase; contactClosed: boolean };
  air: { state: AirPhase; contactClosed: boolean };
  lastSeenTick: Tick | null;
}

/** What reaches the controller in one tick. Instants are ms since the start, exact. */
export interface ControlTickInput {
  tick: Tick;
  supplyEdges: { tMs: number; on: boolean }[];
  /** Edges of the inputs' current above 1.5 mA. */
  contactEdges: { tMs: number; input: ButtonId; closed: boolean }[];
  /** In file order. */
  settingChanges: { change: Partial<ControllerSettings>; via?: 'dial' | 'handHeld' }[];
  commands: ({ kind: 'takePresentLight'; row: RowId } | { kind: 'walkTest'; action: 'start' | 'end' })[];
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
