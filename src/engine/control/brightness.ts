/**
 * Three quantities of light per row: ceiling reading x desk factor = desk estimate; minus the lamp share = daylight
 * estimate, which alone meets the setpoint. The share is learned 2 s after own lamps switch; until then the estimate
 * stands still. Daylight that changes in those 2 s is learned as lamp light until the next switching.
 */

import { ROWS } from './decide.ts';
import { releaseLx, setpointLx } from './questions.ts';
import type { ControlState, RowLight, Work } from './types.ts';

/** From own switching to learning, ticks (2 s). Assumed: lamps have run up by then; longer mistakes more daylight for lamps. */
export const LEARN_AFTER_TICKS = 20;

export function createRowLight(): RowLight {
  return {
    ceilingReadingLx: 0,
    deskEstimateLx: 0,
    daylightEstimateLx: 0,
    lampShareLx: 0,
    dark: true,
    darkTurnedTick: 0,
    bright: false,
    brightTurnedTick: 0,
  };
}

/** Readings to estimates. May run twice in a tick: learning happens in the first pass only. */
export function takeReadings(work: Work): void {
  const { state, readings } = work;
  const { settings } = state;
  state.inner.light.ceilingReadingLx = readings.innerLx;
  state.inner.light.deskEstimateLx = readings.innerLx * settings.innerDeskFactor;
  state.window.light.ceilingReadingLx = readings.windowLx;
  state.window.light.deskEstimateLx = readings.windowLx * settings.windowDeskFactor;
  if (state.phase !== 'running' || !state.lightKnown || settings.lampShare === 'off') {
    forgetLampShare(state);
    return;
  }
  if (state.learnAtTick === null) {
    subtractShare(state.inner.light);
    subtractShare(state.window.light);
  } else if (work.tick >= state.learnAtTick) {
    learnShares(work);
  }
}

function subtractShare(light: RowLight): void {
  light.daylightEstimateLx = light.deskEstimateLx - light.lampShareLx;
}

function learnShares(work: Work): void {
  const { state } = work;
  const lampsLit = state.inner.ownLampsLit || state.window.ownLampsLit;
  for (const row of ROWS) {
    const { light } = state[row];
    light.lampShareLx = lampsLit ? light.deskEstimateLx - light.daylightEstimateLx : 0;
    if (!lampsLit) light.daylightEstimateLx = light.deskEstimateLx;
    work.events.push({ tick: work.tick, kind: 'lampShare', row, shareLx: light.lampShareLx });
  }
  state.learnAtTick = null;
}

function forgetLampShare(state: ControlState): void {
  state.learnAtTick = null;
  for (let i = 0; i < ROWS.length; i++) {
    const { light } = state[ROWS[i]!];
    light.lampShareLx = 0;
    light.daylightEstimateLx = light.deskEstimateLx;
  }
}

/** A changed desk factor is a new unit for the same light: what was learned is kept, in the new unit. */
export function rescaleLight(light: RowLight, fromFactor: number, toFactor: number): void {
  const ratio = fromFactor > 0 ? toFactor / fromFactor : 0;
  light.lampShareLx *= ratio;
  light.daylightEstimateLx *= ratio;
}

/** Dark and Bright, and since when. Counts belong to the light: they run in every row state of Running. */
export function judgeLight(work: Work): void {
  if (work.state.phase !== 'running') return;
  for (let i = 0; i < ROWS.length; i++) judgeRow(work, ROWS[i]!);
  work.state.lightKnown = true;
}

function judgeRow(work: Work, row: 'inner' | 'window'): void {
  const { state, tick } = work;
  const { light } = state[row];
  const setpoint = setpointLx(state, row);
  const release = releaseLx(state, row);
  const dark = setpoint === null || light.daylightEstimateLx < setpoint;
  const bright = release !== null && light.daylightEstimateLx >= release;
  if (dark !== light.dark) {
    light.dark = dark;
    light.darkTurnedTick = tick;
    if (state.lightKnown && setpoint !== null) reportCrossing(work, row, 'setpoint', !dark, setpoint);
  }
  if (bright !== light.bright) {
    light.bright = bright;
    light.brightTurnedTick = tick;
    if (state.lightKnown && release !== null) reportCrossing(work, row, 'release', bright, release);
  }
  if (!state.lightKnown || work.setpointChanged?.[row]) {
    light.darkTurnedTick = tick;
    light.brightTurnedTick = tick;
  }
}

function reportCrossing(
  work: Work,
  row: 'inner' | 'window',
  level: 'setpoint' | 'release',
  rising: boolean,
  limitLx: number,
): void {
  const estimateLx = work.state[row].light.daylightEstimateLx;
  work.events.push({ tick: work.tick, kind: 'crossing', row, level, rising, estimateLx, limitLx });
}
