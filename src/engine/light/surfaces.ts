/** Faces of room and furniture as grids of elements, and which cell a point of a face lies in. */
import type { PlaneGrid } from './polygon.ts';
import type { LightScene } from './scene.ts';
import { FACE_ORDER } from './scene.ts';

export interface Surface extends PlaneGrid {
  /** Index into FACE_ORDER, or -1 for a box. */
  face: number;
  /** Index into scene.boxes, or -1. */
  box: number;
  /** Which way the surface looks along its fixed axis. */
  sign: 1 | -1;
  /** First element; cell (i, j) is first + j * nu + i. */
  first: number;
  /** Finder of grid columns and rows: fine steps of the side -> index of the cell that begins there. */
  uFinder: Finder;
  vFinder: Finder;
}

interface Finder {
  fromM: number;
  perM: number;
  last: number;
  table: Uint16Array;
}

function gridLines(fromM: number, toM: number, cuts: number[], stepM: number): Float64Array {
  const edges = [fromM, ...cuts.filter((c) => c > fromM + 1e-6 && c < toM - 1e-6), toM].sort((a, b) => a - b);
  const lines = [fromM];
  for (let k = 1; k < edges.length; k++) {
    const start = edges[k - 1]!;
    const length = edges[k]! - start;
    if (length < 1e-6) continue;
    const n = Math.max(1, Math.ceil(length / stepM - 1e-9));
    for (let i = 1; i <= n; i++) lines.push(i === n ? edges[k]! : start + (length * i) / n);
  }
  return Float64Array.from(lines);
}

function finder(lines: Float64Array): Finder {
  const fromM = lines[0]!;
  const length = lines[lines.length - 1]! - fromM;
  const bins = Math.max(1, Math.ceil(length * 40));
  const perM = length > 0 ? bins / length : 0;
  const table = new Uint16Array(bins + 1);
  let cell = 0;
  for (let b = 0; b <= bins; b++) {
    const at = fromM + b / perM;
    while (cell < lines.length - 2 && lines[cell + 1]! <= at) cell++;
    table[b] = cell;
  }
  return { fromM, perM, last: bins, table };
}

function find(f: Finder, lines: Float64Array, cells: number, at: number): number {
  const raw = (at - f.fromM) * f.perM;
  let cell = f.table[raw <= 0 ? 0 : raw >= f.last ? f.last : raw | 0]!;
  while (cell < cells - 1 && at >= lines[cell + 1]!) cell++;
  return cell;
}

/** Element of a surface at a point of its plane. */
export function elementAt(s: Surface, u: number, v: number): number {
  return s.first + find(s.vFinder, s.vs, s.nv, v) * s.nu + find(s.uFinder, s.us, s.nu, u);
}

function makeSurface(
  where: { face: number; box: number },
  fixedAxis: number,
  fixedM: number,
  sign: 1 | -1,
  us: Float64Array,
  vs: Float64Array,
  first: number,
): Surface {
  const [uAxis, vAxis] = planeAxes(fixedAxis);
  const nu = us.length - 1;
  const nv = vs.length - 1;
  return {
    ...where,
    fixedAxis,
    fixedM,
    sign,
    uAxis,
    vAxis,
    us,
    vs,
    nu,
    nv,
    first,
    uFinder: finder(us),
    vFinder: finder(vs),
  };
}

/** u and v axis of a plane across an axis: walls (y or x, z), floor and ceiling (x, y). */
export function planeAxes(fixedAxis: number): [number, number] {
  return fixedAxis === 0 ? [1, 2] : fixedAxis === 1 ? [0, 2] : [0, 1];
}

/** The six faces of the room, cut at the edges of openings. */
export function roomSurfaces(scene: LightScene, stepM: number): Surface[] {
  const surfaces: Surface[] = [];
  let first = 0;
  FACE_ORDER.forEach((id, face) => {
    const fixedAxis = face >> 1;
    const high = (face & 1) === 1;
    const [uAxis, vAxis] = planeAxes(fixedAxis);
    const openings = scene.openings.filter((o) => o.face === id);
    const cuts = (axis: number) => openings.flatMap((o) => [o.minM[axis]!, o.maxM[axis]!]);
    const us = gridLines(0, scene.sizeM[uAxis]!, cuts(uAxis), stepM);
    const vs = gridLines(0, scene.sizeM[vAxis]!, cuts(vAxis), stepM);
    const s = makeSurface(
      { face, box: -1 },
      fixedAxis,
      high ? scene.sizeM[fixedAxis]! : 0,
      high ? -1 : 1,
      us,
      vs,
      first,
    );
    surfaces.push(s);
    first += s.nu * s.nv;
  });
  return surfaces;
}

/** Six sides of every box, after the surfaces that are there. */
export function addBoxSurfaces(scene: LightScene, surfaces: Surface[], stepM: number): void {
  scene.boxes.forEach((b, box) => {
    for (let side = 0; side < 6; side++) {
      const previous = surfaces[surfaces.length - 1]!;
      const fixedAxis = side >> 1;
      const high = (side & 1) === 1;
      const [uAxis, vAxis] = planeAxes(fixedAxis);
      surfaces.push(
        makeSurface(
          { face: -1, box },
          fixedAxis,
          (high ? b.maxM : b.minM)[fixedAxis]!,
          high ? 1 : -1,
          gridLines(b.minM[uAxis]!, b.maxM[uAxis]!, [], stepM),
          gridLines(b.minM[vAxis]!, b.maxM[vAxis]!, [], stepM),
          previous.first + previous.nu * previous.nv,
        ),
      );
    }
  });
}

/** Point (u, v) of a surface, lifted `liftM` off it, into `out`. */
export function surfacePoint(
  s: Surface,
  u: number,
  v: number,
  liftM: number,
  out: Float64Array | number[],
  at = 0,
): void {
  out[at + s.fixedAxis] = s.fixedM + s.sign * liftM;
  out[at + s.uAxis] = u;
  out[at + s.vAxis] = v;
}
