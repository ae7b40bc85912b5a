/**
 * The controller: one tick of 0.1 s, in the order of work. The order is what makes simultaneous events definite:
 * movement in the tick of expiry wins, a press is judged before movement of the same tick, a dwell before absence.
 * State is plain data; waiting is a tick to come; each machine stands beside its table in a file of its own.
 */
import type { RowLightView } from '../frame.ts';
import type { ControllerSettings, RowId } from '../types.ts';
import { TICK_MS } from '../units.ts';
import { airOnTime } from './air.ts';
import { createRowLight, judgeLight, takeReadings } from './brightness.ts';
import { decidePresses } from './buttons.ts';
import { obeyCommands } from './commands.ts';
import { createInput, decodeInputs, followEdges } from './inputs.ts';
import { setOutputs } from './outputs.ts';
import { endPhase, followSupply } from './phases.ts';
import { takeMovement } from './presence.ts';
import { PULSE_CHANNELS } from './pulses.ts';
import { releaseLx, setpointLx } from './questions.ts';
import { rowOnAbsence, rowOnLight } from './row.ts';
import { ADAPTIVE_START_S } from './settings.ts';
import { endImpulse } from './shortImpulse.ts';
import type { ControlState, ControlTickInput, ControlTickOutput, RowMemory, Work } from './types.ts';
import { endWalkPulse } from './walkTest.ts';

export { explainOutput } from './explain.ts';

export interface ControlStart {
  /** True: Running, nobody seen, all off. False: Off. */
  supplyPresent: boolean;
  /** Learned delay to start with, s. */
  adaptiveStartS?: number;
}

export function createControlState(settings: ControllerSettings, start: ControlStart): ControlState {
  return {
    phase: start.supplyPresent ? 'running' : 'off',
    phaseSinceTick: null,
    phaseEndsTick: null,
    settings,
    storedSettings: null,
    supply: { present: start.supplyPresent, lostMs: null },
    inputs: { inner: createInput(), window: createInput(), air: createInput() },
    inner: createRow(settings.innerMode),
    window: createRow(settings.windowMode),
    air: { state: 'airOff', contactClosed: false, watchingTick: null, decided: null },
    lastSeenTick: null,
    lastMovementTick: null,
    visitSinceTick: null,
    occupiedAtEnd: false,
    unpairedTick: null,
    switchOnSubSteps: Array.from({ length: PULSE_CHANNELS }, () => null),
    adaptive: { delayS: start.adaptiveStartS ?? ADAPTIVE_START_S, automaticOffTick: null },
    walkPulseTick: null,
    lightKnown: false,
    learnAtTick: null,
  };
}

function createRow(mode: RowMemory['mode']): RowMemory {
  return {
    state: 'waiting',
    contactClosed: false,
    ownLampsLit: false,
    mode,
    lightRequested: false,
    automaticOffTick: null,
    visiting: false,
    impulseTick: null,
    light: createRowLight(),
    decided: null,
  };
}

/** Works one tick on `state`. Call once for every tick, none left out. Returns the contacts commanded and what happened. */
export function runControl(state: ControlState, input: ControlTickInput): ControlTickOutput {
  const work = beginWork(state, input);
  // 1 supply
  followEdges(work);
  followSupply(work);
  // 2 changed daylight, then changed settings
  takeReadings(work);
  obeyCommands(work);
  judgeLight(work);
  // 3 buttons
  decodeInputs(work);
  decidePresses(work);
  // 4 movement and extension pulses
  takeMovement(work);
  // 5 brightness
  if (state.phase === 'running') {
    rowOnLight(work, 'inner');
    rowOnLight(work, 'window');
  }
  // 6 timers
  runTimers(work);
  // 7 outputs
  return setOutputs(work);
}

function runTimers(work: Work): void {
  rowOnAbsence(work, 'inner');
  rowOnAbsence(work, 'window');
  airOnTime(work);
  endImpulse(work, 'inner');
  endImpulse(work, 'window');
  endWalkPulse(work);
  endPhase(work);
}

function beginWork(state: ControlState, input: ControlTickInput): Work {
  return {
    state,
    input,
    tick: input.tick,
    nowMs: input.tick * TICK_MS,
    readings: input.readings,
    closures: null,
    pressed: null,
    extensionPulse: false,
    setpointChanged: null,
    events: [],
  };
}

/** The three quantities of light of a row as of the last tick. */
export function rowLight(state: ControlState, row: RowId): RowLightView {
  const { ceilingReadingLx, deskEstimateLx, daylightEstimateLx, lampShareLx } = state[row].light;
  return {
    ceilingReadingLx,
    deskEstimateLx,
    daylightEstimateLx,
    lampShareLx,
    setpointLx: setpointLx(state, row),
    releaseLx: releaseLx(state, row),
  };
}
