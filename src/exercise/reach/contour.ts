/**
 * The line around the places that are seen: marching squares on rays from the detector. Corners of a square are two
 * tries on one ray and two on the next; the line crosses a side where the share of seen tries passes one half.
 */

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

/** Pieces of line by the sides that they join; a side is named by its own number. */
interface Pieces {
  point: Map<number, PolarPoint>;
  next: Map<number, number[]>;
}

function link(pieces: Pieces, a: number, b: number): void {
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    const known = pieces.next.get(from);
    if (known) known.push(to);
    else pieces.next.set(from, [to]);
  }
}

/** Follows the pieces from a side until they end or come round. */
function follow(pieces: Pieces, start: number): PolarPoint[] {
  const line: PolarPoint[] = [pieces.point.get(start)!];
  let at = start;
  for (;;) {
    const to = pieces.next.get(at)?.pop();
    if (to === undefined) return line;
    const back = pieces.next.get(to)!;
    back.splice(back.indexOf(at), 1);
    line.push(pieces.point.get(to)!);
    at = to;
  }
}

/** Lines around what is seen, in polar places; closed ones end where they begin. Rays in order all the way round. */
export function contours(rays: readonly RaySamples[]): PolarPoint[][] {
  const pieces: Pieces = { point: new Map(), next: new Map() };
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
      for (const [a, b] of joins(corners)) {
        for (const s of [a, b]) pieces.point.set(sides[s]!, crossing(corners[SIDES[s]![0]]!, corners[SIDES[s]![1]]!));
        link(pieces, sides[a]!, sides[b]!);
      }
    }
  }
  const lines: PolarPoint[][] = [];
  // Open lines first, from their ends; then the rings.
  for (const wantedEnds of [1, 2]) {
    for (const [side, to] of pieces.next) if (to.length === wantedEnds) lines.push(follow(pieces, side));
  }
  return lines;
}
