/**
 * Which of the points that a learner marked as an edge show one. An edge lies between a place that was answered and one
 * further out that was not, or at the wall: a point alone says that somebody was seen there, not that it ends there.
 */
import { cos, sin } from '../../engine/math.ts';
import type { DetectorMount, PointM, RoomSpec } from '../../engine/types.ts';
import { degToRad, shortestTurnDeg, wrapDeg } from '../../engine/units.ts';
import { polarOf } from '../reach/polygon.ts';
import type { ReachKind } from '../reach/types.ts';
import type { WalkedPoint } from './types.ts';

/** So far beyond an edge the place lies that was not answered, or the wall, m. Assumed: two steps of the notebook;
 *  larger, and luck finds such pairs; smaller, and a second point must be aimed at. Stands in the words of the job. */
export const BEYOND_M = 1;
/** Two places this far apart as seen from the detector lie in one direction, deg. Assumed: less than the 30 from one
 *  direction of the notebook to the next; 0.7 m at 2 m, for whoever presses while the Stand-in walks. */
const SAME_DIRECTION_DEG = 20;

/** Between two points further apart as seen from the detector the outline is open, deg. Assumed: more than two steps of
 *  the notebook, less than three; a straight line over three cuts off a third of a circle's reach. */
const OPEN_OVER_DEG = 75;

/** Directions of an outline, and how many of them it must cover. Assumed: one to a sector of the mask; all but one, since
 *  nobody stands quite where they wanted. With fewer, one in 1,000 who note places at random had a passing outline. */
export const DIRECTIONS = 12;
export const NEEDED_DIRECTIONS = 11;

/** A marked point that shows no edge: the run does not bear it out, somebody moved there otherwise, the room did not answer, or neither a place further out that it did not answer nor the wall ends it. */
export interface UncountedPoint {
  id: number;
  why: 'notBorneOut' | 'otherMovement' | 'notAnswered' | 'nothingBeyond';
}

/** Of an outline: how many points were marked, which of them do not count, and how many directions the rest covers. */
export interface JudgedEdge {
  marked: number;
  uncounted: UncountedPoint[];
  directions: number;
  needed: number;
}

export interface Edge {
  /** Points that show an edge. */
  counted: WalkedPoint[];
  uncounted: UncountedPoint[];
}

/**
 * How far a place lies from the wall that ends the floor in its direction, m: at right angles, as one measures it. Along
 * the direction it may be more, but whoever walks across there is stopped by that wall too.
 */
function fromWallM(
  { widthM, depthM }: Pick<RoomSpec, 'widthM' | 'depthM'>,
  [x, y]: PointM,
  bearingDeg: number,
): number {
  const rad = degToRad(bearingDeg);
  const walls = [
    { farM: sin(rad) > 0 ? widthM - x : x, step: Math.abs(sin(rad)) },
    { farM: cos(rad) > 0 ? depthM - y : y, step: Math.abs(cos(rad)) },
  ];
  const [side, end] = walls.map(({ farM, step }) => (step > 0 ? farM / step : Number.POSITIVE_INFINITY));
  return side! < end! ? walls[0]!.farM : walls[1]!.farM;
}

/** The least angle between two neighbouring points that have a direction between them, deg; 360: there are none. */
function gapDeg(bearingsDeg: readonly number[], ofDeg: number): number {
  const after = bearingsDeg.map((deg) => wrapDeg(deg - ofDeg));
  const before = bearingsDeg.map((deg) => wrapDeg(ofDeg - deg));
  return bearingsDeg.length === 0 ? 360 : Math.min(...after) + Math.min(...before);
}

/** Directions of the twelve that an outline through these points covers. */
export function directionsOf(edge: readonly WalkedPoint[], { atM, turnDeg }: DetectorMount): number {
  const middles = Array.from({ length: DIRECTIONS }, (_, i) => ({
    bearingDeg: turnDeg + ((i + 0.5) * 360) / DIRECTIONS,
  }));
  return covered(middles, edge, atM).length;
}

/** Of some directions those that an outline through these points covers: with a point on both sides that are not far. */
export function covered<T extends { bearingDeg: number }>(
  directions: readonly T[],
  edge: readonly WalkedPoint[],
  centreM: PointM,
): T[] {
  const bearings = edge.map(({ atM }) => polarOf(centreM, atM).bearingDeg);
  return directions.filter(({ bearingDeg }) => gapDeg(bearings, bearingDeg) <= OPEN_OVER_DEG);
}

/** `marked`: ids on the learner's edge of a movement. `points`: those that may count at all. */
export function edgeOf(
  points: readonly WalkedPoint[],
  marked: readonly number[],
  kind: ReachKind,
  centreM: PointM,
  room: Pick<RoomSpec, 'widthM' | 'depthM'>,
): Edge {
  const beyond = points.filter(({ way, seen }) => way === kind && !seen).map((point) => polarOf(centreM, point.atM));
  const ends = (point: WalkedPoint): boolean => {
    const { bearingDeg, radiusM } = polarOf(centreM, point.atM);
    if (fromWallM(room, point.atM, bearingDeg) <= BEYOND_M) return true;
    return beyond.some(
      (other) =>
        other.radiusM > radiusM &&
        other.radiusM <= radiusM + BEYOND_M &&
        Math.abs(shortestTurnDeg(other.bearingDeg, bearingDeg)) <= SAME_DIRECTION_DEG,
    );
  };
  const edge: Edge = { counted: [], uncounted: [] };
  for (const id of new Set(marked)) {
    const point = points.find((one) => one.id === id);
    if (!point) edge.uncounted.push({ id, why: 'notBorneOut' });
    else if (point.way !== kind) edge.uncounted.push({ id, why: 'otherMovement' });
    else if (!point.seen) edge.uncounted.push({ id, why: 'notAnswered' });
    else if (!ends(point)) edge.uncounted.push({ id, why: 'nothingBeyond' });
    else edge.counted.push(point);
  }
  return edge;
}
