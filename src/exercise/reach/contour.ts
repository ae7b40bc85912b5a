/**
 * The line around the places that are seen: marching squares on rays from the detector. Corners of a square are two
 * tries on one ray and two on the next; the line crosses a side where the share of seen tries passes one half.
 */

import { addPiece, createPieces, joinPieces } from '../../engine/pieces.ts';

/** Tries on one ray, nearest first. Beyond the last one is the wall. */
export interface RaySamples {
  bearingDeg: number;
  limitM: number;
  radiusM: number[];
  /** Share of tries that were seen, one for each radius. */
  share: number[];
}

/** Share at which a place counts as seen. Source: the outlines are stated as "seen in half of all tries". */
export const SEEN_SHARE = 0.5;

/** A point of the line: bearing, deg, and distance, m. */
export type PolarPoint = [bearingDeg: number, radiusM: number];

interface Corner {
  bearingDeg: number;
  radiusM: number;
  share: number;
  /** No place to stand: the line runs along the wall instead of half way to it. */
  wall: boolean;
}

function cornerOf(ray: RaySamples, bearingDeg: number, k: number): Corner {
  const wall = k >= ray.share.length;
  return { bearingDeg, radiusM: wall ? ray.limitM : ray.radiusM[k]!, share: wall ? 0 : ray.share[k]!, wall };
}

const isSeen = (c: Corner): boolean => c.share >= SEEN_SHARE;

/** Where the line crosses the side between two corners, one seen and one not. */
function crossing(a: Corner, b: Corner): PolarPoint {
  const [seen, not] = isSeen(a) ? [a, b] : [b, a];
  const share = not.wall ? 1 : (seen.share - SEEN_SHARE) / (seen.share - not.share);
  return [
    seen.bearingDeg + (not.bearingDeg - seen.bearingDeg) * share,
    seen.radiusM + (not.radiusM - seen.radiusM) * share,
  ];
}

/** Sides of a square, as pairs of its corners in order round it: near, next ray, far, this ray. */
const SIDES = [
  [0, 1],
  [1, 2],
  [2, 3],
  [3, 0],
] as const;

/** Pairs of sides that the line joins inside one square. Where opposite corners agree the middle decides. */
function joins(corners: readonly Corner[]): [number, number][] {
  const crossed = [0, 1, 2, 3].filter((s) => isSeen(corners[SIDES[s]![0]]!) !== isSeen(corners[SIDES[s]![1]]!));
  if (crossed.length === 2) return [[crossed[0]!, crossed[1]!]];
  if (crossed.length < 4) return [];
  const middle = corners.reduce((sum, c) => sum + c.share, 0) / 4 >= SEEN_SHARE;
  return middle === isSeen(corners[0]!)
    ? [
        [0, 1],
        [2, 3],
      ]
    : [
        [3, 0],
        [1, 2],
      ];
}

/** Lines around what is seen, in polar places; closed ones end where they begin. Rays in order all the way round. */
export function contours(rays: readonly RaySamples[]): PolarPoint[][] {
  const pieces = createPieces<PolarPoint>();
  const rows = Math.max(...rays.map((ray) => ray.share.length)) + 1;
  const number = (ray: number, k: number, radial: boolean) => ((ray % rays.length) * rows + k) * 2 + (radial ? 1 : 0);
  for (let i = 0; i < rays.length; i++) {
    const [here, next] = [rays[i]!, rays[(i + 1) % rays.length]!];
    // The last square reaches over the full turn.
    const beyondDeg = i + 1 === rays.length ? next.bearingDeg + 360 : next.bearingDeg;
    for (let k = 0; k + 1 < rows; k++) {
      const corners = [
        cornerOf(here, here.bearingDeg, k),
        cornerOf(next, beyondDeg, k),
        cornerOf(next, beyondDeg, k + 1),
        cornerOf(here, here.bearingDeg, k + 1),
      ];
      const sides = [number(i, k, false), number(i + 1, k, true), number(i, k + 1, false), number(i, k, true)];
      const cross = (s: number) => crossing(corners[SIDES[s]![0]]!, corners[SIDES[s]![1]]!);
      for (const [a, b] of joins(corners)) addPiece(pieces, sides[a]!, cross(a), sides[b]!, cross(b));
    }
  }
  return joinPieces(pieces);
}
