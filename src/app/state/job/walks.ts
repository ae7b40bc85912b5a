/** Two walks being compared: a line and a pace chosen, the walk's record shown, and what is noted of it. */
import type { Frame } from '../../../engine/frame.ts';
import type { PointM, Scenario, Tick } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import type { WalkChoice, WalkedLine, WalkNoted, WalkReason } from '../../../exercise/observe/types.ts';
import { isWalks, WALK_FROM_S, WALKER, walkOffers, walkScenario } from '../../../exercise/observe/walks.ts';
import { live } from '../live.ts';
import { loadStory } from '../session.ts';
import { getApp, setApp } from '../store.ts';
import { send } from '../wire.ts';
import { getJob, keep, stageIs } from './job.ts';
import { getObservation, setObservation, whenShown } from './observe.ts';

export type WalkPlace = 0 | 1;

function change(place: WalkPlace, walk: WalkedLine): void {
  setObservation((s) => ({ walks: s.walks.map((old, i) => (i === place ? walk : old)) }));
  keep();
}

/** Another line or pace is another walk: what was noted of the one before goes. */
export function chooseWalk(place: WalkPlace, choice: Partial<WalkChoice>): void {
  const { walks, shownWalk } = getObservation();
  if (!stageIs('working')) return;
  const { line, paceMps } = walks[place]!;
  if (shownWalk === place) setObservation({ shownWalk: null });
  change(place, { line, paceMps, ...choice });
}

/** Shows the record of a walk from an instant on: the room as it was at first, and the walk in it. */
export function showWalk(place: WalkPlace, tick: Tick = secondsToTicks(WALK_FROM_S)): void {
  const { exercise, walks, shownWalk, making } = getObservation();
  const { seed } = getJob();
  const { job } = getApp();
  if (!exercise || !isWalks(exercise) || !job || making) return;
  if (shownWalk === place) {
    send({ type: 'pause' });
    send({ type: 'seek', tick });
    return;
  }
  setObservation({ shownWalk: null, making: true });
  loadStory(walkScenario(exercise, seed, walks[place]!), { atTick: job.untilTick, fresh: true });
  setApp({ screen: 'main', speed: 1, job });
  whenShown(exercise, seed, tick, () => setObservation({ shownWalk: place, making: false }));
}

/** The room of a walk, its record shown from now on. */
export function recordOf(place: WalkPlace): Scenario {
  const { exercise, walks } = getObservation();
  if (!exercise || !isWalks(exercise)) throw new Error('this job has no walks');
  setObservation({ shownWalk: place });
  return walkScenario(exercise, getJob().seed, walks[place]!);
}

/** Way that the walker has gone, m, and the largest signal, µV, at the instant of a frame. */
export function walkNow({ tick, people, signalUv }: Frame, fromM: PointM): WalkNoted {
  const atM = people.find(({ id }) => id === WALKER)?.atM ?? fromM;
  return {
    tick,
    wayM: Math.hypot(atM[0] - fromM[0], atM[1] - fromM[1]),
    signalUv: signalUv.reduce((most, uv) => Math.max(most, Math.abs(uv)), 0),
  };
}

/** Where all lines of the bench begin. */
export function beginOf(): PointM {
  const { exercise } = getObservation();
  return exercise && isWalks(exercise) ? walkOffers(exercise, getJob().seed)[0]!.fromM : [0, 0];
}

function noteNow(then: (walk: WalkedLine, now: WalkNoted) => WalkedLine): void {
  const { walks, shownWalk } = getObservation();
  const { frame } = live;
  const { job } = getApp();
  if (shownWalk === null || !frame || !stageIs('working') || frame.tick > (job?.untilTick ?? 0)) return;
  change(shownWalk, then(walks[shownWalk]!, walkNow(frame, beginOf())));
}

export function noteSeen(): void {
  noteNow(({ unseen: _unseen, ...walk }, seen) => ({ ...walk, seen }));
}

export function noteUnseen(): void {
  noteNow(({ seen: _seen, ...walk }) => ({ ...walk, unseen: true }));
}

export function noteSignal(): void {
  noteNow((walk, signal) => ({ ...walk, signal }));
}

export function sayEarlier(earlier: WalkPlace): void {
  if (!stageIs('working')) return;
  setObservation({ earlier });
  keep();
}

export function sayWhy(why: WalkReason | null): void {
  if (!stageIs('working')) return;
  setObservation({ why });
  keep();
}
