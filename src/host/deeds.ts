/** What a message makes the host do to its session. */
import type { Input, Tick } from '../engine/types.ts';
import { type HostState, post, show, statusOf } from './hostState.ts';
import { postCut, postFrame, postPreview, postRecording } from './outbox.ts';
import { startPace } from './pacing.ts';
import { rebuildsTables, refusal } from './refusals.ts';
import {
  act,
  actStandingStill,
  advance,
  knownSwitching,
  restoreBranch,
  type Session,
  seek,
  shownTick,
} from './session.ts';

/** Runs at a speed until told otherwise, or until a tick is shown. */
export function run(host: HostState, speed: number, untilTick: Tick = Number.POSITIVE_INFINITY): void {
  host.speedAsked = speed;
  host.doing = { kind: 'running', pace: startPace(speed, host.around.clock()), untilTick };
}

export function stand(host: HostState, session: Session): void {
  host.doing = { kind: 'standing' };
  show(host, session, false);
  postRecording(host.outbox, session);
}

export function stepBy(host: HostState, session: Session, ticks: number): void {
  host.doing = { kind: 'standing' };
  if (ticks > 0) advance(session, Math.trunc(ticks));
  else seek(session, Math.max(0, shownTick(session) + Math.trunc(ticks)));
  show(host, session, ticks < 0);
}

export function toEvent(host: HostState, session: Session, direction: 1 | -1): void {
  const known = knownSwitching(session, direction);
  if (known === null && direction === 1) {
    seek(session, session.line.headTick - 1);
    host.doing = { kind: 'searching', fromTick: session.sim.state.tick };
    return;
  }
  host.doing = { kind: 'standing' };
  seek(session, known ?? 0);
  show(host, session, true);
}

export function restore(host: HostState, session: Session, index: number): void {
  const cut = restoreBranch(session, index);
  if (cut === null) return;
  postCut(host.outbox, session, cut);
  host.doing = { kind: 'standing' };
  show(host, session, true);
  postRecording(host.outbox, session);
}

/** Acts and seeks that have gathered. */
export function flush(host: HostState, session: Session): void {
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

export function doActs(host: HostState, session: Session, acts: readonly Input[]): void {
  const fit: Input[] = [];
  for (const input of acts) {
    const sentence = refusal(session, fit, input);
    if (sentence === null) fit.push(input);
    else post(host, { type: 'refused', sentence });
  }
  if (fit.length === 0) return;
  const building = fit.filter(rebuildsTables);
  if (building.length > 0) {
    postFrame(host.outbox, session, { ...statusOf(host, session), updating: true });
    postPreview(host.outbox, session, building);
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

export function goTo(host: HostState, session: Session, shown: Tick): void {
  if (shown >= session.line.headTick) {
    host.doing = { kind: 'catchingUp', shown };
    return;
  }
  const { doing } = host;
  seek(session, shown);
  if (doing.kind !== 'running') host.doing = { kind: 'standing' };
  show(host, session, true);
}
