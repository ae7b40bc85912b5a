/**
 * The questions of `questions.ts` as conditions: value, limit, since when, until when. `holds` is always the answer of
 * the predicate that the decision used, so a reason can never disagree with what was done.
 */
import type { Condition, ConditionId } from '../trace.ts';
import type { RowId, Tick } from '../types.ts';
import { SUB_STEPS, secondsToTicks, TICKS_PER_S, ticksToSeconds } from '../units.ts';
import {
  brightDwellOver,
  darkDwellOver,
  gapReached,
  IMPULSE_REPEAT_TICKS,
  inReentryGrace,
  isAirOccupied,
  isAutoOn,
  isDark,
  isImpulsePaused,
  isMovementPairOpen,
  isOccupied,
  isPairOpen,
  MOVEMENT_PAIR_TICKS,
  offDelayS,
  onDelayOver,
  PULSE_PAIR_SUB_STEPS,
  releaseLx,
  setpointLx,
} from './questions.ts';
import type { ControlState } from './types.ts';

function secondsSince(sinceTick: Tick | null, tick: Tick): number | null {
  return sinceTick === null ? null : ticksToSeconds(tick - sinceTick);
}

/** Occupied by whichever off-delay the output goes by. Not occupied: since the delay ran out. */
function occupancy(state: ControlState, id: ConditionId, holds: boolean, tick: Tick, limitS: number): Condition {
  const seen = state.lastSeenTick;
  const endsTick = seen === null ? null : seen + secondsToTicks(limitS);
  return {
    id,
    holds,
    value: secondsSince(seen, tick),
    limit: limitS,
    unit: 's',
    sinceTick: holds ? state.visitSinceTick : endsTick,
    untilTick: holds ? endsTick : null,
  };
}

export function occupied(state: ControlState, row: RowId, tick: Tick): Condition {
  return occupancy(state, 'occupied', isOccupied(state, row, tick), tick, offDelayS(state, row));
}

export function airOccupied(state: ControlState, tick: Tick): Condition {
  return occupancy(state, 'airOccupied', isAirOccupied(state, tick), tick, state.settings.airOffDelayS);
}

/** Value: the daylight estimate, never the ceiling reading nor what a desk meter shows. */
export function dark(state: ControlState, row: RowId): Condition {
  const { light } = state[row];
  return {
    id: 'dark',
    holds: isDark(state, row),
    value: light.daylightEstimateLx,
    limit: setpointLx(state, row),
    unit: 'lx',
    sinceTick: light.darkTurnedTick,
    untilTick: null,
  };
}

export function bright(state: ControlState, row: RowId): Condition {
  const { light } = state[row];
  return {
    id: 'bright',
    holds: light.bright,
    value: light.daylightEstimateLx,
    limit: releaseLx(state, row),
    unit: 'lx',
    sinceTick: light.brightTurnedTick,
    untilTick: null,
  };
}

function dwell(id: ConditionId, over: boolean, counts: boolean, turned: Tick, tick: Tick, limitS: number): Condition {
  return {
    id,
    holds: over,
    value: counts ? ticksToSeconds(tick - turned) : 0,
    limit: limitS,
    unit: 's',
    sinceTick: counts ? turned : null,
    untilTick: counts && !over ? turned + secondsToTicks(limitS) : null,
  };
}

export function brightDwell(state: ControlState, row: RowId, tick: Tick): Condition {
  const { light } = state[row];
  const over = brightDwellOver(state, row, tick);
  return dwell('brightDwell', over, light.bright, light.brightTurnedTick, tick, state.settings.brightDwellS);
}

export function darkDwell(state: ControlState, row: RowId, tick: Tick): Condition {
  const { light } = state[row];
  const over = darkDwellOver(state, row, tick);
  return dwell('darkDwell', over, light.dark, light.darkTurnedTick, tick, state.settings.darkDwellS);
}

export function plain(id: ConditionId, holds: boolean, sinceTick: Tick | null, untilTick: Tick | null): Condition {
  return { id, holds, value: null, limit: null, unit: 'none', sinceTick, untilTick };
}

export function autoOnMode(state: ControlState, row: RowId): Condition {
  return plain('autoOnMode', isAutoOn(state, row), null, null);
}

export function lightRequested(state: ControlState, row: RowId): Condition {
  return plain('lightRequested', state[row].lightRequested, null, null);
}

