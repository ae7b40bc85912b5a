/** What the room did: switchings of the outputs asked for, each with its cause and the delay that made its instant. */
import type { ConditionId, Reason, TraceEvent } from '../../engine/trace.ts';
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { CauseId, Edge, PredictTask } from '../types.ts';

export interface TrueEdge extends Edge {
  output: OutputId;
  cause: CauseId;
  /** The delay or dwell that ran out, s; 0 when the switching followed at once. */
  delayS: number;
  /** Last counted movement before it, s; null: none. */
  lastSeenS: number | null;
}

/** Condition whose limit is the delay that ran out, by the decision's code. */
const DELAYS: Partial<Record<Reason['code'], readonly ConditionId[]>> = {
  nobodySeen: ['occupied', 'airOccupied'],
  brightLongEnough: ['brightDwell'],
  darkLongEnough: ['darkDwell'],
  onDelayOver: ['onDelay'],
  gapTooLong: ['gapLimit'],
};

function delayOf(reason: Reason): number {
  const ids = DELAYS[reason.code] ?? [];
  return reason.conditions.find((c) => ids.includes(c.id))?.limit ?? 0;
}

export function causeOf(output: OutputId, reason: Reason): CauseId {
  switch (reason.code) {
    case 'nobodySeen':
      return output === 'airContact' ? 'presenceOnly' : 'delayFromLastPulse';
    case 'brightLongEnough':
      return 'brightForDwell';
    case 'darkLongEnough':
      return 'darkForDwell';
    case 'onDelayOver':
    case 'presenceBegan':
    case 'gapTooLong':
      return 'onDelay';
    case 'pressed':
    case 'pressedBothRows':
      return 'button';
    case 'seenAndDark':
    case 'seenNotDark':
      return 'seen';
    default:
      return 'supply';
  }
}

/** Switchings of one output inside the window, in order. */
export function trueEdges(
  events: readonly TraceEvent[],
  output: OutputId,
  window: Pick<PredictTask, 'fromS' | 'toS'>,
): TrueEdge[] {
  const edges: TrueEdge[] = [];
  let lastSeenS: number | null = null;
  for (const event of events) {
    const atS = event.tick / TICKS_PER_S;
    if (atS > window.toS) break;
    if (event.kind === 'seen') lastSeenS = atS;
    if (event.kind !== 'output' || event.output !== output || atS < window.fromS) continue;
    const { reason, on } = event;
    edges.push({ output, atS, on, cause: causeOf(output, reason), delayS: delayOf(reason), lastSeenS });
  }
  return edges;
}

/** Whether an output was on when the window began: its last switching before it. */
export function onAtStart(events: readonly TraceEvent[], output: OutputId, task: PredictTask): boolean {
  let on = false;
  for (const event of events) {
    if (event.tick / TICKS_PER_S >= task.fromS) break;
    if (event.kind === 'output' && event.output === output) on = event.on;
  }
  return on;
}
