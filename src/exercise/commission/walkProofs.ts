/** Walk-tests as somebody would do them, for the proofs: the acts, and the notebook that the room fills. */
import type { PlanStep, PointM, Scenario, TimedInput } from '../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S, wrapDeg } from '../../engine/units.ts';
import type { Dice } from '../dice.ts';
import { benchScenario } from '../edits.ts';
import { placeOf, polarOf } from '../reach/polygon.ts';
import type { ReachKind, ReachRay } from '../reach/types.ts';
import { play } from '../replay.ts';
import { DIRECTIONS, directionsOf, edgeOf, NEEDED_DIRECTIONS } from './edges.ts';
import { foundRoom } from './ratio.ts';
import type { CommissionExercise, Mistake, WalkAnswer, WalkedPoint } from './types.ts';
import { trueRays } from './walk.ts';

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

/** The Stand-in of walk-tests in proofs. Source: our own exercises. */
const WALKER = 'A';
/** Where the expert tries in each direction, from the true edge, m. Assumed: a step of the notebook apart on both sides
 *  of it, as somebody notes who comes from within; further in every try is seen. */
const TRIED_M = [-1.25, -0.75, -0.25, 0.25, 0.75, 1.25];
/** Nearer to the detector nothing is tried, m. Source: the notebook's own least distance. */
const NEAREST_M = 0.5;
/** Places that somebody walking at random tries in a direction. Assumed: two, so that one may lie beyond the other. */
const RANDOM_PLACES = 2;

const KINDS = ['across', 'seated'] as const;

/** Walks for both outlines, `radiiM` in each direction of the truth. Null: the job asks for none. */
function walkAlong(
  exercise: CommissionExercise,
  seed: number,
  radiiM: (ray: ReachRay) => readonly number[],
): WalkDone | null {
  const { criteria } = exercise.commission;
  if (!criteria.some(({ kind }) => kind === 'outline')) return null;
  const scenario = benchScenario(exercise, seed);
  const { setup, settings } = foundRoom(scenario);
  const room = { model: scenario.detectorModel, room: scenario.room, setup, settings };
  const targets = KINDS.flatMap((kind) =>
    trueRays(room, kind).flatMap((ray) =>
      radiiM(ray).map((radiusM) => ({ kind, bearingDeg: ray.bearingDeg, radiusM })),
    ),
  );
  return walkTargets(scenario, WALKER, targets);
}

/** Places on both sides of the true edge; beyond the wall one, which the room moves in. */
function aroundEdge({ halfM, limitM }: ReachRay): number[] {
  const radiiM = TRIED_M.map((m) => Math.max(NEAREST_M, (halfM ?? NEAREST_M) + m));
  return [...radiiM.filter((m) => m < limitM), ...(radiiM.some((m) => m >= limitM) ? [limitM] : [])];
}

/** A walk-test as the expert does it: from within outwards past the edge, and each direction's outermost is marked. */
export function walkOf(exercise: CommissionExercise, seed: number): WalkDone | null {
  const done = walkAlong(exercise, seed, aroundEdge);
  return done && { ...done, answer: { ...done.answer, edge: outermost(exercise, seed, done.answer) } };
}

/** Of the points that show an edge the outermost in each direction. */
function outermost(exercise: CommissionExercise, seed: number, { points, edge }: WalkAnswer): WalkAnswer['edge'] {
  const { room, mount } = benchScenario(exercise, seed);
  const idsOf = (kind: ReachKind): number[] => {
    const best = new Map<number, { id: number; radiusM: number }>();
    for (const { id, atM } of edgeOf(points, edge[kind], kind, mount.atM, room).counted) {
      const { bearingDeg, radiusM } = polarOf(mount.atM, atM);
      const direction = Math.floor(wrapDeg(bearingDeg - mount.turnDeg) / (360 / DIRECTIONS));
      if ((best.get(direction)?.radiusM ?? 0) < radiusM) best.set(direction, { id, radiusM });
    }
    return [...best.values()].map(({ id }) => id);
  };
  return { across: idsOf('across'), toward: [], seated: idsOf('seated') };
}

/** Anywhere in every direction, and all of it marked. */
export function randomWalk(exercise: CommissionExercise, seed: number, dice: Dice): WalkDone | null {
  return walkAlong(exercise, seed, () => Array.from({ length: RANDOM_PLACES }, () => 0.5 + dice(12) / 2));
}

/** How many points of each movement somebody has who tests one side of the detector only. */
const ONE_SIDE = 5;

export function wrongWalk(walk: WalkDone | null, how: Mistake['walk']): WalkDone | null {
  if (!walk || !how) return walk;
  const { points, edge } = walk.answer;
  const marked = ({ id }: WalkedPoint) => edge.across.includes(id) || edge.seated.includes(id);
  if (how === 'oneCircle') return { ...walk, answer: { points, edge: { ...edge, seated: edge.across } } };
  if (how === 'invented') {
    return { ...walk, answer: { points: points.map((point) => ({ ...point, tick: point.tick + 45 })), edge } };
  }
  if (how === 'noneBeyond') return { ...walk, answer: { points: points.filter(marked), edge } };
  const few = KINDS.flatMap((kind) => points.filter(({ id }) => edge[kind].slice(0, ONE_SIDE).includes(id)));
  return { ...walk, answer: { points: few, edge } };
}

/** Whether both outlines of a notebook cover enough, if the run bears all of it out; without, no walk-test passes. */
export function coversEnough(exercise: CommissionExercise, seed: number, answer: WalkAnswer): boolean {
  const { room, mount } = benchScenario(exercise, seed);
  return exercise.commission.criteria.every((criterion) => {
    if (criterion.kind !== 'outline' || criterion.must === undefined) return true;
    const { movement } = criterion;
    const { counted } = edgeOf(answer.points, answer.edge[movement], movement, mount.atM, room);
    return directionsOf(counted, mount) >= NEEDED_DIRECTIONS;
  });
}
