/** Help by rungs: each is earned by a new reading that ruled something out. */
import type { Tick } from '../../engine/types.ts';
import type { DiagnoseAnswers } from './types.ts';

type Hints = DiagnoseAnswers['hints'];

/** Rungs opened, each counted once however often it was read. */
export function rungsOpened(hints: Hints): number {
  return new Set(hints.map(({ rung }) => rung)).size;
}

/** `tellingTicks`: instants of the readings that ruled a cause out. */
export function isHintEarned(tellingTicks: readonly Tick[], hints: Hints): boolean {
  const last = Math.max(-1, ...hints.map(({ tick }) => tick));
  return tellingTicks.some((tick) => tick >= last);
}
