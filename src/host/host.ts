/**
 * The room's own side of the conversation: takes messages, holds the session, works ticks in slices, posts what is new.
 * `worker.ts` runs it in a worker; tests run it with a clock of their own.
 */
import type { Input, Tick } from '../engine/types.ts';
import { type Loading, loadSteps } from './loading.ts';
import type { FromWorker, RunStatus, ToWorker } from './messages.ts';
import {
  createOutbox,
  type Outbox,
  type Post,
  postCut,
  postField,
  postFrame,
  postRecord,
  postRecording,
  postSetup,
} from './outbox.ts';
import { FRAME_EVERY_MS, type Pace, runSlice, SLICE_MS, startPace, trueSpeed, waitMs } from './pacing.ts';
import { rebuildsTables, refusal } from './refusals.ts';
import {
  act,
  actStandingStill,
  advance,
  explainAt,
  isSwitching,
  knownSwitching,
  restoreBranch,
  type Session,
  seek,
  shownTick,
} from './session.ts';
import { sightCellsFor } from './sight.ts';

export interface Surroundings {
  post: Post;
  /** Wall time, ms. */
  clock: () => number;
  /** Calls back once, after the messages that are already waiting. */
  later: (fn: () => void, delayMs: number) => void;
}

/** Longest search for the next switching, ticks. Assumed: a day; a room where nothing switches for a day will not. */
const LONGEST_SEARCH_TICKS = 864_000;

type Doing =
  | { kind: 'standing' }
  | { kind: 'running'; pace: Pace }
  | { kind: 'searching'; fromTick: Tick }
  | { kind: 'catchingUp'; shown: Tick }
  | { kind: 'loading'; loading: Loading };

export interface Host {
  receive(message: ToWorker): void;
}

interface HostState {
  around: Surroundings;
  outbox: Outbox;
  session: Session | null;
  doing: Doing;
  speedAsked: number;
  acts: Input[];
  seekTo: Tick | null;
  /** Messages that came while loading. */
  waiting: ToWorker[];
  wantsSight: boolean;
  sightKey: string;
  frameAtMs: number;
  scheduled: boolean;
  stopped: boolean;
}

export function createHost(around: Surroundings): Host {
  const host: HostState = {
    around,
    outbox: createOutbox(around.post),
    session: null,
    doing: { kind: 'standing' },
    speedAsked: 1,
    acts: [],
    seekTo: null,
    waiting: [],
    wantsSight: false,
    sightKey: '',
    frameAtMs: Number.NEGATIVE_INFINITY,
    scheduled: false,
    stopped: false,
  };
  return { receive: (message) => guarded(host, () => receive(host, message)) };
}

function post(host: HostState, message: FromWorker): void {
  host.around.post(message);
}

/** Nothing that goes wrong inside may leave the page waiting. */
function guarded(host: HostState, work: () => void): void {
  try {
    work();
  } catch (error) {
    host.doing = { kind: 'standing' };
    const cause = error instanceof Error ? error.message : String(error);
    post(host, { type: 'failed', sentence: `The room stopped working: ${cause}.` });
  }
}

function wake(host: HostState, delayMs = 0): void {
  if (host.scheduled || host.stopped) return;
  host.scheduled = true;
  host.around.later(() => {
    host.scheduled = false;
    if (!host.stopped) guarded(host, () => pump(host));
  }, delayMs);
}

function receive(host: HostState, message: ToWorker): void {
  if (message.type === 'stop') {
    host.stopped = true;
    return;
  }
  if (message.type === 'load') {
    startLoading(host, message);
    return;
  }
  if (message.type === 'wantSightMap') {
    host.wantsSight = message.wanted;
    host.sightKey = '';
    if (host.session && host.doing.kind !== 'loading') postSight(host, host.session);
    return;
  }
  if (host.doing.kind === 'loading') {
    host.waiting.push(message);
    return;
  }
  if (!host.session) return;
  // Dragging sends many acts and scrubbing many seeks; those already waiting are taken together.
  if (message.type === 'act') {
    if (host.seekTo !== null) flush(host, host.session);
    host.acts.push(message.input);
    wake(host);
  } else if (message.type === 'seek') {
    if (host.acts.length > 0) flush(host, host.session);
    host.seekTo = message.tick;
    wake(host);
  } else {
    flush(host, host.session);
    handle(host, host.session, message);
  }
}

