/** Walk-tests as somebody would do them, for the proofs: the acts, and the notebook that the room fills. */
import type { PlanStep, PointM, Scenario, TimedInput } from '../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S } from '../../engine/units.ts';
import { placeOf, polarOf } from '../reach/polygon.ts';
import type { ReachKind } from '../reach/types.ts';
import { play } from '../replay.ts';
import type { WalkAnswer, WalkedPoint } from './types.ts';

/** One place to be walked, from the detector. */
export interface Target {
  kind: 'across' | 'seated';
  bearingDeg: number;
  radiusM: number;
}

/** Begin, and time for one place, s. Assumed: enough to walk across or to sit down and reach. */
const FROM_S = 10;
const EACH_S = 9;
/** Half of a crossing and its pace. Source: the walk that the outline across is made of. */
const HALF_CROSSING_M = 1.5;
const PACE_MPS = 1;
/** Mean rest between reaches, s. Source: the notebook's own. */
const REACH_EVERY_S = 0.3;
/** Nobody stands nearer to a wall, m. Source: the room's own. */
const CLEAR_M = 0.25;

function inside({ room }: Scenario, [x, y]: PointM): PointM {
  const hold = (m: number, sizeM: number) => Math.min(sizeM - CLEAR_M, Math.max(CLEAR_M, m));
  return [hold(x, room.widthM), hold(y, room.depthM)];
}

function actsFor(scenario: Scenario, personId: string, target: Target, atS: number): Omit<TimedInput, 'serial'>[] {
  const { bearingDeg, radiusM, kind } = target;
  const at = placeOf(scenario.mount.atM, bearingDeg, radiusM);
  const side = (m: number) => inside(scenario, placeOf(at, bearingDeg + 90, m));
  const plan: PlanStep[] =
    kind === 'across'
      ? [{ act: 'walk', toM: side(HALF_CROSSING_M), speedMps: PACE_MPS }, { act: 'standStill' }]
      : [{ act: 'reach', headingDeg: (bearingDeg + 180) % 360, gestureEveryS: REACH_EVERY_S }];
  const tick = secondsToTicks(atS);
  const atM = kind === 'across' ? side(-HALF_CROSSING_M) : inside(scenario, at);
  return [
    { tick, input: { kind: 'placePerson', personId, atM } },
    { tick, input: { kind: 'setPlan', personId, plan } },
  ];
}

export interface WalkDone {
  inputs: TimedInput[];
  endS: number;
  answer: WalkAnswer;
}

const hundredth = (m: number): number => Math.round(m * 100) / 100;

/** Walks the targets one after the other and notes a point at each, where the Stand-in came nearest to it. */
export function walkTargets(scenario: Scenario, personId: string, targets: readonly Target[]): WalkDone {
  const inputs = targets
    .flatMap((target, i) => actsFor(scenario, personId, target, FROM_S + i * EACH_S))
    .map((timed, serial) => ({ ...timed, serial }));
  const endS = FROM_S + targets.length * EACH_S;
  const nearest: (WalkedPoint & { farM: number })[] = [];
  let lastSeen = Number.NEGATIVE_INFINITY;
  play(scenario, inputs, secondsToTicks(endS), (step, { state }) => {
    if (step.events.some(({ kind }) => kind === 'seen')) lastSeen = step.tick;
    const i = Math.floor((step.tick / TICKS_PER_S - FROM_S) / EACH_S);
    const target = targets[i];
    const person = state.people.find(({ spec }) => spec.id === personId);
    if (!target || !person || person.act !== (target.kind === 'across' ? 'walk' : 'reach')) return;
    const farM = polarOf(placeOf(scenario.mount.atM, target.bearingDeg, target.radiusM), person.atM).radiusM;
    // Of somebody seated the last look counts: a reach must have had its time.
    if (nearest[i] && (target.kind === 'across' ? nearest[i].farM <= farM : nearest[i].farM < farM)) return;
    const atM: PointM = [hundredth(person.atM[0]), hundredth(person.atM[1])];
    const seen = step.tick - lastSeen < 2 * TICKS_PER_S;
    nearest[i] = { id: i + 1, tick: step.tick, personId, atM, way: target.kind, seen, farM };
  });
  const points = nearest.filter(Boolean).map(({ farM: _farM, ...point }) => point);
  const idsOf = (kind: ReachKind) => points.filter(({ way }) => way === kind).map(({ id }) => id);
  return { inputs, endS, answer: { points, edge: { across: idsOf('across'), toward: [], seated: idsOf('seated') } } };
}
