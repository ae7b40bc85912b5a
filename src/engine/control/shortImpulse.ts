/**
 * A row in short-impulse mode starts an external staircase timer; it cannot switch off and never counts as on.
 * A visit begins with the first movement, or a press on its own button, after absence.
 *
 * | Event                  | Guard                                                       | Impulse            |
 * | ---------------------- | ----------------------------------------------------------- | ------------------ |
 * | first movement         | Dark, or the last impulse is less than one off-delay ago    | yes                |
 * | later movement         | the last impulse is less than one off-delay ago             | yes                |
 * | press                  |                                                             | yes                |
 * | any of these           | an impulse or its pause is running                          | no, and not stored |
 */
import type { RowId } from '../types.ts';
import { dark, impulsePause, movement } from './conditions.ts';
import { decideRow } from './decide.ts';
import { IMPULSE_TICKS, isDark, isImpulsePaused, isImpulseRecent } from './questions.ts';
import type { Work } from './types.ts';

export function impulseOnMovement(work: Work, row: RowId): void {
  const { state, tick } = work;
  const memory = state[row];
  const wanted = (!memory.visiting && isDark(state, row)) || isImpulseRecent(state, row, tick);
  memory.visiting = true;
  if (wanted && !isImpulsePaused(state, row, tick)) {
    decideRow(work, row, 'impulse', [movement(state, tick), dark(state, row)]);
    memory.impulseTick = tick;
  }
}

export function impulseOnPress(work: Work, row: RowId): void {
  const { state, tick } = work;
  const memory = state[row];
  memory.visiting = true;
  if (isImpulsePaused(state, row, tick)) return;
  decideRow(work, row, 'pressed', []);
  memory.impulseTick = tick;
}

/** Step 6: an impulse lasts its time, whatever the mode has become. */
export function endImpulse(work: Work, row: RowId): void {
  const { impulseTick } = work.state[row];
  if (impulseTick === null || work.tick !== impulseTick + IMPULSE_TICKS) return;
  decideRow(work, row, 'impulseEnded', [impulsePause(work.state, row, work.tick)]);
}
