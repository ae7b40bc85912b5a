/** Series -> SVG path texts. One lowest and one highest value per pixel column, so that no peak is lost at any zoom. */
/** A series that grows: `length` of `values` are filled. */
export interface Grow {
  readonly values: Float32Array;
  readonly length: number;
}

type Scale = (value: number) => number;

interface Column {
  low: number;
  high: number;
}

function columnOf(values: Float32Array, from: number, to: number): Column | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++) {
    const v = values[i]!;
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return low <= high ? { low, high } : null;
}

const r1 = (n: number): string => n.toFixed(1);

/**
 * Path of a series of one value per `ticksPerSample` ticks, from `fromTick` to `toTick`, over `widthPx`.
 * Gaps (NaN) break the line.
 */
export function linePath(
  grow: Grow,
  ticksPerSample: number,
  fromTick: number,
  toTick: number,
  widthPx: number,
  y: Scale,
): string {
  const pxPerTick = widthPx / (toTick - fromTick);
  const first = Math.max(0, Math.floor(fromTick / ticksPerSample));
  const end = Math.min(grow.length, Math.ceil(toTick / ticksPerSample) + 1);
  const perColumn = Math.max(1, Math.floor(1 / (pxPerTick * ticksPerSample)));
  let path = '';
  let pen = false;
  for (let i = first - (first % perColumn); i < end; i += perColumn) {
    const column = columnOf(grow.values, i, Math.min(end, i + perColumn));
    if (!column) {
      pen = false;
      continue;
    }
    const x = r1((i * ticksPerSample - fromTick) * pxPerTick);
    path += `${pen ? 'L' : 'M'}${x} ${r1(y(column.high))}`;
    if (column.high - column.low > 0.5) path += `L${x} ${r1(y(column.low))}`;
    pen = true;
  }
  return path;
}

/** Path of the signal: lowest and highest of every tick ([min, max] pairs), joined into one line. */
export function signalPath(grow: Grow, fromTick: number, toTick: number, widthPx: number, y: Scale): string {
  const pxPerTick = widthPx / (toTick - fromTick);
  const first = Math.max(0, Math.floor(fromTick));
  const end = Math.min(grow.length / 2, Math.ceil(toTick) + 1);
  const perColumn = Math.max(1, Math.floor(1 / pxPerTick));
  let path = '';
  let pen = false;
  let up = false;
  for (let i = first - (first % perColumn); i < end; i += perColumn) {
    const column = columnOf(grow.values, i * 2, Math.min(end, i + perColumn) * 2);
    if (!column) {
      pen = false;
      continue;
    }
    const x = r1((i - fromTick) * pxPerTick);
    const a = r1(y(up ? column.low : column.high));
    const b = r1(y(up ? column.high : column.low));
    path += `${pen ? 'L' : 'M'}${x} ${a}L${x} ${b}`;
    pen = true;
    up = !up;
  }
  return path;
}

/** Upright strokes at the ticks, one in three pixels at most, so that they stay strokes. */
export function strokesPath(
  ticks: readonly number[],
  fromTick: number,
  toTick: number,
  widthPx: number,
  topPx: number,
  bottomPx: number,
): string {
  const pxPerTick = widthPx / (toTick - fromTick);
  let path = '';
  let lastX = Number.NEGATIVE_INFINITY;
  for (const tick of ticks) {
    if (tick < fromTick || tick > toTick) continue;
    const x = Math.round((tick - fromTick) * pxPerTick);
    if (x - lastX < 3) continue;
    lastX = x;
    path += `M${x} ${topPx}V${bottomPx}`;
  }
  return path;
}
