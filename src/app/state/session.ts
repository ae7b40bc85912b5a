/** Glue between worker and page: messages in become `live`, `record` and store; acts go out. Keeps no physics and no time. */

import type { ControllerSettings, Input, Scenario, Tick } from '../../engine/types.ts';
import type { FromWorker, ToWorker } from '../../host/messages.ts';
import { en } from '../../report/text/en.ts';
import { askExplanations, explained, forgetExplanations } from './explaining.ts';
import { invalidateLive, live } from './live.ts';
import { MARKS_KEPT, marksOf, marksUpTo } from './marks.ts';
import { plainEvents, plainFrame } from './plainFrame.ts';
import { NO_PROBES, photometersWanted, setProbes, takePhotometers, takeProbed } from './probes.ts';
import { addEvents, addSeries, clearRecord, cutRecord, record } from './record.ts';
import { putSaveAside, readSave, type Saved, writePosition, writeRecording } from './saves.ts';
import { EMPTY_RUN, getApp, type OpenJob, setApp } from './store.ts';
import { clearUndo, rememberUndo, takeUndo } from './undo.ts';
import { openWire, send } from './wire.ts';

/** Store writes from frames, ms apart: ten a second. Assumed: readouts faster than this cannot be read. */
const STORE_EVERY_MS = 100;

let opening = false;
let lastStoreMs = 0;
let trailing: ReturnType<typeof setTimeout> | null = null;
/** What the picture wants of the worker, told again to the room of every story. */
const wishes = new Map<string, ToWorker>();

/** Loads a story: the saved run of it when there is one and no other instant is asked for. */
export function loadStory(scenario: Scenario, options: { atTick?: Tick; fresh?: boolean; saved?: Saved } = {}): void {
  if (!opening) {
    opening = true;
    void openWire(receive);
  }
  clearRecord();
  clearUndo();
  const nothing = { frame: null, previousFrame: null, field: null, warmth: null, section: null };
  Object.assign(live, { ...nothing, sightCells: [], shadows: [], marks: [], digests: [] });
  setProbes(NO_PROBES);
  live.fieldVersion++;
  live.sightVersion++;
  const wantsSave = !options.fresh && options.atTick === undefined;
  const saved = options.saved ?? (wantsSave ? usableSave(scenario) : null);
  // The worker tells them anew only at the next act.
  live.inputs = saved?.recording?.inputs ?? [];
  savedIsLoading = saved !== null;
  const atTick = options.atTick ?? saved?.tick;
  forgetExplanations();
  setApp((s) => ({
    ...EMPTY_RUN,
    scenario,
    speed: scenario.speed,
    readiness: 'loading',
    screen: atTick || s.lecture ? 'main' : 'opening',
    theme: atTick || s.lecture ? s.theme : 'opening',
    recordVersion: s.recordVersion + 1,
    selection: saved?.selection ?? { kind: 'output', output: 'innerRow' },
  }));
  send({
    type: 'load',
    scenario,
    ...(saved?.recording ? { recording: saved.recording } : {}),
    ...(atTick ? { atTick } : {}),
  });
  for (const wish of wishes.values()) send(wish);
  if (photometersWanted()) send({ type: 'wantPhotometers', wanted: true });
}

/** The save being loaded may hold what only the worker can see to be wrong. */
let savedIsLoading = false;

/** A save that cannot be read is put aside with a word; the story begins at its start. */
function usableSave(scenario: Scenario): Saved | null {
  const saved = readSave(scenario);
  if (saved !== 'damaged') return saved;
  putSaveAside(scenario.id);
  setApp({ notice: en.notices.saveDamaged });
  return null;
}

/** The worker could not work the saved run: it is put aside, and the story begins at its start. */
function beginWithoutSave(scenario: Scenario): void {
  putSaveAside(scenario.id);
  loadStory(scenario, { fresh: true });
  setApp({ notice: en.notices.saveDamaged });
}

