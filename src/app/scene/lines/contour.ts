/** Lines of one value over a lattice: marching squares. */
import { addPiece, createPieces, joinPieces } from '../../../engine/pieces.ts';
import type { Lattice } from './lattice.ts';

/** Shares of the face's two sides, 0-1. */
export type FacePoint = [u: number, v: number];

/** Lines along which the lattice has this value, open from edge to edge or closed (last point equals the first). */
export function contoursAt({ nu, nv, values }: Lattice, level: number): FacePoint[][] {
  const pieces = createPieces<FacePoint>();
  /** Where the value is passed between point k and its neighbour: along u (`up` 0) or v (`up` 1). */
  const cross = (k: number, up: 0 | 1): FacePoint => {
    const [a, b] = [values[k]!, values[k + (up ? nu : 1)]!];
    const share = (level - a) / (b - a);
    const [i, j] = [k % nu, Math.floor(k / nu)];
    return [(i + (up ? 0 : share)) / (nu - 1), (j + (up ? share : 0)) / (nv - 1)];
  };
  for (let j = 0; j + 1 < nv; j++) {
    for (let i = 0; i + 1 < nu; i++) {
      const k = j * nu + i;
      const [a, b] = [values[k]! >= level, values[k + 1]! >= level];
      const [c, d] = [values[k + nu + 1]! >= level, values[k + nu]! >= level];
      if (a === b && b === c && c === d) continue;
      // Sides in order round the square: near, right, far, left.
      const sides: [number, 0 | 1][] = [
        [k, 0],
        [k + 1, 1],
        [k + nu, 0],
        [k, 1],
      ];
      const crossed = [a !== b, b !== c, c !== d, d !== a].flatMap((is, side) => (is ? [side] : []));
      // Where opposite corners agree the middle decides which of them are joined.
      const middle = (values[k]! + values[k + 1]! + values[k + nu]! + values[k + nu + 1]!) / 4 >= level;
      if (crossed.length === 4 && middle !== a) crossed.unshift(crossed.pop()!);
      for (let s = 0; s < crossed.length; s += 2) {
        const [from, to] = [sides[crossed[s]!]!, sides[crossed[s + 1]!]!];
        addPiece(pieces, from[0] * 2 + from[1], cross(...from), to[0] * 2 + to[1], cross(...to));
      }
    }
  }
  return joinPieces(pieces);
}
