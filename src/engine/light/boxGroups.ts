/** Furniture boxes in groups with a common hull: one level of a bounding-volume hierarchy. */

/** Boxes in a group. Assumed: at most 4; a room of thirty boxes then has about ten hulls. */
const GROUP_SIZE = 4;

export interface BoxGroups {
  count: number;
  /** Hulls, [minX, minY, minZ, maxX, maxY, maxZ] each. */
  hulls: Float64Array;
  /** Boxes of group g: `from[g]` up to `from[g + 1]`, in `bounds` and `box`. */
  from: Int32Array;
  bounds: Float64Array;
  /** Index in the scene's own order. */
  box: Int32Array;
}

function middle(bounds: Float64Array, box: number, axis: number): number {
  return bounds[box * 6 + axis]! + bounds[box * 6 + 3 + axis]!;
}

/** Splits at the median of the widest spread of middles until groups are small. Ties go by index: the order is total. */
function split(bounds: Float64Array, boxes: number[], groups: number[][]): void {
  if (boxes.length <= GROUP_SIZE) {
    if (boxes.length > 0) groups.push(boxes);
    return;
  }
  let widest = 0;
  let spread = -1;
  for (let axis = 0; axis < 3; axis++) {
    const at = boxes.map((b) => middle(bounds, b, axis));
    const range = Math.max(...at) - Math.min(...at);
    if (range > spread) {
      spread = range;
      widest = axis;
    }
  }
  const sorted = [...boxes].sort((a, b) => middle(bounds, a, widest) - middle(bounds, b, widest) || a - b);
  const half = sorted.length >> 1;
  split(bounds, sorted.slice(0, half), groups);
  split(bounds, sorted.slice(half), groups);
}

export function groupBoxes(bounds: Float64Array): BoxGroups {
  const lists: number[][] = [];
  split(
    bounds,
    Array.from({ length: bounds.length / 6 }, (_, b) => b),
    lists,
  );
  const order = lists.flat();
  const groups: BoxGroups = {
    count: lists.length,
    hulls: new Float64Array(lists.length * 6),
    from: new Int32Array(lists.length + 1),
    bounds: new Float64Array(bounds.length),
    box: Int32Array.from(order),
  };
  order.forEach((b, k) => {
    groups.bounds.set(bounds.subarray(b * 6, b * 6 + 6), k * 6);
  });
  lists.forEach((boxes, g) => {
    groups.from[g + 1] = groups.from[g]! + boxes.length;
    for (let axis = 0; axis < 3; axis++) {
      groups.hulls[g * 6 + axis] = Math.min(...boxes.map((b) => bounds[b * 6 + axis]!));
      groups.hulls[g * 6 + 3 + axis] = Math.max(...boxes.map((b) => bounds[b * 6 + 3 + axis]!));
    }
  });
  return groups;
}
