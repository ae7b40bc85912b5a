/** Events of a timeline by the tick that handles them: the first one at or after their time. */
import type { ControlTickInput } from '../../engine/control/types.ts';
import type { ButtonId, Tick } from '../../engine/types.ts';
import { TICK_MS } from '../../engine/units.ts';
import type { Sides, TimelineEvent } from './types.ts';

export type Ordered = Extract<TimelineEvent, { type: 'setting' | 'takePresentLight' | 'walkTest' }>;

/** What is due in one tick; settings and commands in file order. */
export interface Due {
  supplyEdges: ControlTickInput['supplyEdges'];
  contactEdges: ControlTickInput['contactEdges'];
  movements: ControlTickInput['movements'];
  daylight: Partial<Sides>[];
  ordered: Ordered[];
}

function nothingDue(): Due {
  return { supplyEdges: [], contactEdges: [], movements: [], daylight: [], ordered: [] };
}

export function scheduleOf(events: readonly TimelineEvent[]): Map<Tick, Due> {
  const schedule = new Map<Tick, Due>();
  const at = (tMs: number): Due => {
    const tick = Math.ceil(tMs / TICK_MS);
    const due = schedule.get(tick) ?? nothingDue();
    schedule.set(tick, due);
    return due;
  };
  for (const event of events) {
    switch (event.type) {
      case 'supply':
        at(event.tMs).supplyEdges.push({ tMs: event.tMs, on: event.on });
        break;
      case 'movement':
        at(event.tMs).movements.push({ sector: event.sector });
        break;
      case 'daylight':
        at(event.tMs).daylight.push(event.lx);
        break;
      case 'closure':
        break;
      default:
        at(event.tMs).ordered.push(event);
    }
  }
  for (const closure of mergedClosures(events)) {
    at(closure.fromMs).contactEdges.push({ tMs: closure.fromMs, input: closure.input, closed: true });
    at(closure.toMs).contactEdges.push({ tMs: closure.toMs, input: closure.input, closed: false });
  }
  for (const due of schedule.values()) due.contactEdges.sort((a, b) => a.tMs - b.tMs);
  return schedule;
}

export interface ClosedFor {
  input: ButtonId;
  fromMs: number;
  toMs: number;
}

/** Closures of one input that overlap or touch are one closure; any gap separates them. */
export function mergedClosures(events: readonly TimelineEvent[]): ClosedFor[] {
  const merged: ClosedFor[] = [];
  const last = new Map<ButtonId, ClosedFor>();
  for (const event of events) {
    if (event.type !== 'closure') continue;
    const toMs = event.tMs + event.closedMs;
    const before = last.get(event.input);
    if (before && event.tMs <= before.toMs) {
      before.toMs = Math.max(before.toMs, toMs);
    } else {
      const closure = { input: event.input, fromMs: event.tMs, toMs };
      merged.push(closure);
      last.set(event.input, closure);
    }
  }
  return merged;
}