/** Whether the job that is open allows an act; in a copy of a marked run everything may be tried. */
function mayBeDone({ allows, settings, stage }: OpenJob, input: Input): boolean {
  if (stage === 'trying') return true;
  if (!allows.includes(input.kind)) return false;
  if (input.kind !== 'setSettings' || !settings) return true;
  return (Object.keys(input.change) as (keyof ControllerSettings)[]).every((key) => settings.includes(key));
}

/** Does something to the room at the shown instant, and remembers how to take it back. False: the job does not allow it. */
export function act(input: Input, undo?: Input[]): boolean {
  const { job } = getApp();
  if (job && !mayBeDone(job, input)) {
    setApp({ notice: en.notices.lockedInJob });
    return false;
  }
  if (undo) rememberUndo(undo);
  send({ type: 'act', input });
  askExplanations(true);
  return true;
}

/** Undo is a compensating act at now: what was done stays in the run. */
export function undoLast(): void {
  for (const input of takeUndo()) send({ type: 'act', input });
}

/** Asks the worker for more than its frames, or tells it that this is enough. */
export function wish(message: Extract<ToWorker, { type: 'wantSightMap' | 'wantWarmth' | 'wantSection' }>): void {
  wishes.set(message.type, message);
  send(message);
}

/** What came between two frames of a standing room is shown at once. */
function shownAnew(): void {
  invalidateLive();
  if (!getApp().status.running) setApp((s) => ({ frameSerial: s.frameSerial + 1 }));
}

const listeners = new Set<(message: FromWorker) => void>();

/** For parts with questions of their own: hears whatever the worker says about the story shown. */
export function onAnswer(fn: (message: FromWorker) => void): () => void {
  listeners.add(fn);
  return () => listeners.delete(fn);
}

/** Answers that still belong to the story before are not let in: between `load` and `loaded` only these count. */
const WHILE_LOADING: readonly FromWorker['type'][] = ['progress', 'loaded', 'refused', 'failed'];

function receive(message: FromWorker): void {
  if (getApp().readiness === 'loading' && !WHILE_LOADING.includes(message.type)) return;
  if (message.type === 'loaded' && message.scenario.id !== getApp().scenario?.id) return;
  for (const fn of listeners) fn(message);
  switch (message.type) {
    case 'progress':
      setApp({ progress: { stage: message.stage, share: message.share } });
      return;
    case 'loaded':
      savedIsLoading = false;
      setApp({ readiness: 'ready', progress: null });
      askExplanations(true);
      return;
    case 'frame':
      receiveFrame(message);
      return;
    case 'setup':
      setApp({ setup: message.setup, settings: keepsSettings() ? null : message.settings });
      return;
    case 'events':
      addEvents(isSealed() ? plainEvents(message.events) : message.events);
      if (!isSealed()) addMarks(message.events);
      bumpRecord();
      return;
    case 'series':
      if (isSealed()) return;
      addSeries(message.chunk);
      bumpRecord();
      return;
    case 'cut':
      cutRecord(message.tick);
      live.marks = live.marks.filter((mark) => mark.tick <= message.tick);
      setApp((s) => ({ branches: message.branches, recordVersion: s.recordVersion + 1 }));
      return;
    case 'field':
      live.field = message.field;
      live.fieldVersion++;
      invalidateLive();
      return;
    case 'sightMap':
      live.sightCells = message.cells;
      live.shadows = message.shadows;
      live.sightVersion++;
      invalidateLive();
      return;
    case 'warmth':
      live.warmth = message.warmth;
      shownAnew();
      return;
    case 'section':
      live.section = message.section;
      shownAnew();
      return;
    case 'probed':
      takeProbed(message);
      return;
    case 'photometers':
      takePhotometers(message);
      return;
    case 'explained':
      setApp((s) => ({
        explanations: { ...s.explanations, [message.explanation.output]: message.explanation },
      }));
      explained(message.requestId);
      return;
    case 'recording':
      live.digests = message.recording.digests;
      live.inputs = message.recording.inputs;
      if (!writeRecording(message.recording)) setApp({ notice: en.notices.storage });
      return;
    case 'refused':
      setApp({ notice: message.sentence });
      return;
    case 'failed': {
      const { scenario } = getApp();
      if (savedIsLoading && scenario) {
        beginWithoutSave(scenario);
        return;
      }
      setApp({ notice: message.sentence, readiness: getApp().readiness === 'loading' ? 'failed' : 'ready' });
      return;
    }
  }
}

