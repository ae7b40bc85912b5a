/** A file of controller timelines, shape "timelines/1", as it is written. Times in s, light in desk-equivalent lux. */
import type { ButtonId, ControllerSettings, RowId } from '../../engine/types.ts';

export interface Sides {
  inner: number;
  window: number;
}

/** Settings of the controller, and the angle by which the detector is turned from the window. */
export interface TimelineSettings {
  settings: Partial<ControllerSettings>;
  mountingAngleDeg: number | null;
}

export type TimelineEvent = { tMs: number } & (
  | { type: 'supply'; on: boolean }
  | { type: 'movement'; sector: number | null }
  | { type: 'closure'; input: ButtonId; closedMs: number }
  | { type: 'daylight'; lx: Partial<Sides> }
  | { type: 'setting'; set: TimelineSettings; via?: 'dial' | 'handHeld' }
  | { type: 'takePresentLight'; row: RowId }
  | { type: 'walkTest'; action: 'start' | 'end' }
);

export type StateLine = [tS: number, inner: number, window: number, air: number];

export interface FlagLine {
  t: number;
  flag: string;
  input?: string;
  state?: string;
}

/** What a timeline expects, and what a run of it gives. Times in s. */
export interface Outcome {
  columns: string[];
  states: StateLine[];
  flags?: FlagLine[];
  adaptive_delay_changes?: { t: number; adaptive_delay_s: number }[];
}

export interface Timeline {
  id: string;
  settings: TimelineSettings;
  daylightLx: Sides;
  /** A lit row -> light that it adds on each side of the room. Null: readings are daylight alone. */
  lampLightLx: Record<RowId, Sides> | null;
  supplyAtStart: boolean;
  adaptiveStartS: number | null;
  /** Ordered by time; file order within one instant. */
  events: TimelineEvent[];
  runUntilS: number;
  expected: Outcome;
  toleranceS: number;
}

export interface TimelineFile {
  defaults: TimelineSettings;
  timelines: Timeline[];
}