export function reentryGrace(state: ControlState, row: RowId, tick: Tick): Condition {
  const { automaticOffTick } = state[row];
  const limit = state.settings.reentryGraceS;
  return {
    id: 'reentryGrace',
    holds: inReentryGrace(state, row, tick),
    value: secondsSince(automaticOffTick, tick),
    limit,
    unit: 's',
    sinceTick: automaticOffTick,
    untilTick: automaticOffTick === null ? null : automaticOffTick + secondsToTicks(limit) + 1,
  };
}

/** Value: seconds since the start of the last impulse. */
export function impulsePause(state: ControlState, row: RowId, tick: Tick): Condition {
  const { impulseTick } = state[row];
  const holds = isImpulsePaused(state, row, tick);
  return {
    id: 'impulsePause',
    holds,
    value: secondsSince(impulseTick, tick),
    limit: IMPULSE_REPEAT_TICKS / TICKS_PER_S,
    unit: 's',
    sinceTick: impulseTick,
    untilTick: holds && impulseTick !== null ? impulseTick + IMPULSE_REPEAT_TICKS : null,
  };
}

/** Movement in this very tick. Value: seconds since the last one. */
export function movement(state: ControlState, tick: Tick): Condition {
  return {
    id: 'movement',
    holds: state.lastMovementTick === tick,
    value: secondsSince(state.lastMovementTick, tick),
    limit: null,
    unit: 's',
    sinceTick: state.lastMovementTick,
    untilTick: null,
  };
}

/** Value: pulses that still count, of the two needed. Null where no first pulse waits for its second. */
export function switchOnPair(state: ControlState, tick: Tick): Condition | null {
  let newest: number | null = null;
  for (let channel = 0; channel < state.switchOnSubSteps.length; channel++) {
    const last = state.switchOnSubSteps[channel] ?? null;
    if (last !== null && isPairOpen(state, channel, tick * SUB_STEPS) && (newest === null || last > newest))
      newest = last;
  }
  if (newest === null) return null;
  return {
    id: 'switchOnPair',
    holds: false,
    value: 1,
    limit: 2,
    unit: 'none',
    sinceTick: Math.floor(newest / SUB_STEPS),
    untilTick: Math.floor((newest + PULSE_PAIR_SUB_STEPS) / SUB_STEPS) + 1,
  };
}

/** Value: movements that still count, of the two needed. Null where no first one waits for its second. */
export function unpairedMovement(state: ControlState, tick: Tick): Condition | null {
  const first = state.unpairedTick;
  if (first === null || !isMovementPairOpen(state, tick)) return null;
  const untilTick = first + MOVEMENT_PAIR_TICKS + 1;
  return { id: 'movement', holds: false, value: 1, limit: 2, unit: 'none', sinceTick: first, untilTick };
}

export function onDelay(state: ControlState, tick: Tick): Condition {
  const { watchingTick } = state.air;
  return {
    id: 'onDelay',
    holds: onDelayOver(state, tick),
    value: secondsSince(watchingTick, tick),
    limit: state.settings.airOnDelayS,
    unit: 's',
    sinceTick: watchingTick,
    untilTick: watchingTick === null ? null : watchingTick + secondsToTicks(state.settings.airOnDelayS),
  };
}

/** Holds once the gap without movement is as long as the limit. */
export function gapLimit(state: ControlState, tick: Tick): Condition {
  const last = state.lastMovementTick;
  return {
    id: 'gapLimit',
    holds: gapReached(state, tick),
    value: secondsSince(last, tick),
    limit: state.settings.airGapLimitS,
    unit: 's',
    sinceTick: last,
    untilTick: last === null ? null : last + secondsToTicks(state.settings.airGapLimitS),
  };
}

/** The phase as a condition: Warm-up and Walk-test end by time. */
export function phaseTime(state: ControlState, id: 'warmUp' | 'walkTest', tick: Tick): Condition {
  const { phaseSinceTick, phaseEndsTick } = state;
  const limit =
    phaseSinceTick === null || phaseEndsTick === null ? null : ticksToSeconds(phaseEndsTick - phaseSinceTick);
  return {
    id,
    holds: state.phase === id,
    value: secondsSince(phaseSinceTick, tick),
    limit,
    unit: 's',
    sinceTick: phaseSinceTick,
    untilTick: phaseEndsTick,
  };
}

/** Value: how long the supply was absent, s, against what is ridden through. */
export function supply(holds: boolean, absentMs: number | null, limitMs: number): Condition {
  const value = absentMs === null ? null : absentMs / 1000;
  return { id: 'supply', holds, value, limit: limitMs / 1000, unit: 's', sinceTick: null, untilTick: null };
}
