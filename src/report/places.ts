/** Places for labels beside their points, so that they cover neither each other nor what must be read. Pure geometry, px. */
export interface Spot {
  x: number;
  y: number;
}

export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** Something that a label should not cover; the heavier, the less. */
export interface Obstacle {
  box: Box;
  weight: number;
}

/** A way to set a label: where its anchor comes to lie, and the boxes it then fills. */
export interface Candidate<T> {
  value: T;
  boxes: readonly Box[];
  /** Distance from the thing that it labels, px. */
  farPx: number;
}

/** What a px of distance costs against a px² of covering. Assumed: small, so that distance only decides between free places. */
const FAR_COST = 0.5;
/** Weight of leaving the drawing. Assumed: worse than covering anything inside. */
const OUTSIDE_WEIGHT = 20;

export function boxAround(x: number, y: number, halfWidth: number, halfHeight: number = halfWidth): Box {
  return { left: x - halfWidth, right: x + halfWidth, top: y - halfHeight, bottom: y + halfHeight };
}

/** Area that two boxes share, px². */
export function overlap(a: Box, b: Box): number {
  const w = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return w > 0 && h > 0 ? w * h : 0;
}

function area(box: Box): number {
  return (box.right - box.left) * (box.bottom - box.top);
}

function cost(boxes: readonly Box[], farPx: number, obstacles: readonly Obstacle[], inside: Box): number {
  let sum = farPx * FAR_COST;
  for (const box of boxes) {
    for (const obstacle of obstacles) sum += overlap(box, obstacle.box) * obstacle.weight;
    sum += (area(box) - overlap(box, inside)) * OUTSIDE_WEIGHT;
  }
  return sum;
}

/** The candidate that covers least; of equals the first. */
export function bestPlace<T>(
  candidates: readonly Candidate<T>[],
  obstacles: readonly Obstacle[],
  inside: Box,
): Candidate<T> {
  let best = candidates[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const covers = cost(candidate.boxes, candidate.farPx, obstacles, inside);
    if (covers < least) {
      best = candidate;
      least = covers;
    }
  }
  return best;
}

/** Weight of covering a label that stands already. Assumed: labels are read first of all. */
export const LABEL_WEIGHT = 6;

/** One round label for each point, in order: each keeps clear of the obstacles and of those before it. */
export function placeRound(
  points: readonly (Spot & { radiusPx: number })[],
  obstacles: readonly Obstacle[],
  inside: Box,
): Spot[] {
  const taken = [...obstacles];
  return points.map((point) => {
    const { value, boxes } = bestPlace(roundCandidates(point, point.radiusPx), taken, inside);
    for (const box of boxes) taken.push({ box, weight: LABEL_WEIGHT });
    return value;
  });
}

/** Directions round a point, diagonals first, as leaders then run along the fewest lines. */
const DIRECTIONS: readonly (readonly [number, number])[] = [
  [-0.7, 0.7],
  [0.7, 0.7],
  [-0.7, -0.7],
  [0.7, -0.7],
  [0, 1],
  [0, -1],
  [-1, 0],
  [1, 0],
];

/** Round labels of radius `radiusPx` at three distances round a point. */
export function roundCandidates(point: Spot, radiusPx: number): Candidate<Spot>[] {
  return [1.6, 2.2, 3].flatMap((times) =>
    DIRECTIONS.map(([dx, dy]): Candidate<Spot> => {
      const far = radiusPx * times;
      const value = { x: point.x + dx * far, y: point.y + dy * far };
      return { value, boxes: [boxAround(value.x, value.y, radiusPx)], farPx: far };
    }),
  );
}
