/**
 * The room's own side of the conversation: takes messages, holds the session, works ticks in slices, posts what is new.
 * `worker.ts` runs it in a worker; tests run it with a clock of their own.
 */
import type { Tick } from '../engine/types.ts';
import { askSights, askSignal, workQuestions } from './asked.ts';
import { answerBench, type BenchQuestion, isBenchQuestion } from './benchWork.ts';
import { flush, restore, run, stand, stepBy, toEvent } from './deeds.ts';
import { answerQuestion, isQuestion } from './exerciseWork.ts';
import {
  createHostState,
  failure,
  type HostState,
  post,
  postSection,
  postSight,
  postWarmth,
  type Surroundings,
  show,
} from './hostState.ts';
import { createInstruments, takeInstrument } from './instruments.ts';
import { type Loading, loadSteps } from './loading.ts';
import type { ExerciseQuestion, ToWorker } from './messages.ts';
import { createOutbox } from './outbox.ts';
import { FRAME_EVERY_MS, type Pace, runSlice, SLICE_MS, waitMs } from './pacing.ts';
import { dropReach, wantReach } from './reach.ts';
import { advance, explainAt, isSwitching, type Session, seek, shownTick } from './session.ts';

/** Longest search for the next switching, ticks. Assumed: a day; a room where nothing switches for a day will not. */
const LONGEST_SEARCH_TICKS = 864_000;

export interface Host {
  receive(message: ToWorker): void;
}

export function createHost(around: Surroundings): Host {
  const host = createHostState(around);
  return { receive: (message) => guarded(host, () => receive(host, message)) };
}

/** Nothing that goes wrong inside may leave the page waiting. */
function guarded(host: HostState, work: () => void): void {
  try {
    work();
  } catch (error) {
    host.doing = { kind: 'standing' };
    post(host, failure(error));
  }
}

/** Pumps after a while; an earlier wish replaces a later one. */
function wake(host: HostState, delayMs = 0): void {
  const dueMs = host.around.clock() + delayMs;
  if (host.stopped || (host.wakeAtMs !== null && host.wakeAtMs <= dueMs)) return;
  host.wakeAtMs = dueMs;
  const id = ++host.wakeId;
  host.around.later(() => {
    if (id !== host.wakeId || host.stopped) return;
    host.wakeAtMs = null;
    guarded(host, () => pump(host));
  }, delayMs);
}

function receive(host: HostState, message: ToWorker): void {
  if (message.type === 'stop') {
    host.stopped = true;
    host.jobs.forget();
    return;
  }
  if (message.type === 'wantYear') {
    host.jobs.year(message.order, message.requestId);
    return;
  }
  if (message.type === 'load') {
    startLoading(host, message);
    return;
  }
  if (isQuestion(message)) {
    post(host, answerQuestion(message, host.around.post));
    return;
  }
  if (isBenchQuestion(message)) {
    post(host, answerBench(message));
    return;
  }
  if (isWish(message)) {
    takeWish(host, message);
    return;
  }
  if (message.type === 'wantReach') {
    wantReach(host, message.wanted);
    return;
  }
  if (message.type === 'probe' || message.type === 'wantPhotometers') {
    takeInstrument(host, message);
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

/** What the picture wants beside its frames; answered at once, and again whenever it changes. */
type Wish = Extract<ToWorker, { type: 'wantSightMap' | 'wantWarmth' | 'wantSection' }>;

function isWish(message: ToWorker): message is Wish {
  return message.type === 'wantSightMap' || message.type === 'wantWarmth' || message.type === 'wantSection';
}

function takeWish(host: HostState, wish: Wish): void {
  const session = host.doing.kind === 'loading' ? null : host.session;
  if (wish.type === 'wantSightMap') {
    host.wantsSight = wish.wanted;
    host.sightKey = '';
    if (session) postSight(host, session);
  } else if (wish.type === 'wantWarmth') {
    host.wantsWarmth = wish.wanted;
    host.warmthAtMs = Number.NEGATIVE_INFINITY;
    if (session) postWarmth(host, session);
  } else {
    host.sectionDeg = wish.bearingDeg;
    host.sectionKey = '';
    if (session) postSection(host, session);
  }
}

type Direct = Exclude<
  ToWorker,
  | Wish
  | ExerciseQuestion
  | BenchQuestion
  | { type: 'act' | 'seek' | 'load' | 'stop' | 'wantReach' | 'probe' | 'wantPhotometers' | 'wantYear' }
>;

function handle(host: HostState, session: Session, message: Direct): void {
  switch (message.type) {
    case 'run':
      run(host, message.speed, message.untilTick);
      wake(host);
      return;
    case 'pause':
      stand(host, session);
      return;
    case 'step':
      stepBy(host, session, message.ticks);
      return;
    case 'nextEvent':
      toEvent(host, session, message.direction);
      wake(host);
      return;
    case 'restoreBranch':
      restore(host, session, message.index);
      return;
    case 'wantDay':
      host.jobs.day(session, message.requestId);
      return;
    case 'wantSunPaths':
      host.jobs.sun(session, message.requestId);
      return;
    case 'explain': {
      const { requestId, output, tick } = message;
      post(host, { type: 'explained', requestId, explanation: explainAt(session, output, tick) });
      return;
    }
    case 'askSignal':
      askSignal(host.questions, session, message.requestId, message.fromTick, message.toTick);
      wake(host);
      return;
    case 'askSights':
      askSights(host.questions, session, message.requestId, message.tick);
      wake(host);
      return;
  }
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
  if (doing.kind === 'running') pumpRunning(host, session, doing.pace, doing.untilTick);
  else if (doing.kind === 'searching') pumpSearching(host, session, doing.fromTick);
  else if (doing.kind === 'catchingUp') pumpCatchingUp(host, session, doing.shown);
  if (host.questions.length > 0 && workQuestions(host.questions, host.around.clock, host.around.post)) wake(host);
}

function pumpRunning(host: HostState, session: Session, pace: Pace, untilTick: Tick): void {
  const { clock } = host.around;
  const worked = runSlice(pace, clock, () => {
    if (shownTick(session) < untilTick || session.sim.state.tick === 0) advance(session, 1);
    return shownTick(session) < untilTick;
  });
  if (shownTick(session) >= untilTick) {
    stand(host, session);
    return;
  }
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

function startLoading(host: HostState, message: Extract<ToWorker, { type: 'load' }>): void {
  host.session = null;
  host.jobs.forget();
  host.outbox = createOutbox(host.around.post);
  host.sightKey = '';
  host.sectionKey = '';
  dropReach(host);
  host.instruments = createInstruments();
  host.acts = [];
  host.seekTo = null;
  host.questions = [];
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
