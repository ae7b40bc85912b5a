/** What the host remembers, and how it shows the page what is new. */
import { floorShadows } from '../engine/detection/floorShadows.ts';
import { sideSection } from '../engine/detection/sideSection.ts';
import { sightCells } from '../engine/detection/sightCells.ts';
import { roomBoxes } from '../engine/room/boxes.ts';
import type { Input, Tick } from '../engine/types.ts';
import { warmthOf } from '../engine/warmth.ts';
import type { Questions } from './asked.ts';
import { createInstruments, type Instruments, postInstruments } from './instruments.ts';
import { createJobs, type Jobs } from './jobs.ts';
import type { Loading } from './loading.ts';
import type { FromWorker, RunStatus, ToWorker } from './messages.ts';
import { createOutbox, type Outbox, type Post, postField, postFrame, postRecord, postSetup } from './outbox.ts';
import { type Pace, trueSpeed } from './pacing.ts';
import { createReachDesk, keepReach, type ReachDesk } from './reach.ts';
import type { Session } from './session.ts';

export interface Surroundings {
  post: Post;
  /** Wall time, ms. */
  clock: () => number;
  /** Calls back once, after the messages that are already waiting. */
  later: (fn: () => void, delayMs: number) => void;
}

export type Doing =
  | { kind: 'standing' }
  | { kind: 'running'; pace: Pace; untilTick: Tick }
  | { kind: 'searching'; fromTick: Tick }
  | { kind: 'catchingUp'; shown: Tick }
  | { kind: 'loading'; loading: Loading };

export interface HostState {
  around: Surroundings;
  outbox: Outbox;
  session: Session | null;
  doing: Doing;
  speedAsked: number;
  acts: Input[];
  seekTo: Tick | null;
  questions: Questions;
  /** Messages that came while loading. */
  waiting: ToWorker[];
  wantsSight: boolean;
  sightKey: string;
  wantsWarmth: boolean;
  warmthAtMs: number;
  /** Bearing of the side section that is wanted, degrees; null: none. */
  sectionDeg: number | null;
  sectionKey: string;
  reach: ReachDesk;
  instruments: Instruments;
  jobs: Jobs;
  frameAtMs: number;
  /** When the next pump is due, ms, and which of the wishes for it counts. */
  wakeAtMs: number | null;
  wakeId: number;
  stopped: boolean;
}

export function createHostState(around: Surroundings): HostState {
  return {
    around,
    outbox: createOutbox(around.post),
    session: null,
    doing: { kind: 'standing' },
    speedAsked: 1,
    acts: [],
    seekTo: null,
    questions: [],
    waiting: [],
    wantsSight: false,
    sightKey: '',
    wantsWarmth: false,
    warmthAtMs: Number.NEGATIVE_INFINITY,
    sectionDeg: null,
    sectionKey: '',
    reach: createReachDesk(),
    instruments: createInstruments(),
    jobs: createJobs({
      post: (message) => around.post(message),
      clock: around.clock,
      later: around.later,
      fail: (error) => around.post(failure(error)),
    }),
    frameAtMs: Number.NEGATIVE_INFINITY,
    wakeAtMs: null,
    wakeId: 0,
    stopped: false,
  };
}

/** Whatever went wrong inside, told to the page. */
export function failure(error: unknown): FromWorker {
  const cause = error instanceof Error ? error.message : String(error);
  return { type: 'failed', sentence: `The room stopped working: ${cause}.` };
}

export function post(host: HostState, message: FromWorker): void {
  host.around.post(message);
}

export function statusOf(host: HostState, session: Session): RunStatus {
  const { doing } = host;
  return {
    running: doing.kind === 'running' || doing.kind === 'searching' || doing.kind === 'catchingUp',
    speedAsked: host.speedAsked,
    speedTrue: doing.kind === 'running' ? trueSpeed(doing.pace) : 0,
    headTick: Math.max(0, session.line.headTick - 1),
    updating: false,
  };
}

/** Everything that is new for the page, the frame last of what belongs to the instant. */
export function show(host: HostState, session: Session, always: boolean): void {
  const { outbox } = host;
  const nowMs = host.around.clock();
  postRecord(outbox, session);
  const setupChanged = postSetup(outbox, session, always);
  // Before the frame: whatever waits for the frame finds it there.
  postWarmth(host, session);
  postFrame(outbox, session, statusOf(host, session));
  host.frameAtMs = nowMs;
  postField(outbox, session, nowMs, setupChanged);
  postSight(host, session);
  postSection(host, session);
  keepReach(host, session);
  postInstruments(host, session);
}

/** Least time between two Warmth Maps of a running room, ms. Assumed: contrast changes over minutes, places are the
 *  frame's; a map of eight people takes some 40 ms. */
const WARMTH_EVERY_MS = 500;

/** The Warmth Map of the shown instant, when it is wanted. */
export function postWarmth(host: HostState, session: Session): void {
  if (!host.wantsWarmth) return;
  const nowMs = host.around.clock();
  if (host.doing.kind === 'running' && nowMs - host.warmthAtMs < WARMTH_EVERY_MS) return;
  host.warmthAtMs = nowMs;
  post(host, { type: 'warmth', warmth: warmthOf(session.sim) });
}

/** Height at which desks are cut when the room has no desk point, m. Source: common desk height. */
const DESK_HEIGHT_M = 0.75;

/** The side section, when it is wanted and it, the detector, its masks or the furniture have changed. */
export function postSection(host: HostState, session: Session): void {
  const bearingDeg = host.sectionDeg;
  if (bearingDeg === null) return;
  const { scenario, tables, state } = session.sim;
  const { setup, control } = state;
  const { maskedSectors } = control.settings;
  const key = JSON.stringify([bearingDeg, setup.mount, setup.furniture, setup.doors, maskedSectors]);
  if (key === host.sectionKey) return;
  host.sectionKey = key;
  const deskHeightM = scenario.room.deskPoints[0]?.heightM ?? DESK_HEIGHT_M;
  const boxes = roomBoxes(scenario.room, setup.furniture);
  const section = sideSection(tables.movement, boxes, { bearingDeg, deskHeightM, maskedSectors });
  post(host, { type: 'section', section });
}

/** The Sight Map, when it is wanted and the detector, its masks or what stands in its way have changed. */
export function postSight(host: HostState, session: Session): void {
  if (!host.wantsSight) return;
  const { scenario, tables, state } = session.sim;
  const { setup, control } = state;
  const { maskedSectors } = control.settings;
  const key = JSON.stringify([setup.mount, setup.furniture, setup.doors, maskedSectors]);
  if (key === host.sightKey) return;
  host.sightKey = key;
  post(host, {
    type: 'sightMap',
    cells: sightCells(scenario.detectorModel, tables.movement, maskedSectors),
    shadows: floorShadows(tables.movement.surroundings, roomBoxes(scenario.room, setup.furniture)),
  });
}
