/** Why, why not, until when: built from the very conditions that the decisions ask. */
import type { BadgeId, Condition, Explanation } from '../trace.ts';
import type { OutputId, RowId, Tick } from '../types.ts';
import { TICKS_PER_S } from '../units.ts';
import * as say from './conditions.ts';
import * as ask from './questions.ts';
import type { ControlState } from './types.ts';

/** "Someone seen" is said this long after the last sign of presence, ticks (20 s). Assumed: longer hides the running off-delay, shorter flickers between words. */
export const SOMEONE_SEEN_TICKS = 20 * TICKS_PER_S;

interface Answer {
  badge: BadgeId;
  untilTick: Tick | null;
  because: Condition[];
  missing: Condition[];
}

/**
 * Why, why not, and until when, as of the end of `tick`, which must be the last tick worked on `state`.
 * `untilTick`: the end of the running count that the badge shows; while Watching this is the on-delay, and the gap
 * limit that may end it earlier stands among the conditions.
 */
export function explainOutput(state: ControlState, output: OutputId, tick: Tick): Explanation {
  const memory = output === 'airContact' ? state.air : state[output === 'innerRow' ? 'inner' : 'window'];
  return {
    output,
    tick,
    on: memory.contactClosed,
    phase: state.phase,
    state: memory.state,
    lastSeenTick: state.lastSeenTick,
    decided: memory.decided,
    ...answer(state, output, tick),
  };
}

function answer(state: ControlState, output: OutputId, tick: Tick): Answer {
  switch (state.phase) {
    case 'off': {
      const supply = say.plain('supply', false, state.phaseSinceTick, null);
      return { badge: 'deviceOff', untilTick: null, because: [supply], missing: [supply] };
    }
    case 'warmUp':
      return byPhase(state, 'starting', 'warmUp', [], tick);
    case 'walkTest':
      return byPhase(state, 'walkTest', 'walkTest', output === 'airContact' ? [] : [say.movement(state, tick)], tick);
    case 'running':
      if (output === 'airContact') return airAnswer(state, tick);
      return rowAnswer(state, output === 'innerRow' ? 'inner' : 'window', tick);
  }
}

/** Warm-up hears nothing; Walk-test pulses the rows by movement and leaves the air contact open. */
function byPhase(
  state: ControlState,
  badge: BadgeId,
  id: 'warmUp' | 'walkTest',
  missing: Condition[],
  tick: Tick,
): Answer {
  return { badge, untilTick: state.phaseEndsTick, because: [say.phaseTime(state, id, tick)], missing };
}

function rowAnswer(state: ControlState, row: RowId, tick: Tick): Answer {
  const memory = state[row];
  if (memory.mode === 'shortImpulse') return impulseAnswer(state, row, tick);
  switch (memory.state) {
    case 'waiting':
      return waitingAnswer(state, row, tick);
    case 'litByAutomatic':
      return litAnswer(state, row, tick);
    case 'daylightIsEnough':
      return daylightAnswer(state, row, tick);
    case 'heldOn':
    case 'heldOff': {
      const occupied = say.occupied(state, row, tick);
      const held = say.plain('heldByButton', true, memory.decided?.tick ?? null, occupied.untilTick);
      return { badge: memory.state, untilTick: occupied.untilTick, because: [held, occupied], missing: [] };
    }
  }
}

/** What a row in Waiting lacks: movement, darkness, and in manual-on the button or a re-entry in time. */
function waitingAnswer(state: ControlState, row: RowId, tick: Tick): Answer {
  const occupied = say.occupied(state, row, tick);
  const missing = [...firstOfTwo(state, tick), say.movement(state, tick)];
  const because = [occupied];
  let badge: BadgeId = 'nobodySeen';
  if (!ask.isAutoOn(state, row)) {
    because.push(say.autoOnMode(state, row));
    if (ask.inReentryGrace(state, row, tick)) because.push(say.reentryGrace(state, row, tick));
    else missing.splice(0, missing.length, say.autoOnMode(state, row), say.lightRequested(state, row));
    if (occupied.holds) badge = 'waitsForButton';
  }
  if (!ask.isDark(state, row)) missing.push(say.dark(state, row));
  return { badge, untilTick: null, because, missing };
}

