/** Step 7: what the states command, and what changed. Every change carries the reason of the decision behind it. */

import type { OutputId, RowId } from '../types.ts';
import { LEARN_AFTER_TICKS } from './brightness.ts';
import { isLit } from './decide.ts';
import { isImpulseRunning, isRoomOccupied } from './questions.ts';
import type { AirMemory, ControlTickOutput, RowMemory, Work } from './types.ts';
import { isWalkPulse } from './walkTest.ts';

export function setOutputs(work: Work): ControlTickOutput {
  const { state, tick } = work;
  const { inner, window, air } = state;
  const running = state.phase === 'running';
  if (running) {
    noteOwnLamps(work, inner);
    noteOwnLamps(work, window);
  }
  setContact(work, 'innerRow', inner, rowCommand(work, 'inner'));
  setContact(work, 'windowRow', window, rowCommand(work, 'window'));
  setContact(work, 'airContact', air, running && (air.state === 'airOn' || air.state === 'airHeldOn'));
  state.occupiedAtEnd = isRoomOccupied(state, tick);
  return {
    contacts: { inner: inner.contactClosed, window: window.contactClosed, air: air.contactClosed },
    events: work.events,
  };
}

function rowCommand(work: Work, row: RowId): boolean {
  const { state, tick } = work;
  switch (state.phase) {
    case 'off':
      return false;
    case 'warmUp':
      return true;
    case 'walkTest':
      return isWalkPulse(state, tick);
    case 'running':
      return state[row].ownLampsLit || isImpulseRunning(state, row, tick);
  }
}

/** An own switching: estimates stand still until the lamp share is learned. Impulses are not our lamps: their rows stay Waiting. */
function noteOwnLamps(work: Work, memory: RowMemory): void {
  const lit = isLit(memory.state);
  if (lit === memory.ownLampsLit) return;
  memory.ownLampsLit = lit;
  if (work.state.settings.lampShare === 'learned') work.state.learnAtTick = work.tick + LEARN_AFTER_TICKS;
}

function setContact(work: Work, output: OutputId, memory: RowMemory | AirMemory, on: boolean): void {
  if (on === memory.contactClosed) return;
  memory.contactClosed = on;
  const reason = memory.decided?.reason ?? { code: 'nobodySeen', conditions: [] };
  work.events.push({ tick: work.tick, kind: 'output', output, on, reason });
}