function isSealed(): boolean {
  return getApp().job?.sealed ?? false;
}

/** Settings stay in a sealed device until it is opened for mending. */
function keepsSettings(): boolean {
  const { job } = getApp();
  return (job?.sealed ?? false) && !job?.mending;
}

/** Has the worker tell settings and setup of the shown instant once more. */
export function askSetup(): void {
  send({ type: 'seek', tick: live.frame?.tick ?? 0 });
}

let recordDirty = false;

function bumpRecord(): void {
  recordDirty = true;
  scheduleStore();
}

function addMarks(events: Extract<FromWorker, { type: 'events' }>['events']): void {
  live.marks.push(...marksOf(events));
  if (live.marks.length > MARKS_KEPT * 2) live.marks.splice(0, live.marks.length - MARKS_KEPT);
}

/** A longer way between two frames is a jump, not a run: nothing is blended over it, ticks. Assumed: a frame at 600 times speed. */
const JUMP_TICKS = 600;

let pendingStatus: Extract<FromWorker, { type: 'frame' }>['status'] | null = null;

function receiveFrame(message: Extract<FromWorker, { type: 'frame' }>): void {
  const { tick } = message.frame;
  const jumped = live.frame !== null && (tick < live.frame.tick || tick - live.frame.tick > JUMP_TICKS);
  if (jumped) live.marks = marksUpTo(tick, record.events);
  live.previousFrame = jumped ? null : live.frame;
  live.frame = isSealed() ? plainFrame(message.frame, !keepsSettings()) : message.frame;
  live.frameAtMs = performance.now();
  pendingStatus = message.status;
  invalidateLive();
  const now = getApp().status;
  // Starting, stopping and seeking while paused are answered at once; the rest waits for its turn.
  if (now.running !== message.status.running || !message.status.running) flushStore();
  else scheduleStore();
}

function scheduleStore(): void {
  const waitMs = lastStoreMs + STORE_EVERY_MS - performance.now();
  if (waitMs <= 0) flushStore();
  else trailing ??= setTimeout(flushStore, waitMs);
}

function flushStore(): void {
  if (trailing) clearTimeout(trailing);
  trailing = null;
  lastStoreMs = performance.now();
  const frame = live.frame;
  setApp((s) => ({
    ...(pendingStatus ? { status: pendingStatus } : {}),
    ...(frame ? { shownTick: frame.tick, frameSerial: s.frameSerial + 1 } : {}),
    ...(frame && frame.tick !== s.shownTick && s.notice === en.notices.pressWaits ? { notice: null } : {}),
    ...(recordDirty ? { recordVersion: s.recordVersion + 1 } : {}),
    ...(pendingStatus?.running ? { screen: 'main' as const } : {}),
    ...(frame && (s.screen === 'main' || pendingStatus?.running)
      ? { theme: s.lecture || frame.sun.altitudeDeg > NIGHT_BELOW_DEG ? 'day' : 'night' }
      : {}),
  }));
  pendingStatus = null;
  recordDirty = false;
  if (frame) writePosition(getApp().scenario, frame.tick, getApp().selection);
  askExplanations(false);
}

/** Sun altitude under which the table is night, deg. Source: civil twilight begins at 6 degrees below; half of it still reads as dusk. */
const NIGHT_BELOW_DEG = -3;
