/** How a decision is written down: the state moves, the event carries the reason, the reason stays with the output. */
import type { AirPhase, Condition, ReasonCode, RowPhase } from '../trace.ts';
import type { OutputId, RowId } from '../types.ts';
import type { Work } from './types.ts';

export const ROWS: readonly RowId[] = ['inner', 'window'];

export function rowOutput(row: RowId): OutputId {
  return row === 'inner' ? 'innerRow' : 'windowRow';
}

export function isLit(state: RowPhase): boolean {
  return state === 'litByAutomatic' || state === 'heldOn';
}

/** A decision that moves no state but a contact: impulses, walk-test pulses, Warm-up. */
export function decideRow(work: Work, row: RowId, code: ReasonCode, conditions: Condition[]): void {
  work.state[row].decided = { tick: work.tick, reason: { code, conditions } };
}

export function moveRow(work: Work, row: RowId, to: RowPhase, code: ReasonCode, conditions: Condition[]): void {
  const memory = work.state[row];
  const reason = { code, conditions };
  if (memory.state !== to) work.events.push({ tick: work.tick, kind: 'row', row, from: memory.state, to, reason });
  memory.state = to;
  memory.decided = { tick: work.tick, reason };
}

export function moveAir(work: Work, to: AirPhase, code: ReasonCode, conditions: Condition[]): void {
  const { air } = work.state;
  const reason = { code, conditions };
  if (air.state !== to) work.events.push({ tick: work.tick, kind: 'air', from: air.state, to, reason });
  air.state = to;
  air.watchingTick = to === 'watching' ? work.tick : null;
  air.decided = { tick: work.tick, reason };
}