type Direct = Exclude<ToWorker, { type: 'act' | 'seek' | 'load' | 'stop' | 'wantSightMap' }>;

function handle(host: HostState, session: Session, message: Direct): void {
  switch (message.type) {
    case 'run':
      run(host, message.speed);
      return;
    case 'pause':
      stand(host, session);
      return;
    case 'step':
      stepBy(host, session, message.ticks);
      return;
    case 'nextEvent':
      toEvent(host, session, message.direction);
      return;
    case 'restoreBranch': {
      const cut = restoreBranch(session, message.index);
      if (cut === null) return;
      postCut(host.outbox, session, cut);
      host.doing = { kind: 'standing' };
      show(host, session, true);
      postRecording(host.outbox, session);
      return;
    }
    case 'explain': {
      const { requestId, output, tick } = message;
      post(host, { type: 'explained', requestId, explanation: explainAt(session, output, tick) });
      return;
    }
  }
}

function run(host: HostState, speed: number): void {
  host.speedAsked = speed;
  host.doing = { kind: 'running', pace: startPace(speed, host.around.clock()) };
  wake(host);
}

function stand(host: HostState, session: Session): void {
  host.doing = { kind: 'standing' };
  show(host, session, false);
  postRecording(host.outbox, session);
}

function stepBy(host: HostState, session: Session, ticks: number): void {
  host.doing = { kind: 'standing' };
  if (ticks > 0) advance(session, Math.trunc(ticks));
  else seek(session, Math.max(0, shownTick(session) + Math.trunc(ticks)));
  show(host, session, ticks < 0);
}

function toEvent(host: HostState, session: Session, direction: 1 | -1): void {
  const known = knownSwitching(session, direction);
  if (known === null && direction === 1) {
    seek(session, session.line.headTick - 1);
    host.doing = { kind: 'searching', fromTick: session.sim.state.tick };
    wake(host);
    return;
  }
  host.doing = { kind: 'standing' };
  seek(session, known ?? 0);
  show(host, session, true);
}

/** Acts and seeks that have gathered. */
function flush(host: HostState, session: Session): void {
  if (host.acts.length > 0) {
    const acts = host.acts;
    host.acts = [];
    doActs(host, session, acts);
  }
  if (host.seekTo !== null) {
    const shown = host.seekTo;
    host.seekTo = null;
    goTo(host, session, shown);
  }
}

function doActs(host: HostState, session: Session, acts: readonly Input[]): void {
  const fit: Input[] = [];
  for (const input of acts) {
    const sentence = refusal(session, fit, input);
    if (sentence === null) fit.push(input);
    else post(host, { type: 'refused', sentence });
  }
  if (fit.length === 0) return;
  if (fit.some(rebuildsTables)) {
    postFrame(host.outbox, session, { ...statusOf(host, session), updating: true });
  }
  if (host.doing.kind === 'running') {
    let cut: Tick | null = null;
    for (const input of fit) cut = act(session, input) ?? cut;
    if (cut !== null) postCut(host.outbox, session, cut);
  } else {
    host.doing = { kind: 'standing' };
    const cut = actStandingStill(session, fit);
    if (cut !== null) postCut(host.outbox, session, cut);
    show(host, session, false);
  }
  postRecording(host.outbox, session);
}

function goTo(host: HostState, session: Session, shown: Tick): void {
  if (shown >= session.line.headTick) {
    host.doing = { kind: 'catchingUp', shown };
    return;
  }
  const { doing } = host;
  seek(session, shown);
  if (doing.kind !== 'running') host.doing = { kind: 'standing' };
  show(host, session, true);
}

