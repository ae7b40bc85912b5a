/**
 * How far the detector sees in its own room, direction by direction, found by trying: somebody walks across, walks in,
 * or reaches while seated, with the controller's own rules for a trigger. One step works one try, so that whoever has
 * other things to do can stop after any of them.
 *
 * Left out: nobody walks round furniture (walkers pass through it, and are hidden by it), and there is nobody else.
 */
import { canonicalJson, fnv64 } from '../../engine/digest.ts';
import type { PointM } from '../../engine/types.ts';
import { contours, type RaySamples, SEEN_SHARE } from './contour.ts';
import { type Lab, placeAt } from './lab.ts';
import { crossingTriggers, FURTHEST_M, gestureHolds, shift, towardM } from './measures.ts';
import { type FurnishedRoom, labInRoom, limitM } from './roomLab.ts';
import type { ReachKind, ReachOutline, ReachOutlines, ReachRay } from './types.ts';

/** Directions all round. Assumed: three to a sector of the mask, so that its edges fall between directions; more only
 *  take longer. */
export const DIRECTIONS = 36;
/** Distance from one tried place to the next along a direction, m. Assumed: half of what ranges are stated in. */
export const STEP_M = 0.5;
/** Tries at a place: when the first all agree no more are made. Assumed: a place seen in 9 of 10 tries is taken for
 *  always in half of all cases, one seen in half of them once in thirty. */
const FIRST_TRIES = 6;
const MOST_TRIES = 10;
/** Share for "nearly always". Source: the definition of the stated ranges. */
const NEARLY_SHARE = 0.9;
/** A place this near to the wall is the wall's own, m. Assumed: a fifth of a step. */
const AT_WALL_M = 0.1;
/** Pace of the walkers, m/s. Source: the pace that ranges are stated for. */
export const REACH_SPEED_MPS = 1;

/** Everything that an outline depends on, as text. Reflectances and lamps are not in it: heat does not see them. */
export function reachKey({ model, room, setup, settings }: FurnishedRoom): string {
  const { widthM, depthM, heightM, doors, radiantTemperatureC } = room;
  const furniture = setup.furniture.map(({ reflectance: _light, ...shape }) => shape);
  const warm = setup.warmThings.filter(({ kind }) => kind === 'radiator');
  const { airTemperatureC, radiantTemperatureC: radiantC } = setup;
  return fnv64(
    canonicalJson([
      [model, setup.mount, settings.maskedSectors, settings.reducedSensitivity],
      [widthM, depthM, heightM, doors, radiantTemperatureC, furniture, setup.doors, warm],
      [airTemperatureC, radiantC],
    ]),
  );
}

export interface ReachJob {
  readonly key: string;
  /** Places done and to be done. */
  done: number;
  readonly total: number;
  /** Set when all is done. */
  result: ReachOutlines | null;
  /** Works one try. */
  step(): void;
}

/** One direction being tried for one kind. */
interface Row {
  kind: ReachKind;
  index: number;
  bearingDeg: number;
  /** Width of the direction's slice, deg. */
  sliceDeg: number;
  limitM: number;
  radiusM: number[];
  /** Hits and tries by place; walks toward have one place and keep their distances. */
  hits: number[];
  tries: number[];
  distancesM: number[];
}

function radii(limit: number, stepM: number): number[] {
  const places: number[] = [];
  for (let k = 1; k * stepM <= limit + 1e-9; k++) places.push(k * stepM);
  if (limit - (places.at(-1) ?? 0) > AT_WALL_M) places.push(limit);
  return places;
}

function rowsOf(lab: Lab, wish: Required<ReachWish>): Row[] {
  const { kinds, directions, furthestM, stepM } = wish;
  return kinds.flatMap((kind) =>
    Array.from({ length: directions }, (_, index): Row => {
      // Middles between the edges of the mask's sectors, which turn with the detector.
      const bearingDeg = lab.setup.mount.turnDeg + ((index + 0.5) * 360) / directions;
      const limit = limitM(lab, bearingDeg, furthestM);
      const radiusM = kind === 'toward' ? [limit] : radii(limit, stepM);
      const zeros = () => new Array<number>(radiusM.length).fill(0);
      const sliceDeg = 360 / directions;
      return {
        kind,
        index,
        bearingDeg,
        sliceDeg,
        limitM: limit,
        radiusM,
        hits: zeros(),
        tries: zeros(),
        distancesM: [],
      };
    }),
  );
}

/** Works one try at place `k`; true when the place needs no more. */
function tryPlace(lab: Lab, row: Row, k: number): boolean {
  const attempt = row.tries[k]!;
  const seed = attempt + MOST_TRIES * (row.index + DIRECTIONS * k);
  // Anywhere within the direction's own slice: the next one begins half way between them.
  const bearing = row.bearingDeg + (shift(seed + 1) - 0.5) * row.sliceDeg;
  // A slice is wider than its middle: near a wall the place is moved in with the wall.
  const radius = Math.min(row.radiusM[k]!, limitM(lab, bearing, row.radiusM[k]!));
  if (row.kind === 'toward') row.distancesM.push(towardM(lab, bearing, REACH_SPEED_MPS, 'switchOn', seed));
  else {
    const seen =
      row.kind === 'across'
        ? crossingTriggers(lab, radius, bearing, REACH_SPEED_MPS, seed)
        : gestureHolds(lab, radius, bearing, 360 * shift(3 * seed + 1), 'reach', seed);
    if (seen) row.hits[k]!++;
  }
  row.tries[k] = attempt + 1;
  if (attempt + 1 >= MOST_TRIES) return true;
  const agreed = row.hits[k] === 0 || row.hits[k] === attempt + 1;
  return row.kind !== 'toward' && attempt + 1 >= FIRST_TRIES && agreed;
}

