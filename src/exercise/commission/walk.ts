/** A walk-test handed in: points that really were walked, and the learner's outline against the computed one. */
import type { Simulation, StepResult } from '../../engine/simulation.ts';
import type { Activity, PointM, Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { movementOf } from '../reach/movement.ts';
import { reachKey, reachOutlines } from '../reach/outlines.ts';
import { inOrder, type OutlineError, outlineError, polarOf, sectorOf } from '../reach/polygon.ts';
import type { FurnishedRoom } from '../reach/roomLab.ts';
import type { ReachKind, ReachRay } from '../reach/types.ts';
import { covered, DIRECTIONS } from './edges.ts';
import type { WalkAnswer, WalkedPoint, WalkedWay } from './types.ts';

/** A pulse this long ago still belongs to the point, ticks. Source: the notebook's own rule, 2 s. */
const SEEN_WITHIN_TICKS = 20;
/** The notebook keeps hundredths of a metre. */
const SAME_PLACE_M = 0.02;
/** Two points of one movement nearer than this are one, m. Assumed: half of the step of the outlines. */
const APART_M = 0.25;

type Act = Activity | 'walk' | 'outside';

/** Where people were at the ticks of a notebook, and when the room answered. */
export interface Walked {
  places: Map<Tick, { id: string; atM: PointM; act: Act }[]>;
  seenTicks: Tick[];
}

/** Takes down, while the learner's run is played again, what its notebook speaks of. */
export function walkWatcher(answer: WalkAnswer | undefined): {
  walked: Walked;
  note: (step: StepResult, sim: Simulation) => void;
} {
  const wanted = new Set((answer?.points ?? []).map(({ tick }) => tick));
  const walked: Walked = { places: new Map(), seenTicks: [] };
  const note = (step: StepResult, { state }: Simulation): void => {
    if (wanted.size === 0) return;
    for (const event of step.events) if (event.kind === 'seen') walked.seenTicks.push(event.tick);
    if (!wanted.has(step.tick)) return;
    const there = state.people.filter(({ present }) => present);
    walked.places.set(
      step.tick,
      there.map(({ spec, atM, act }) => ({ id: spec.id, atM: [atM[0], atM[1]], act })),
    );
  };
  return { walked, note };
}

function farM(a: PointM, b: PointM): number {
  return polarOf(a, b).radiusM;
}

/** Whether somebody who does this may move that way; which way a walk leads is the notebook's word. */
function fits(act: Act, way: WalkedWay): boolean {
  const movement = movementOf(act);
  return movement === 'walking' ? way !== 'seated' && way !== 'standing' : way === movement;
}

function isTrue({ places, seenTicks }: Walked, point: WalkedPoint): boolean {
  const there = places.get(point.tick)?.find(({ id }) => id === point.personId);
  if (!there || farM(there.atM, point.atM) > SAME_PLACE_M || !fits(there.act, point.way)) return false;
  const seen = seenTicks.some((tick) => tick > point.tick - SEEN_WITHIN_TICKS && tick <= point.tick);
  return seen === point.seen;
}

/** Points of the notebook that the run bears out. */
export function truePoints(answer: WalkAnswer, walked: Walked): WalkedPoint[] {
  return answer.points.filter((point) => isTrue(walked, point));
}

/** Of several points at one place and movement the first: noting a place again is no further work. */
export function placesOf(points: readonly WalkedPoint[]): WalkedPoint[] {
  const kept: WalkedPoint[] = [];
  for (const point of points) {
    if (!kept.some((other) => other.way === point.way && farM(other.atM, point.atM) < APART_M)) kept.push(point);
  }
  return kept;
}

export function sectorsOf(points: readonly WalkedPoint[], mount: FurnishedRoom['setup']['mount']): number {
  return new Set(points.map(({ atM }) => sectorOf(mount, atM))).size;
}

const known = new Map<string, ReachRay[]>();
/** Outlines kept. Assumed: two movements of a few benches. */
const KEPT = 8;

/** Where half of all tries are seen, direction by direction. */
export function trueRays(room: FurnishedRoom, kind: ReachKind): ReachRay[] {
  const key = `${reachKey(room)} ${kind}`;
  const kept = known.get(key);
  if (kept) return kept;
  const { rays } = reachOutlines(room, { kinds: [kind], directions: DIRECTIONS }).outlines[0]!;
  known.set(key, rays);
  if (known.size > KEPT) known.delete(known.keys().next().value!);
  return rays;
}

/** The outline through edge points against the truth; null: too few points for an outline. */
export function edgeError(edge: readonly WalkedPoint[], room: FurnishedRoom, truth: ReachKind): OutlineError | null {
  const { atM } = room.setup.mount;
  const places = edge.map((point) => point.atM);
  const rays = trueRays(room, truth);
  const error = outlineError(inOrder(places, atM), atM, covered(rays, edge, atM));
  return error && { ...error, all: rays.length };
}

/** Instant of a point, s of the room. */
export function pointS({ tick }: WalkedPoint): number {
  return tick / TICKS_PER_S;
}
