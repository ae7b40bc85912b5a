/** Walk-test: both rows pulse 2 s per movement, then 1 s dead; brightness, delays and buttons mean nothing. */
import { plain } from './conditions.ts';
import { decideRow, ROWS } from './decide.ts';
import type { ControlState, Work } from './types.ts';

/** Rows on per movement, ticks (2 s). Assumed: seen from anywhere in the room; longer hides the next movement. */
export const WALK_PULSE_TICKS = 20;
/** From the start of a pulse to the earliest next one, ticks (2 s and 1 s dead). Assumed: a pause that the eye separates. */
export const WALK_REPEAT_TICKS = 30;

export function isWalkPulse(state: ControlState, tick: number): boolean {
  return state.walkPulseTick !== null && tick < state.walkPulseTick + WALK_PULSE_TICKS;
}

/** Step 4. */
export function walkTestOnMovement(work: Work): void {
  const { state, tick } = work;
  if (state.walkPulseTick !== null && tick < state.walkPulseTick + WALK_REPEAT_TICKS) return;
  state.walkPulseTick = tick;
  for (const row of ROWS) {
    decideRow(work, row, 'walkTestPulse', [plain('movement', true, tick, tick + WALK_PULSE_TICKS)]);
  }
}

/** Step 6. */
export function endWalkPulse(work: Work): void {
  const { state, tick } = work;
  if (state.walkPulseTick === null || tick !== state.walkPulseTick + WALK_PULSE_TICKS) return;
  const again = state.walkPulseTick + WALK_REPEAT_TICKS;
  for (const row of ROWS) decideRow(work, row, 'walkTestPulseEnded', [plain('movement', false, tick, again)]);
}
