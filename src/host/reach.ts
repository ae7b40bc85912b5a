/**
 * Reach outlines for the page: worked out beside the room's own ticks, a short slice at a time, and dropped as soon as
 * the detector or the room is no longer the one that they were begun for. Nothing here touches the session.
 */
import { createReachJob, type ReachJob, reachKey } from '../exercise/reach/outlines.ts';
import type { FurnishedRoom } from '../exercise/reach/roomLab.ts';
import { REACH_KINDS, type ReachOutlines } from '../exercise/reach/types.ts';
import { type HostState, post } from './hostState.ts';
import { SLICE_MS } from './pacing.ts';
import type { Session } from './session.ts';

/** Slice while the room is running, ms. Assumed: half of a slice of ticks, so that the room goes first. */
const RUNNING_SLICE_MS = SLICE_MS / 2;
/** Pause between such slices, ms. Assumed: the ticks due meanwhile have their turn. */
const RUNNING_PAUSE_MS = 10;
/** Least time between two words about progress, ms. Assumed: a bar that moves five times a second. */
const TELL_EVERY_MS = 200;
/** Outlines kept for seeking and undo. Source: as many as the tables that are kept. */
const KEPT = 8;

export interface ReachDesk {
  wanted: boolean;
  /** What the page has been told to be the present key; '' nothing yet. */
  key: string;
  job: ReachJob | null;
  known: Map<string, ReachOutlines>;
  toldAtMs: number;
  /** A slice is due. */
  waiting: boolean;
}

export function createReachDesk(): ReachDesk {
  return { wanted: false, key: '', job: null, known: new Map(), toldAtMs: Number.NEGATIVE_INFINITY, waiting: false };
}

/** Another story: what is under way is not wanted any more. */
export function dropReach(host: HostState): void {
  host.reach.key = '';
  host.reach.job = null;
}

export function wantReach(host: HostState, wanted: boolean): void {
  host.reach.wanted = wanted;
  dropReach(host);
  if (wanted && host.session && host.doing.kind !== 'loading') keepReach(host, host.session);
}

function furnishedRoom(session: Session): FurnishedRoom {
  const { scenario, tables, state } = session.sim;
  return {
    model: scenario.detectorModel,
    room: scenario.room,
    setup: state.setup,
    settings: state.control.settings,
    tables: tables.movement,
  };
}

/** Begins anew when detector, room or temperature are not those of the last time. Called with every frame. */
export function keepReach(host: HostState, session: Session): void {
  const desk = host.reach;
  if (!desk.wanted) return;
  const room = furnishedRoom(session);
  const key = reachKey(room);
  if (key === desk.key) return;
  desk.key = key;
  desk.job = null;
  const known = desk.known.get(key);
  if (known) {
    post(host, { type: 'reach', outlines: known });
    return;
  }
  desk.job = createReachJob(room, { kinds: REACH_KINDS });
  post(host, { type: 'reachProgress', share: 0 });
  wake(host, 0);
}

function wake(host: HostState, delayMs: number): void {
  if (host.reach.waiting) return;
  host.reach.waiting = true;
  host.around.later(() => {
    host.reach.waiting = false;
    if (host.stopped || !host.reach.job) return;
    try {
      workSlice(host, host.reach.job);
    } catch (error) {
      host.reach.job = null;
      const cause = error instanceof Error ? error.message : String(error);
      post(host, { type: 'refused', sentence: `The reach of the detector could not be worked out: ${cause}.` });
    }
  }, delayMs);
}

function workSlice(host: HostState, job: ReachJob): void {
  const { clock } = host.around;
  const running = host.doing.kind !== 'standing';
  const startMs = clock();
  const endMs = startMs + (running ? RUNNING_SLICE_MS : SLICE_MS);
  while (!job.result && clock() < endMs) job.step();
  if (job.result) {
    finish(host, job.result);
    return;
  }
  if (startMs - host.reach.toldAtMs >= TELL_EVERY_MS) {
    host.reach.toldAtMs = startMs;
    post(host, { type: 'reachProgress', share: job.done / job.total });
  }
  wake(host, running ? RUNNING_PAUSE_MS : 0);
}

function finish(host: HostState, outlines: ReachOutlines): void {
  const { known } = host.reach;
  host.reach.job = null;
  known.set(outlines.key, outlines);
  const oldest = known.keys().next();
  if (known.size > KEPT && !oldest.done) known.delete(oldest.value);
  post(host, { type: 'reach', outlines });
}
