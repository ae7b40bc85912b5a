/** Where the lines of the Light Map may carry their numbers. Pure: lines in, places out. */
import type { Vector3 } from '../../../engine/types.ts';
import { type LightLine, lengthM } from '../lines/lightLines.ts';

/** A level and the place near which it is wanted, in shares of the floor's width and depth. */
export interface Wish {
  lux: number;
  near: readonly [number, number];
}

/** Only a line this long carries a number, m. Assumed: the number would hide most of a shorter one. */
const LEAST_M = 1.2;
/** Numbers of one level are at least this far apart, m. Assumed: the same number twice side by side says nothing. */
const APART_M = 1;

/**
 * For each wish the points of the floor's lines that could carry its number, nearest to the wanted place first. Two wishes
 * of one level share no points, and keep `APART_M` between them.
 */
export function isolinePlaces(
  lines: readonly LightLine[],
  room: { widthM: number; depthM: number },
  wishes: readonly Wish[],
  drawn: (at: Vector3, line: LightLine) => boolean,
): Vector3[][] {
  const away = ([x, y]: Vector3, { near }: Wish) => Math.hypot(x - near[0] * room.widthM, y - near[1] * room.depthM);
  return wishes.map((wish) => {
    const others = wishes.filter((w) => w !== wish && w.lux === wish.lux);
    return lines
      .filter((line) => line.lux === wish.lux && line.own === -1 && lengthM(line.points) >= LEAST_M)
      .flatMap((line) => line.points.filter((p) => drawn(p, line)))
      .filter((p) => others.every((other) => away(p, wish) + APART_M <= away(p, other)))
      .sort((a, b) => away(a, wish) - away(b, wish));
  });
}
