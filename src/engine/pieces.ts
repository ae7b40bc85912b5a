/** Short pieces of line between numbered places, joined into long lines. */

export interface Pieces<P> {
  point: Map<number, P>;
  next: Map<number, number[]>;
}

export function createPieces<P>(): Pieces<P> {
  return { point: new Map(), next: new Map() };
}

/** A piece from place `a` to place `b`; at most two pieces meet at a place. */
export function addPiece<P>(pieces: Pieces<P>, a: number, pointA: P, b: number, pointB: P): void {
  pieces.point.set(a, pointA);
  pieces.point.set(b, pointB);
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    const known = pieces.next.get(from);
    if (known) known.push(to);
    else pieces.next.set(from, [to]);
  }
}

/** Follows the pieces from a place until they end or come round, and uses them up. */
function follow<P>(pieces: Pieces<P>, start: number): P[] {
  const line: P[] = [pieces.point.get(start)!];
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

/** All lines; closed ones end where they begin. Uses the pieces up. */
export function joinPieces<P>(pieces: Pieces<P>): P[][] {
  const lines: P[][] = [];
  // Open lines first, from their ends; then the rings.
  for (const wantedEnds of [1, 2]) {
    for (const [place, to] of pieces.next) if (to.length === wantedEnds) lines.push(follow(pieces, place));
  }
  return lines;
}
