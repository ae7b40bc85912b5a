/** Autosave in this browser: the recording at every act, the shown instant every few seconds. Every access may be refused. */
import type { Recording } from '../../engine/recording.ts';
import type { Scenario, Tick } from '../../engine/types.ts';
import { type Selection, useApp } from './store.ts';

export interface Saved {
  recording: Recording | null;
  tick: Tick;
  selection: Selection;
}

/** Least time between two saves of the position, ms. Requirement: a crash loses at most 5 s of work. */
const POSITION_EVERY_MS = 2000;

const recordingKey = (id: string): string => `halflit/recording/${id}`;
const positionKey = (id: string): string => `halflit/position/${id}`;

let lastWriteMs = Number.NEGATIVE_INFINITY;
let lastText = '';

function read<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(key);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null;
  }
}

function write(key: string, value: unknown): boolean {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** The run of this story left in this browser; null when none, or when it belongs to another seed. */
export function readSave(scenario: Scenario): Saved | null {
  const position = read<{ tick: Tick; headTick: Tick; seed: number; selection: Selection }>(positionKey(scenario.id));
  const recording = read<Recording>(recordingKey(scenario.id));
  if (!position || position.seed !== scenario.seed || position.tick <= 0) return null;
  const usable = recording && recording.seed === scenario.seed ? recording : null;
  return { recording: usable, tick: position.tick, selection: position.selection };
}

/** False when the browser refuses to store. */
export function writeRecording(recording: Recording): boolean {
  return write(recordingKey(recording.scenarioId), recording);
}

export function writePosition(scenario: Scenario | null, tick: Tick, selection: Selection, force = false): void {
  if (!scenario) return;
  const nowMs = performance.now();
  if (!force && nowMs - lastWriteMs < POSITION_EVERY_MS) return;
  const value = { tick, headTick: useApp.getState().status.headTick, seed: scenario.seed, selection };
  const text = JSON.stringify(value);
  if (text === lastText) return;
  lastWriteMs = nowMs;
  lastText = text;
  write(positionKey(scenario.id), value);
}

/** Forgets the saved run of a story. */
export function forgetSave(scenarioId: string): void {
  try {
    localStorage.removeItem(recordingKey(scenarioId));
    localStorage.removeItem(positionKey(scenarioId));
  } catch {
    // Nothing was stored then either.
  }
}