function pump(host: HostState): void {
  if (host.doing.kind === 'loading') {
    pumpLoading(host, host.doing.loading);
    return;
  }
  const { session } = host;
  if (!session) return;
  flush(host, session);
  const { doing } = host;
  if (doing.kind === 'running') pumpRunning(host, session, doing.pace);
  else if (doing.kind === 'searching') pumpSearching(host, session, doing.fromTick);
  else if (doing.kind === 'catchingUp') pumpCatchingUp(host, session, doing.shown);
}

function pumpRunning(host: HostState, session: Session, pace: Pace): void {
  const { clock } = host.around;
  const worked = runSlice(pace, clock, () => advance(session, 1) === 1);
  if (worked > 0 && clock() - host.frameAtMs >= FRAME_EVERY_MS) show(host, session, false);
  wake(host, waitMs(pace));
}

/** Works a slice as fast as it goes; stops when `goOn` says so. Returns whether it stopped by that. */
function workSlice(host: HostState, session: Session, goOn: () => boolean): boolean {
  const { clock } = host.around;
  const startMs = clock();
  while (clock() - startMs < SLICE_MS) {
    if (!goOn()) return true;
  }
  if (clock() - host.frameAtMs >= FRAME_EVERY_MS) show(host, session, false);
  wake(host);
  return false;
}

function pumpSearching(host: HostState, session: Session, fromTick: Tick): void {
  const done = workSlice(host, session, () => {
    let found = false;
    advance(session, 1, (step) => {
      found = step.events.some(isSwitching);
      return true;
    });
    return !found && session.sim.state.tick - fromTick < LONGEST_SEARCH_TICKS;
  });
  if (done) stand(host, session);
}

function pumpCatchingUp(host: HostState, session: Session, shown: Tick): void {
  seek(session, session.line.headTick - 1);
  const done = workSlice(host, session, () => {
    if (session.sim.state.tick > shown) return false;
    advance(session, 1);
    return true;
  });
  if (done) stand(host, session);
}

function statusOf(host: HostState, session: Session): RunStatus {
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
function show(host: HostState, session: Session, always: boolean): void {
  const { outbox } = host;
  const nowMs = host.around.clock();
  postRecord(outbox, session);
  const setupChanged = postSetup(outbox, session, always);
  postFrame(outbox, session, statusOf(host, session));
  host.frameAtMs = nowMs;
  postField(outbox, session, nowMs, setupChanged);
  postSight(host, session);
}

/** The Sight Map, when it is wanted and the detector, its masks or what stands in its way have changed. */
function postSight(host: HostState, session: Session): void {
  if (!host.wantsSight) return;
  const { setup, control } = session.sim.state;
  const key = JSON.stringify([setup.mount, setup.furniture, control.settings.maskedSectors]);
  if (key === host.sightKey) return;
  host.sightKey = key;
  post(host, { type: 'sightMap', cells: sightCellsFor(session.sim) });
}

function startLoading(host: HostState, message: Extract<ToWorker, { type: 'load' }>): void {
  host.session = null;
  host.outbox = createOutbox(host.around.post);
  host.sightKey = '';
  host.acts = [];
  host.seekTo = null;
  host.waiting = [];
  host.speedAsked = message.scenario.speed;
  host.doing = { kind: 'loading', loading: loadSteps(message) };
  post(host, { type: 'progress', stage: 'lens', share: 0 });
  wake(host);
}

function pumpLoading(host: HostState, loading: Loading): void {
  const progress = loading.work(host.around.clock);
  if (progress !== null) {
    post(host, { type: 'progress', ...progress });
    wake(host);
    return;
  }
  const { session } = loading;
  if (!session) return;
  host.session = session;
  host.doing = { kind: 'standing' };
  if (loading.sentence !== null) post(host, { type: 'refused', sentence: loading.sentence });
  post(host, { type: 'loaded', scenario: session.sim.scenario, startTick: shownTick(session) });
  show(host, session, true);
  for (const message of host.waiting.splice(0)) receive(host, message);
}
