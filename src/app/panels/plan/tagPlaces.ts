/** Places for round tags beside their points, so that they cover neither each other nor what must be read. */
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

/** Offsets tried in order, px: diagonals first, as leaders then cross the fewest lines. */
const OFFSETS: readonly [number, number][] = [
  [-34, 42],
  [34, 42],
  [-34, -42],
  [34, -42],
  [0, 52],
  [0, -52],
  [-54, 0],
  [54, 0],
  [-46, 70],
  [46, 70],
];

function boxOverlap(spot: Spot, radius: number, box: Box): number {
  const w = Math.min(spot.x + radius, box.right) - Math.max(spot.x - radius, box.left);
  const h = Math.min(spot.y + radius, box.bottom) - Math.max(spot.y - radius, box.top);
  return w > 0 && h > 0 ? w * h : 0;
}

/** How much a tag at `spot` would cover, px² (tags and other points count as boxes). */
function cost(spot: Spot, radius: number, blocked: readonly Box[], inside: Box): number {
  let sum = 0;
  for (const box of blocked) sum += boxOverlap(spot, radius, box);
  const out =
    Math.max(0, inside.left + radius - spot.x) +
    Math.max(0, spot.x + radius - inside.right) +
    Math.max(0, inside.top + radius - spot.y) +
    Math.max(0, spot.y + radius - inside.bottom);
  return sum + out * 2 * radius;
}

/** One place per point, in order; the first free one wins, else the one that covers least. */
export function placeTags(points: readonly Spot[], radius: number, blocked: readonly Box[], inside: Box): Spot[] {
  const taken: Box[] = [
    ...blocked,
    ...points.map((p) => ({ left: p.x - 5, right: p.x + 5, top: p.y - 5, bottom: p.y + 5 })),
  ];
  return points.map((point) => {
    let best: Spot = point;
    let least = Number.POSITIVE_INFINITY;
    for (const [dx, dy] of OFFSETS) {
      const spot = { x: point.x + dx, y: point.y + dy };
      const covers = cost(spot, radius, taken, inside);
      if (covers < least) {
        best = spot;
        least = covers;
      }
      if (covers === 0) break;
    }
    taken.push({ left: best.x - radius, right: best.x + radius, top: best.y - radius, bottom: best.y + radius });
    return best;
  });
}
