/**
 * One row in Running, modes auto-on and manual-on.
 *
 * | State                        | Event and guard                                                  | Next                |
 * | ---------------------------- | ---------------------------------------------------------------- | ------------------- |
 * | Waiting                      | movement, auto-on (or within the re-entry grace), Dark           | Lit by automatic    |
 * | Waiting                      | the same, not Dark                                               | Daylight is enough  |
 * | Waiting                      | press: manual-on and Dark / otherwise                            | Lit by automatic / Held on |
 * | Lit by automatic, Held on    | press: on-and-off / on-only                                      | Held off / Held on  |
 * | Daylight is enough, Held off | press                                                            | Held on             |
 * | Lit by automatic             | Bright for the bright dwell                                      | Daylight is enough  |
 * | Daylight is enough           | Dark for the dark dwell; auto-on, or light was requested         | Lit by automatic    |
 * | any but Waiting              | absence                                                          | Waiting             |
 */
import type { ReasonCode } from '../trace.ts';
import type { RowId } from '../types.ts';
import * as say from './conditions.ts';
import { isLit, moveRow } from './decide.ts';
import * as ask from './questions.ts';
import { impulseOnMovement, impulseOnPress } from './shortImpulse.ts';
import type { Work } from './types.ts';

/** Step 4. A row that is not Waiting is prolonged by `seen` alone. */
export function rowOnMovement(work: Work, row: RowId): void {
  const { state, tick } = work;
  const memory = state[row];
  if (memory.mode === 'shortImpulse') impulseOnMovement(work, row);
  if (memory.mode === 'shortImpulse' || memory.state !== 'waiting') return;
  const reentered = memory.mode === 'manualOn' && ask.inReentryGrace(state, row, tick);
  if (!ask.isAutoOn(state, row) && !reentered) return;
  if (reentered) memory.lightRequested = true;
  const conditions = [say.movement(state, tick), say.dark(state, row)];
  if (reentered) conditions.push(say.reentryGrace(state, row, tick));
  if (ask.isDark(state, row)) moveRow(work, row, 'litByAutomatic', 'seenAndDark', conditions);
  else moveRow(work, row, 'daylightIsEnough', 'seenNotDark', conditions);
}

/** Step 3. */
export function rowOnPress(work: Work, row: RowId, code: ReasonCode): void {
  const { state } = work;
  const memory = state[row];
  if (memory.mode === 'shortImpulse') {
    impulseOnPress(work, row);
  } else if (memory.state === 'waiting') {
    const requested = memory.mode === 'manualOn' && ask.isDark(state, row);
    if (requested) memory.lightRequested = true;
    moveRow(work, row, requested ? 'litByAutomatic' : 'heldOn', code, [say.dark(state, row)]);
  } else {
    const off = isLit(memory.state) && state.settings.buttonPolicy === 'onAndOff';
    moveRow(work, row, off ? 'heldOff' : 'heldOn', code, []);
  }
}

/** Step 5. */
export function rowOnLight(work: Work, row: RowId): void {
  const { state, tick } = work;
  const memory = state[row];
  if (memory.state === 'litByAutomatic' && ask.brightDwellOver(state, row, tick)) {
    const conditions = [say.bright(state, row), say.brightDwell(state, row, tick), say.occupied(state, row, tick)];
    moveRow(work, row, 'daylightIsEnough', 'brightLongEnough', conditions);
  } else if (memory.state === 'daylightIsEnough' && ask.mayReturn(state, row) && ask.darkDwellOver(state, row, tick)) {
    const conditions = [say.dark(state, row), say.darkDwell(state, row, tick), say.occupied(state, row, tick)];
    moveRow(work, row, 'litByAutomatic', 'darkLongEnough', conditions);
  }
}

/** Step 6. Only absence of a row that is on is an automatic off. */
export function rowOnAbsence(work: Work, row: RowId): void {
  const { state, tick } = work;
  const memory = state[row];
  if ((memory.state === 'waiting' && !memory.visiting) || ask.isOccupied(state, row, tick)) return;
  if (isLit(memory.state)) {
    memory.automaticOffTick = tick;
    state.adaptive.automaticOffTick = tick;
  }
  if (memory.state !== 'waiting') moveRow(work, row, 'waiting', 'nobodySeen', [say.occupied(state, row, tick)]);
  memory.visiting = false;
  memory.lightRequested = false;
  memory.mode = row === 'inner' ? state.settings.innerMode : state.settings.windowMode;
}