function litAnswer(state: ControlState, row: RowId, tick: Tick): Answer {
  const occupied = say.occupied(state, row, tick);
  const bright = say.bright(state, row);
  if (bright.holds) {
    const dwell = say.brightDwell(state, row, tick);
    const untilTick = earlier(occupied.untilTick, dwell.untilTick);
    return { badge: 'brightEnough', untilTick, because: [occupied, bright, dwell], missing: [dwell] };
  }
  const because = ask.isDark(state, row) ? [occupied, say.dark(state, row)] : [occupied, bright];
  return { badge: seenBadge(state, tick), untilTick: occupied.untilTick, because, missing: [bright] };
}

/** Time alone lights it only if the dark dwell ends before absence: in one tick, absence has the last word. */
function daylightAnswer(state: ControlState, row: RowId, tick: Tick): Answer {
  const occupied = say.occupied(state, row, tick);
  const dark = say.dark(state, row);
  const mayReturn = ask.mayReturn(state, row);
  const missing: Condition[] = [];
  let untilTick: Tick | null = null;
  if (dark.holds) {
    const dwell = say.darkDwell(state, row, tick);
    if (!dwell.holds) missing.push(dwell);
    const ends = dwell.untilTick;
    if (mayReturn && ends !== null && occupied.untilTick !== null && ends < occupied.untilTick) untilTick = ends;
  } else {
    missing.push(dark);
  }
  if (!mayReturn) missing.push(say.autoOnMode(state, row), say.lightRequested(state, row));
  return { badge: 'enoughDaylight', untilTick, because: [dark, occupied], missing };
}

/** Between impulses the lamps are the external timer's; this contact waits for movement that starts it again. */
function impulseAnswer(state: ControlState, row: RowId, tick: Tick): Answer {
  const memory = state[row];
  const pause = say.impulsePause(state, row, tick);
  if (ask.isImpulseRunning(state, row, tick) && memory.impulseTick !== null) {
    const untilTick = memory.impulseTick + ask.IMPULSE_TICKS;
    return {
      badge: 'someoneSeen',
      untilTick,
      because: [say.plain('movement', true, memory.impulseTick, untilTick)],
      missing: [],
    };
  }
  const missing = [...firstOfTwo(state, tick), say.movement(state, tick)];
  const recent = ask.isImpulseRecent(state, row, tick);
  if (!recent && !ask.isDark(state, row)) missing.push(say.dark(state, row));
  if (!memory.visiting)
    return { badge: 'nobodySeen', untilTick: null, because: [say.occupied(state, row, tick)], missing };
  const because = pause.holds ? [pause, say.occupied(state, row, tick)] : [say.occupied(state, row, tick)];
  return { badge: recent ? 'watching' : 'enoughDaylight', untilTick: null, because, missing };
}

function airAnswer(state: ControlState, tick: Tick): Answer {
  const { air } = state;
  const occupied = say.airOccupied(state, tick);
  switch (air.state) {
    case 'airOff': {
      const missing = [...firstOfTwo(state, tick), say.movement(state, tick)];
      return { badge: 'nobodySeen', untilTick: null, because: [say.movement(state, tick)], missing };
    }
    case 'watching': {
      const onDelay = say.onDelay(state, tick);
      const because = [say.movement(state, tick), onDelay, say.gapLimit(state, tick)];
      return { badge: 'watching', untilTick: onDelay.untilTick, because, missing: [onDelay] };
    }
    case 'airOn':
      return { badge: seenBadge(state, tick), untilTick: occupied.untilTick, because: [occupied], missing: [] };
    case 'airHeldOn':
    case 'airHeldOff': {
      const held = say.plain('heldByButton', true, air.decided?.tick ?? null, occupied.untilTick);
      const badge = air.state === 'airHeldOn' ? 'heldOn' : 'heldOff';
      return { badge, untilTick: occupied.untilTick, because: [held, occupied], missing: [] };
    }
  }
}

/** A first pulse, or in reduced sensitivity a first movement, that waits for its second. */
function firstOfTwo(state: ControlState, tick: Tick): Condition[] {
  if (state.occupiedAtEnd) return [];
  const pair = say.switchOnPair(state, tick);
  const movements = say.unpairedMovement(state, tick);
  return [pair, movements].filter((condition) => condition !== null);
}

function seenBadge(state: ControlState, tick: Tick): BadgeId {
  return state.lastSeenTick !== null && tick - state.lastSeenTick <= SOMEONE_SEEN_TICKS ? 'someoneSeen' : 'timing';
}

function earlier(a: Tick | null, b: Tick | null): Tick | null {
  if (a === null) return b;
  return b === null ? a : Math.min(a, b);
}
