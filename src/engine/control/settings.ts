/** Settings: the lock, when a change acts, what it restarts. */
import { clamp } from '../math.ts';
import type { ControllerSettings, RowId, SettingsLock } from '../types.ts';
import { rescaleLight } from './brightness.ts';
import { isLit, ROWS } from './decide.ts';
import { forgetPulses } from './pulses.ts';
import type { RowMemory, SettingChange, Work } from './types.ts';

/** Learned delay to start with, s. Assumed: long enough for quiet desks; shorter sends people waving on day one. */
export const ADAPTIVE_START_S = 600;
/** Range of the setpoint, lx. Assumed: below, stairs at night; above, no room of ours. */
export const LEAST_SETPOINT_LX = 10;
/** Assumed: see the lower end. */
export const MOST_SETPOINT_LX = 1000;

/** Which hand the lock keeps out. A locked change is ignored for good. */
export function lockRefuses(lock: SettingsLock, via: 'dial' | 'handHeld' | undefined): boolean {
  return (via === 'dial' && lock === 'handHeldOnly') || (via === 'handHeld' && lock === 'dialsOnly');
}

/** Refused by the lock, in force at once, or stored until Running. */
export function offerChange(work: Work, { change, via }: SettingChange): void {
  const { state, tick } = work;
  if (lockRefuses(state.settings.settingsLock, via)) {
    const note = via === 'dial' ? 'dialIgnoredLocked' : 'handHeldIgnoredLocked';
    work.events.push({ tick, kind: 'note', note });
  } else if (state.phase === 'running') {
    putInForce(work, { ...state.settings, ...change });
  } else {
    state.storedSettings = { ...(state.storedSettings ?? state.settings), ...change };
    work.events.push({ tick, kind: 'note', note: 'storedUntilRunning' });
  }
}

/** The setpoint becomes the daylight estimate of this tick, unrounded. */
export function takePresentLight(work: Work, row: RowId): void {
  const { state } = work;
  if (state.phase !== 'running') {
    work.events.push({ tick: work.tick, kind: 'note', note: 'ignoredOutsideRunning' });
    return;
  }
  const lx = clamp(state[row].light.daylightEstimateLx, LEAST_SETPOINT_LX, MOST_SETPOINT_LX);
  const change = row === 'inner' ? { innerSetpointLx: lx } : { windowSetpointLx: lx };
  putInForce(work, { ...state.settings, ...change });
}

/** New settings act now. Running counts are compared with new lengths; only a changed setpoint restarts the dwells. */
export function putInForce(work: Work, next: ControllerSettings): void {
  const { state } = work;
  const before = state.settings;
  state.settings = next;
  for (const row of ROWS) adoptRow(work, row, before, next);
  if (next.adaptiveDelay && !before.adaptiveDelay) {
    state.adaptive.automaticOffTick = null;
    if (state.adaptive.delayS !== ADAPTIVE_START_S) {
      state.adaptive.delayS = ADAPTIVE_START_S;
      work.events.push({ tick: work.tick, kind: 'adaptiveDelay', delayS: ADAPTIVE_START_S });
    }
  }
  if (next.reducedSensitivity !== before.reducedSensitivity) forgetPulses(state);
}

function adoptRow(work: Work, row: RowId, before: ControllerSettings, next: ControllerSettings): void {
  const memory = work.state[row];
  const inner = row === 'inner';
  if ((inner ? before.innerMode : before.windowMode) !== (inner ? next.innerMode : next.windowMode)) {
    changeMode(memory, inner ? next.innerMode : next.windowMode);
  }
  if (
    (inner ? before.innerSetpointLx : before.windowSetpointLx) !==
    (inner ? next.innerSetpointLx : next.windowSetpointLx)
  ) {
    work.setpointChanged ??= { inner: false, window: false };
    work.setpointChanged[row] = true;
  }
  const fromFactor = inner ? before.innerDeskFactor : before.windowDeskFactor;
  const toFactor = inner ? next.innerDeskFactor : next.windowDeskFactor;
  if (fromFactor !== toFactor) rescaleLight(memory.light, fromFactor, toFactor);
}

/** At once, unless the row is on, or short-impulse is on either side of the change and a visit is running. */
function changeMode(memory: RowMemory, mode: RowMemory['mode']): void {
  const impulseInvolved = mode === 'shortImpulse' || memory.mode === 'shortImpulse';
  const inVisit = memory.state !== 'waiting' || memory.visiting;
  if (isLit(memory.state) || (impulseInvolved && inVisit)) return;
  memory.mode = mode;
}
