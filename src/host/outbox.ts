/** What the page has been told so far, and what it must be told next. */

import type { LightField } from '../engine/light/types.ts';
import type { RoomInput } from '../engine/setup.ts';
import { fieldOf, frameOf, previewField } from '../engine/view.ts';
import { firstAtOrAfter } from './line.ts';
import type { FromWorker, RunStatus } from './messages.ts';
import { chunkOf } from './series.ts';
import { recordingOf, type Session } from './session.ts';

export type Post = (message: FromWorker, transfer?: ArrayBuffer[]) => void;

/** Least time between two fields of light, ms. Assumed: the eye does not see daylight move faster. */
const FIELD_EVERY_MS = 250;
/** A field is sent again when daylight has changed by this share … Assumed: 2 % is under one step of the Light Map. */
const FIELD_SHARE = 0.02;
/** … or the sun has moved this far, degrees. Assumed: half the sun's own disc, so patches move smoothly. */
const FIELD_SUN_DEG = 0.25;
/** Changes of outside light below this are never news, lx. Assumed: indoors a thousandth of it arrives. */
const FIELD_FLOOR_LX = 20;

interface Daylight {
  altitudeDeg: number;
  azimuthDeg: number;
  outsideLx: number;
  directLx: number;
}

export interface Outbox {
  post: Post;
  /** Events and ticks of the line that have been posted. */
  eventCount: number;
  seriesTick: number;
  branchesPosted: number;
  setupText: string;
  fieldAtMs: number;
  field: Daylight | null;
}

export function createOutbox(post: Post): Outbox {
  return {
    post,
    eventCount: 0,
    seriesTick: 0,
    branchesPosted: 0,
    setupText: '',
    fieldAtMs: Number.NEGATIVE_INFINITY,
    field: null,
  };
}

/** Events and series that are new since the last time. */
export function postRecord(outbox: Outbox, session: Session): void {
  const { line } = session;
  if (line.events.length > outbox.eventCount) {
    outbox.post({ type: 'events', events: line.events.slice(outbox.eventCount) });
    outbox.eventCount = line.events.length;
  }
  if (line.headTick > outbox.seriesTick) {
    const chunk = chunkOf(line.series, outbox.seriesTick, line.headTick);
    const buffers = [chunk.signalUv, chunk.innerEstimateLx, chunk.windowEstimateLx]
      .concat([chunk.innerReadingLx, chunk.windowReadingLx])
      .map((values) => values.buffer as ArrayBuffer);
    outbox.post({ type: 'series', chunk }, buffers);
    outbox.seriesTick = line.headTick;
  }
}

/** The page forgets `cutTick` and all after it; what the line now holds from there on is posted next. */
export function postCut(outbox: Outbox, session: Session, cutTick: number): void {
  const branches = session.branches.map((branch, index) => ({
    index,
    cutTick: branch.cutTick,
    headTick: Math.max(0, branch.line.headTick - 1),
  }));
  outbox.post({ type: 'cut', tick: cutTick - 1, branches });
  outbox.eventCount = Math.min(outbox.eventCount, firstAtOrAfter(session.line.events, cutTick));
  outbox.seriesTick = Math.min(outbox.seriesTick, cutTick);
}

export function postFrame(outbox: Outbox, session: Session, status: RunStatus): void {
  outbox.post({ type: 'frame', frame: frameOf(session.sim, session.lastStep), status });
}

/** Setup and settings when they differ from what the page has (or always, after a seek). */
export function postSetup(outbox: Outbox, session: Session, always: boolean): boolean {
  const { setup, control, tick } = session.sim.state;
  const { settings } = control;
  const text = JSON.stringify([setup, settings]);
  const changed = text !== outbox.setupText;
  if (!changed && !always) return false;
  outbox.setupText = text;
  outbox.post({ type: 'setup', tick: Math.max(0, tick - 1), setup, settings });
  return changed;
}

function daylightOf(session: Session): Daylight {
  const { before } = session.sim.state.light;
  return {
    altitudeDeg: before.altitudeDeg,
    azimuthDeg: before.azimuthDeg,
    outsideLx: before.outsideHorizontalLx,
    directLx: before.directNormalLx,
  };
}

function differs(a: Daylight, b: Daylight): boolean {
  const far = (x: number, y: number) => Math.abs(x - y) > Math.max(FIELD_FLOOR_LX, FIELD_SHARE * Math.max(x, y));
  if (far(a.outsideLx, b.outsideLx) || far(a.directLx, b.directLx)) return true;
  const sunUp = a.directLx > 0 || b.directLx > 0;
  const moved = Math.max(Math.abs(a.altitudeDeg - b.altitudeDeg), Math.abs(a.azimuthDeg - b.azimuthDeg));
  return sunUp && moved > FIELD_SUN_DEG;
}

/** The field of light, when the room or the daylight has changed noticeably. `setupChanged` does not wait its turn. */
export function postField(outbox: Outbox, session: Session, nowMs: number, setupChanged: boolean): void {
  const daylight = daylightOf(session);
  const news = outbox.field === null || setupChanged || differs(outbox.field, daylight);
  const waited = nowMs - outbox.fieldAtMs >= FIELD_EVERY_MS;
  if (!news || (!waited && !setupChanged)) return;
  sendField(outbox, session, fieldOf(session.sim));
  outbox.field = daylight;
  outbox.fieldAtMs = nowMs;
}

/** A first picture of the room as these acts will leave it, while its tables are being worked out; the true one follows. */
export function postPreview(outbox: Outbox, session: Session, acts: readonly RoomInput[]): void {
  const field = previewField(session.sim, acts);
  if (field !== null) sendField(outbox, session, field);
}

/** The arrays are made for this message: a posted buffer is gone from here. */
function sendField(outbox: Outbox, session: Session, field: LightField): void {
  const buffers = [field.daylightLx, field.innerRowLx, field.windowRowLx, field.doorLx].map(
    (values) => values.buffer as ArrayBuffer,
  );
  outbox.post({ type: 'field', tick: Math.max(0, session.sim.state.tick - 1), field }, buffers);
}

export function postRecording(outbox: Outbox, session: Session): void {
  outbox.post({ type: 'recording', recording: recordingOf(session) });
}
