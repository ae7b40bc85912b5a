/**
 * Device phases.
 *
 * | From          | Guard                                   | To                                                        |
 * | ------------- | --------------------------------------- | --------------------------------------------------------- |
 * | any           | supply absent for 100 ms and still gone | Off: outputs open, everything but settings forgotten      |
 * | Off           | supply returns                          | Warm-up: rows on, air open, nothing heard                 |
 * | any but Off   | supply returns after more than 100 ms   | Warm-up, as through Off                                   |
 * | any but Off   | supply returns within 100 ms            | the same: ridden through                                  |
 * | Warm-up       | its time is over                        | Running, rows Waiting                                     |
 * | Running       | start walk-test                         | Walk-test                                                 |
 * | Walk-test     | 600 s, or end walk-test                 | Running, rows Waiting                                     |
 */
import type { Condition, Phase, ReasonCode } from '../trace.ts';
import { secondsToTicks } from '../units.ts';
import { judgeLight, takeReadings } from './brightness.ts';
import { phaseTime, plain, supply } from './conditions.ts';
import { decideRow, moveAir, moveRow, ROWS } from './decide.ts';
import { clearStuck, restartStuckCount, voidClosures } from './inputs.ts';
import { forgetPulses } from './pulses.ts';
import { putInForce } from './settings.ts';
import type { Work } from './types.ts';

/** Longest dip that is ridden through, ms. Assumed: longer than one mains cycle; more needs a larger capacitor. */
export const RIDE_THROUGH_MS = 100;
/** Length of a walk-test, ticks (600 s). Assumed: enough to walk a room twice; longer leaves a room without automatic. */
export const WALK_TEST_TICKS = 6000;

/** Step 1. Dips are judged by their exact length, never by look-ahead. */
export function followSupply(work: Work): void {
  const { state, nowMs } = work;
  const edges = work.input.supplyEdges;
  for (let i = 0; i < edges.length; i++) {
    const { tMs, on } = edges[i]!;
    if (on === state.supply.present) continue;
    if (on) supplyReturns(work, tMs);
    else state.supply = { present: false, lostMs: tMs };
  }
  const { present, lostMs } = state.supply;
  if (present || state.phase === 'off' || lostMs === null || nowMs - lostMs < RIDE_THROUGH_MS) return;
  const reason = [supply(false, nowMs - lostMs, RIDE_THROUGH_MS)];
  loseAll(work, reason);
  enter(work, 'off', 'supplyLost', reason, null);
}

function supplyReturns(work: Work, tMs: number): void {
  const { state } = work;
  const absentMs = state.supply.lostMs === null ? null : tMs - state.supply.lostMs;
  state.supply = { present: true, lostMs: null };
  const reason = [supply(true, absentMs, RIDE_THROUGH_MS)];
  if (state.phase !== 'off' && absentMs !== null && absentMs <= RIDE_THROUGH_MS) {
    const { phase } = state;
    work.events.push({
      tick: work.tick,
      kind: 'phase',
      from: phase,
      to: phase,
      reason: { code: 'supplyDipRiddenThrough', conditions: reason },
    });
    return;
  }
  if (state.phase !== 'off') loseAll(work, reason);
  enter(work, 'warmUp', 'supplyReturned', reason, secondsToTicks(state.settings.warmUpS));
  for (const row of ROWS) decideRow(work, row, 'warmUpBegan', [phaseTime(state, 'warmUp', work.tick)]);
}

function loseAll(work: Work, reason: Condition[]): void {
  forget(work, 'supplyLost', reason);
  clearStuck(work);
}

function enter(work: Work, to: Phase, code: ReasonCode, conditions: Condition[], lastsTicks: number | null): void {
  const { state, tick } = work;
  const from = state.phase;
  state.phase = to;
  state.phaseSinceTick = tick;
  state.phaseEndsTick = lastsTicks === null ? null : tick + lastsTicks;
  work.events.push({ tick, kind: 'phase', from, to, reason: { code, conditions } });
}

/** Rows Waiting, Air off; holds, visits, requests, graces, delays and learned lamp shares forgotten. */
function forget(work: Work, code: ReasonCode, conditions: Condition[]): void {
  const { state } = work;
  for (const row of ROWS) {
    const memory = state[row];
    moveRow(work, row, 'waiting', code, conditions);
    memory.lightRequested = false;
    memory.automaticOffTick = null;
    memory.visiting = false;
    memory.impulseTick = null;
    memory.ownLampsLit = false;
    memory.light.lampShareLx = 0;
  }
  moveAir(work, 'airOff', code, conditions);
  state.lastSeenTick = null;
  state.lastMovementTick = null;
  state.visitSinceTick = null;
  state.occupiedAtEnd = false;
  state.adaptive.automaticOffTick = null;
  state.walkPulseTick = null;
  state.lightKnown = false;
  state.learnAtTick = null;
  forgetPulses(state);
}

export function startWalkTest(work: Work): void {
  const { state } = work;
  if (state.phase !== 'running') {
    work.events.push({ tick: work.tick, kind: 'note', note: 'ignoredOutsideRunning' });
    return;
  }
  const conditions = [plain('walkTest', true, work.tick, work.tick + WALK_TEST_TICKS)];
  enter(work, 'walkTest', 'walkTestBegan', conditions, WALK_TEST_TICKS);
  forget(work, 'walkTestBegan', conditions);
  voidClosures(state);
}

/** By command; outside Walk-test it means nothing. */
export function endWalkTest(work: Work): void {
  if (work.state.phase === 'walkTest') beginRunning(work, 'walkTestEnded');
}

/** Step 6. Movement and presses of this very tick belonged to the old phase. */
export function endPhase(work: Work): void {
  const { state, tick } = work;
  if (state.phaseEndsTick === null || tick < state.phaseEndsTick) return;
  if (state.phase === 'warmUp') {
    restartStuckCount(state, work.nowMs);
    beginRunning(work, 'warmUpEnded');
  } else {
    beginRunning(work, 'walkTestEnded');
  }
  // For explanations of this very tick; the lamps of the old phase are still in the reading, so it counts as unknown.
  takeReadings(work);
  judgeLight(work);
  state.lightKnown = false;
}

function beginRunning(work: Work, code: 'warmUpEnded' | 'walkTestEnded'): void {
  const { state } = work;
  const ended = phaseTime(state, code === 'warmUpEnded' ? 'warmUp' : 'walkTest', work.tick);
  const reason = [{ ...ended, holds: false, untilTick: null }];
  enter(work, 'running', code, reason, null);
  forget(work, code, reason);
  voidClosures(state);
  if (state.storedSettings) putInForce(work, state.storedSettings);
  state.storedSettings = null;
  state.inner.mode = state.settings.innerMode;
  state.window.mode = state.settings.windowMode;
}