/** Outermost place where the share is at least `needed`, straight between the places tried; null: none. */
function outermostM(samples: RaySamples, needed: number): number | null {
  const { share, radiusM } = samples;
  for (let k = share.length - 1; k >= 0; k--) {
    if (share[k]! < needed) continue;
    const beyond = share[k + 1];
    if (beyond === undefined) return radiusM[k]!;
    return radiusM[k]! + ((radiusM[k + 1]! - radiusM[k]!) * (share[k]! - needed)) / (share[k]! - beyond);
  }
  return null;
}

/** Stretches of places not seen in half of all tries, nearer than the outermost one that is. */
function gapsM({ share, radiusM }: RaySamples): [number, number][] {
  const gaps: [number, number][] = [];
  let fromM = 0;
  let open = false;
  share.forEach((s, k) => {
    const seen = s >= SEEN_SHARE;
    if (seen && open) gaps.push([fromM, radiusM[k]!]);
    if (!seen && !open) fromM = k === 0 ? 0 : radiusM[k - 1]!;
    open = !seen;
  });
  return gaps;
}

function samplesOf(row: Row): RaySamples {
  const { bearingDeg, radiusM, hits, tries } = row;
  return { bearingDeg, limitM: row.limitM, radiusM, share: hits.map((h, k) => h / tries[k]!) };
}

/** Distance at which at least this share of the walks in had been seen, m; null: they were not. */
function reachedBy(distancesM: readonly number[], needed: number): number | null {
  const falling = [...distancesM].sort((a, b) => b - a);
  const at = falling[Math.ceil(falling.length * needed - 1e-9) - 1] ?? 0;
  return at > 0 ? at : null;
}

function rayOf(row: Row): ReachRay {
  const { bearingDeg, limitM: limit } = row;
  const wrapped = ((bearingDeg % 360) + 360) % 360;
  if (row.kind === 'toward') {
    const [halfM, nineTenthsM] = [reachedBy(row.distancesM, SEEN_SHARE), reachedBy(row.distancesM, NEARLY_SHARE)];
    return { bearingDeg: wrapped, limitM: limit, halfM, nineTenthsM, gapsM: [], triedM: [], share: [] };
  }
  const samples = samplesOf(row);
  return {
    bearingDeg: wrapped,
    limitM: limit,
    halfM: outermostM(samples, SEEN_SHARE),
    nineTenthsM: outermostM(samples, NEARLY_SHARE),
    gapsM: gapsM(samples),
    triedM: samples.radiusM,
    share: samples.share,
  };
}

/** Walks in are seen from one distance on in each direction: a line from direction to direction, open where there is none. */
function towardLines(rays: readonly ReachRay[]): [number, number][][] {
  const first = rays.findIndex((ray) => ray.halfM === null);
  const turned = [...rays.slice(first + 1), ...rays.slice(0, first + 1)];
  const lines: [number, number][][] = [[]];
  for (const { bearingDeg, halfM } of turned) {
    if (halfM === null) lines.push([]);
    else lines.at(-1)!.push([bearingDeg, halfM]);
  }
  const [whole] = lines;
  if (first < 0 && whole![0]) whole!.push(whole![0]);
  return lines.filter((line) => line.length > 1);
}

function outlineOf(lab: Lab, kind: ReachKind, rows: readonly Row[]): ReachOutline {
  const rays = rows.map(rayOf);
  const lines = kind === 'toward' ? towardLines(rays) : contours(rows.map(samplesOf));
  const place = ([bearing, radius]: readonly [number, number]): PointM => {
    const [x, y] = placeAt(lab, radius, bearing);
    return [Math.round(x * 1000) / 1000, Math.round(y * 1000) / 1000];
  };
  return { kind, rays, linesM: lines.map((line) => line.flatMap(place)) };
}

export interface ReachWish {
  kinds: readonly ReachKind[];
  /** Places further from the detector are not tried, m. */
  furthestM?: number;
  directions?: number;
  stepM?: number;
}

export function createReachJob(furnished: FurnishedRoom, wish: ReachWish): ReachJob {
  const lab = labInRoom(furnished);
  const rows = rowsOf(lab, { furthestM: FURTHEST_M, directions: DIRECTIONS, stepM: STEP_M, ...wish });
  const places = rows.flatMap((row) => row.radiusM.map((_, k) => ({ row, k })));
  const job: ReachJob = {
    key: reachKey(furnished),
    done: 0,
    total: places.length,
    result: null,
    step: () => {
      const place = places[job.done];
      if (place && tryPlace(lab, place.row, place.k)) job.done++;
      if (job.done < job.total || job.result) return;
      job.result = {
        key: job.key,
        mount: furnished.setup.mount,
        roomTemperatureC: furnished.setup.airTemperatureC,
        speedMps: REACH_SPEED_MPS,
        reduced: lab.reduced,
        outlines: wish.kinds.map((kind) =>
          outlineOf(
            lab,
            kind,
            rows.filter((row) => row.kind === kind),
          ),
        ),
      };
    },
  };
  return job;
}

/** The whole at once, for whoever has nothing else to do. */
export function reachOutlines(furnished: FurnishedRoom, wish: ReachWish): ReachOutlines {
  const job = createReachJob(furnished, wish);
  while (!job.result) job.step();
  return job.result;
}
