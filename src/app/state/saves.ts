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

/** Ends the id of a copy in which something is tried: it is nobody's work and is never saved. No story's id has a tilde. */
export const COPY_MARK = '~try';
const isCopy = (id: string): boolean => id.endsWith(COPY_MARK);

const recordingKey = (id: string): string => `halflit/recording/${id}`;
const positionKey = (id: string): string => `halflit/position/${id}`;

let lastWriteMs = Number.NEGATIVE_INFINITY;
let lastText = '';

/** Null: nothing there, or storage is refused. */
function readText(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** Null where the text is no JSON of the wanted shape. */
function parsed<T>(text: string, hasShape: (value: Loose) => boolean): T | null {
  try {
    const value = JSON.parse(text) as Loose | null;
    return value !== null && typeof value === 'object' && hasShape(value) ? (value as T) : null;
  } catch {
    return null;
  }
}

type Loose = Record<string, unknown>;

const isTick = (value: unknown): boolean => Number.isInteger(value) && (value as number) >= 0;
const isList = (value: unknown, each: (item: Loose) => boolean): boolean =>
  Array.isArray(value) && value.every((item) => item !== null && typeof item === 'object' && each(item));

/** Enough that nothing trips over it on the way to the worker; the worker finds out about the rest. */
function isRecording(value: Loose): boolean {
  return (
    value.format === 1 &&
    isTick(value.headTick) &&
    isList(value.inputs, ({ tick, serial, input }) => isTick(tick) && Number.isInteger(serial) && isKind(input)) &&
    isList(value.digests, ({ tick, digest }) => isTick(tick) && typeof digest === 'string')
  );
}

function isKind(value: unknown): boolean {
  return typeof (value as Loose | null)?.kind === 'string';
}

const isPosition = ({ tick, selection }: Loose): boolean => isTick(tick) && isKind(selection);

function write(key: string, value: unknown): boolean {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** The run of this story left in this browser; null when none, or of another seed; 'damaged' when it cannot be read. */
export function readSave(scenario: Scenario): Saved | null | 'damaged' {
  const positionText = readText(positionKey(scenario.id));
  const recordingText = readText(recordingKey(scenario.id));
  const position = positionText === null ? null : parsed<Position>(positionText, isPosition);
  const recording = recordingText === null ? null : parsed<Recording>(recordingText, isRecording);
  if ((positionText !== null && !position) || (recordingText !== null && !recording)) return 'damaged';
  if (!position || position.seed !== scenario.seed || position.tick <= 0) return null;
  const usable = recording && recording.seed === scenario.seed ? recording : null;
  return { recording: usable, tick: position.tick, selection: position.selection };
}

interface Position {
  tick: Tick;
  headTick: Tick;
  seed: number;
  selection: Selection;
}

/** Puts a save that cannot be used out of the way under another name, so that the next visit does not trip over it. */
export function putSaveAside(scenarioId: string): void {
  const kept = [recordingKey(scenarioId), positionKey(scenarioId)].map(readText);
  write(`halflit/damaged/${scenarioId}`, kept);
  forgetSave(scenarioId);
}

/** False when the browser refuses to store. */
export function writeRecording(recording: Recording): boolean {
  return isCopy(recording.scenarioId) || write(recordingKey(recording.scenarioId), recording);
}

export function writePosition(scenario: Scenario | null, tick: Tick, selection: Selection, force = false): void {
  if (!scenario || isCopy(scenario.id)) return;
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
