/** Step 4: what counts as movement, and what `seen` and the learned delay make of it. */
import { clamp } from '../math.ts';
import type { Pulse } from '../types.ts';
import { secondsToTicks } from '../units.ts';
import { airOnMovement } from './air.ts';
import { ROWS } from './decide.ts';
import { movingPulses, reportPulses } from './pulses.ts';
import { isMovementPairOpen, isRoomOccupied } from './questions.ts';
import { rowOnMovement } from './row.ts';
import type { Work } from './types.ts';
import { walkTestOnMovement } from './walkTest.ts';

/** Movement so soon after an automatic off was a false off, s. Assumed: people wave within a minute. */
export const FALSE_OFF_S = 60;
/** An unlit pause longer than this shortens the learned delay, s. Assumed: a real absence, not a quiet one. */
export const LONG_PAUSE_S = 1800;
/** A false off lengthens the learned delay by this, s. Assumed: larger wastes light, smaller annoys for longer. */
export const ADAPTIVE_UP_S = 120;
/** A long pause shortens the learned delay by this, s. Assumed: slower than it grows, so that false offs stay rare. */
export const ADAPTIVE_DOWN_S = 60;
/** Shortest learned delay, s. Assumed: shorter loses quiet sitters. */
export const ADAPTIVE_LEAST_S = 300;
/** Longest learned delay, s. Assumed: longer burns lamps in empty rooms. */
export const ADAPTIVE_MOST_S = 1200;

const NO_PULSES: readonly Pulse[] = [];

/** Somebody is there: every running delay starts again. */
export function see(work: Work): void {
  const { state, tick } = work;
  if (!state.occupiedAtEnd && !isRoomOccupied(state, tick)) state.visitSinceTick = tick;
  state.lastSeenTick = tick;
}

/** All movements and extension pulses of one tick are one movement. */
export function takeMovement(work: Work): void {
  const { input, state } = work;
  if (input.pulses.length === 0 && input.movements.length === 0 && !work.extensionPulse) return;
  if (state.phase !== 'running' && state.phase !== 'walkTest') {
    reportPulses(work, NO_PULSES);
    return;
  }

  const moving = input.pulses.length > 0 ? movingPulses(work) : NO_PULSES;
  const given = isSeenUnmasked(work);
  const ownCounts = (moving.length > 0 || given) && ownMovementCounts(work);
  reportPulses(work, ownCounts ? moving : NO_PULSES);
  if (!ownCounts && !work.extensionPulse) return;

  const by = !ownCounts ? 'extension' : moving.length > 0 ? 'pulse' : 'given';
  const atM = ownCounts ? (moving[0]?.atM ?? null) : null;
  work.events.push({ tick: work.tick, kind: 'seen', by, atM });
  if (state.phase === 'walkTest') walkTestOnMovement(work);
  else actOnMovement(work);
}

function actOnMovement(work: Work): void {
  const { state, tick } = work;
  judgeLearnedDelay(work);
  see(work);
  state.lastMovementTick = tick;
  state.unpairedTick = null;
  for (const row of ROWS) rowOnMovement(work, row);
  airOnMovement(work);
}

/** Masks of given movements; pulses have met the clips already. */
function isSeenUnmasked(work: Work): boolean {
  const { maskedSectors } = work.state.settings;
  for (const { sector } of work.input.movements) {
    if (sector === null || !maskedSectors.includes(sector)) return true;
  }
  return false;
}

/** Reduced sensitivity, empty room: the second of two own movements starts, a single one has no effect at all. */
function ownMovementCounts(work: Work): boolean {
  const { state, tick } = work;
  if (!state.settings.reducedSensitivity || state.phase === 'walkTest' || state.occupiedAtEnd) return true;
  const isSecond = isMovementPairOpen(state, tick);
  state.unpairedTick = tick;
  return isSecond;
}

/** The first movement after an automatic off tells whether the off was false; its verdict is in force at once. */
function judgeLearnedDelay(work: Work): void {
  const { adaptive, settings } = work.state;
  const offTick = adaptive.automaticOffTick;
  if (!settings.adaptiveDelay || offTick === null) return;
  adaptive.automaticOffTick = null;
  const gapTicks = work.tick - offTick;
  let stepS = 0;
  if (gapTicks <= secondsToTicks(FALSE_OFF_S)) stepS = ADAPTIVE_UP_S;
  else if (gapTicks > secondsToTicks(LONG_PAUSE_S)) stepS = -ADAPTIVE_DOWN_S;
  const delayS = stepS === 0 ? adaptive.delayS : clamp(adaptive.delayS + stepS, ADAPTIVE_LEAST_S, ADAPTIVE_MOST_S);
  if (delayS === adaptive.delayS) return;
  adaptive.delayS = delayS;
  work.events.push({ tick: work.tick, kind: 'adaptiveDelay', delayS });
}
