/** Short ways to play the controller in tests. */

import { readTimelineFile } from '../../src/cli/timelines/read.ts';
import { runTimeline } from '../../src/cli/timelines/run.ts';
import type { Outcome } from '../../src/cli/timelines/types.ts';
import { createControlState, runControl } from '../../src/engine/control/control.ts';
import type { ControlState, ControlTickInput } from '../../src/engine/control/types.ts';
import type { TraceEvent } from '../../src/engine/trace.ts';
import type { ControllerSettings, Pulse } from '../../src/engine/types.ts';
import { DEFAULT_SETTINGS } from '../../src/scenario/defaults.ts';

export interface Play {
  set?: Record<string, unknown>;
  daylight?: { inner: number; window: number };
  lamps?: unknown;
  off?: boolean;
  adaptiveStartS?: number;
  until: number;
  events: Record<string, unknown>[];
}

/** Plays events written as in a timeline file. The gap limit is 1 s unless set, which keeps the air contact out of it. */
export function play(p: Play): Outcome {
  const inputs = {
    settings_changed: { air_gap_limit_s: 1, ...p.set },
    daylight_lx: p.daylight ?? { inner: 100, window: 200 },
    supply_at_start: !p.off,
    events: p.events,
    run_until_s: p.until,
    ...(p.lamps ? { lamp_light_lx: p.lamps } : {}),
    ...(p.adaptiveStartS === undefined ? {} : { adaptive_start_s: p.adaptiveStartS }),
  };
  const expected = { columns: ['t_s', 'inner', 'window', 'air'], states: [] };
  const file = { shape: 'timelines/1', defaults: {}, timelines: [{ id: 'play', inputs, expected }] };
  const read = readTimelineFile(JSON.stringify(file));
  return runTimeline(read.timelines[0]!, read.defaults);
}

export const m = (t: number, sector?: number) => ({ t, type: 'movement', ...(sector === undefined ? {} : { sector }) });
export const close = (t: number, input: 'inner' | 'window' | 'air', closed_s: number) => ({
  t,
  type: 'input closure',
  input: `${input} button`,
  closed_s,
});
/** A press of 0.3 s: acts 0.3 s later. */
export const press = (t: number, input: 'inner' | 'window' | 'air') => close(t, input, 0.3);
export const set = (t: number, settings: Record<string, unknown>, via?: string) => ({
  t,
  type: 'setting',
  set: settings,
  ...(via ? { via } : {}),
});
export const day = (t: number, lx: { inner?: number; window?: number }) => ({ t, type: 'daylight', lx });
export const supply = (t: number, on: boolean) => ({ t, type: on ? 'supply on' : 'supply off' });
export const walk = (t: number, action: 'start' | 'end') => ({ t, type: 'walk-test', action });
export const take = (t: number, row: 'inner' | 'window') => ({ t, type: 'take present light', row });
/** Movement from a to b, every `every` seconds. */
export const steady = (a: number, b: number, every = 60) =>
  Array.from({ length: Math.floor((b - a) / every) + 1 }, (_, i) => m(a + i * every));

const NONE: never[] = [];

export type Due = Partial<Omit<ControlTickInput, 'tick'>>;

/** A controller on the bench: readings equal daylight, inputs by tick. */
export class Bench {
  state: ControlState;
  tick = 0;
  readings = { innerLx: 100, windowLx: 200 };
  events: TraceEvent[] = [];

  constructor(settings: Partial<ControllerSettings> = {}, supplyPresent = true) {
    this.state = createControlState(
      { ...DEFAULT_SETTINGS, innerDeskFactor: 1, windowDeskFactor: 1, ...settings },
      { supplyPresent },
    );
  }

  step(due: Due = {}): TraceEvent[] {
    const { events } = runControl(this.state, {
      tick: this.tick++,
      supplyEdges: NONE,
      contactEdges: NONE,
      commands: NONE,
      pulses: NONE,
      movements: NONE,
      readings: this.readings,
      ...due,
    });
    this.events.push(...events);
    return events;
  }

  /** Works idle ticks until the next tick to be worked is at `s`. */
  idleUntil(s: number): void {
    while (this.tick < Math.round(s * 10)) this.step();
  }

  /** Idle until `s`, then one tick with these inputs. */
  at(s: number, due: Due): TraceEvent[] {
    this.idleUntil(s);
    return this.step(due);
  }

  move(s: number): TraceEvent[] {
    return this.at(s, { movements: [{ sector: null }] });
  }

  /** A press of 0.3 s that acts at `s`. */
  press(s: number, input: 'inner' | 'window' | 'air'): TraceEvent[] {
    this.at(s - 0.3, { contactEdges: [{ tMs: Math.round(s * 1000) - 300, input, closed: true }] });
    return this.at(s, { contactEdges: [{ tMs: Math.round(s * 1000), input, closed: false }] });
  }

  get lastTick(): number {
    return this.tick - 1;
  }
}

export function pulse(level: Pulse['level'], channel = 0, subStep = 0): Pulse {
  return { subStep, channel, polarity: 1, level, signalUv: 100, bearingDeg: 10, atM: [1, 2] };
}
