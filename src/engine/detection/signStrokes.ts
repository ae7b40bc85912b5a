/** Plus and minus inside the drawn outlines of the lens cells. */

/** Middles of the four sides among the points of an outline (four to a side). Source: order of points in sightCells.ts. */
const SIDES = [2, 6, 10, 14] as const;
/** Share of the way from the middle to the long sides that a stroke reaches. */
const REACH = 0.62;

/** Strokes of the sign, [x, y, z, x, y, z] each, room metres; none for an outline of another shape. */
export function signStrokesM(outlineM: readonly number[], polarity: 1 | -1): number[][] {
  if (outlineM.length !== 48) return [];
  const at = (k: number) => [outlineM[3 * k]!, outlineM[3 * k + 1]!, outlineM[3 * k + 2]!];
  const [near, one, far, other] = SIDES.map(at) as [number[], number[], number[], number[]];
  const middle = one.map((x, i) => (x + other[i]!) / 2);
  const across = one.map((x, i) => (x - other[i]!) / 2);
  const along = far.map((x, i) => (x - near[i]!) / 2);
  const width = Math.sqrt(across.reduce((sum, x) => sum + x * x, 0));
  const length = Math.sqrt(along.reduce((sum, x) => sum + x * x, 0));
  const stroke = (d: readonly number[], scale: number): number[] => [
    ...middle.map((x, i) => x - d[i]! * scale),
    ...middle.map((x, i) => x + d[i]! * scale),
  ];
  const minus = stroke(across, REACH);
  if (polarity === -1 || length === 0) return [minus];
  // The upright of a plus is as long as its bar.
  return [minus, stroke(along, Math.min(REACH, (REACH * width) / length))];
}
