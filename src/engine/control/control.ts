import type { RowLightView } from '../frame.ts';
import type { Explanation } from '../trace.ts';
import type { ControllerSettings, OutputId, RowId, Tick } from '../types.ts';
import type { ControlState, ControlTickInput, ControlTickOutput } from './types.ts';

export interface ControlStart {
  supplyPresent: boolean;
  /** Learned delay to start with, s. */
  adaptiveStartS?: number;
}

export function createControlState(settings: ControllerSettings, start: ControlStart): ControlState {
  return {
    phase: start.supplyPresent ? 'running' : 'off',
    phaseEndsTick: null,
    settings,
    inner: { state: 'waiting', contactClosed: false },
    window: { state: 'waiting', contactClosed: false },
    air: { state: 'airOff', contactClosed: false },
    lastSeenTick: null,
  };
}

/** One tick of the controller, in the order of work of the product: supply, settings, buttons, movement, brightness, timers, outputs. */
export function runControl(_state: ControlState, _input: ControlTickInput): ControlTickOutput {
  return { contacts: { inner: false, window: false, air: false }, events: [] };
}

/** Why, why not, and until when, as of the end of `tick`. Uses the very conditions that the decisions use. */
export function explainOutput(state: ControlState, output: OutputId, tick: Tick): Explanation {
  return {
    output,
    tick,
    on: false,
    phase: state.phase,
    state: 'waiting',
    badge: 'nobodySeen',
    untilTick: null,
    lastSeenTick: null,
    decided: null,
    because: [],
    missing: [],
  };
}

/** The three quantities of light of a row as of the last tick. */
export function rowLight(_state: ControlState, _row: RowId): RowLightView {
  return {
    ceilingReadingLx: 0,
    deskEstimateLx: 0,
    daylightEstimateLx: 0,
    lampShareLx: 0,
    setpointLx: null,
    releaseLx: null,
  };
}
