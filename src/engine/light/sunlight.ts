/**
 * Direct sun through the windows, exact at every step: parallel rays from points of each window to the elements they
 * light, and one ray from each sensor to the sun.
 */
import { sin, sqrt } from '../math.ts';
import { degToRad } from '../units.ts';
import type { Beam } from './beam.ts';
import { aimBeam, beamElement, chooseStrip, makeBeam } from './beam.ts';
import type { CellGrid, WindowCells } from './cells.ts';
import type { Mesh } from './mesh.ts';
import { openingRatio } from './outside.ts';
import type { LightScene, SceneOpening } from './scene.ts';
import { hit, traceElement } from './trace.ts';

/** Window area per sun ray, m2. Assumed: 0.008; the beam on an element then errs by a few %, a sensor by under 1 %. */
const AREA_PER_RAY_M2 = 0.008;
/** Fewest and most rays of one opening. Assumed: 200 and 600. */
const MIN_RAYS = 200;
const MAX_RAYS = 600;

/** Points of one opening from which the beam is followed inwards. */
export interface SunPoints {
  grid: CellGrid;
  /** The points are stratified; those of one row follow each other. */
  columns: number;
  rows: number;
  /** u, v of each point. */
  place: Float64Array;
  row: Uint16Array;
  areaPerPointM2: number;
}

/** Flux on the elements that the sun reaches. */
export interface SunPatch {
  count: number;
  element: Uint16Array;
  fluxLm: Float64Array;
}

export function buildSunPoints(cells: WindowCells): SunPoints[] {
  return cells.grids.map((grid) => {
    const { us, vs, nu, nv } = grid.grid;
    const width = us[nu]! - us[0]!;
    const height = vs[nv]! - vs[0]!;
    const wanted = Math.min(MAX_RAYS, Math.max(MIN_RAYS, (width * height) / AREA_PER_RAY_M2));
    const columns = Math.max(1, Math.round(sqrt((wanted * width) / height)));
    const rows = Math.max(1, Math.round(wanted / columns));
    const place = new Float64Array(columns * rows * 2);
    const row = new Uint16Array(columns * rows);
    for (let j = 0; j < rows; j++) {
      for (let i = 0; i < columns; i++) {
        const k = j * columns + i;
        // Each cell of the stratification has its own place in it, so that edges of the beam do not beat with the mesh.
        const a = (k + 1) * 0.7548776662466927;
        const b = (k + 1) * 0.5698402909980532;
        const v = (j + b - Math.floor(b)) / rows;
        place[2 * k] = us[0]! + (width * (i + a - Math.floor(a))) / columns;
        place[2 * k + 1] = vs[0]! + height * v;
        row[k] = grid.firstRow + Math.min(nv - 1, Math.floor(v * nv));
      }
    }
    return { grid, columns, rows, place, row, areaPerPointM2: (width * height) / (columns * rows) };
  });
}

/** Cosine between the outward normal of a face and the sun. */
export function sunOnFace(face: number, sun: readonly [number, number, number]): number {
  return ((face & 1) === 1 ? 1 : -1) * sun[face >> 1]!;
}

export function sunHidden(scene: LightScene, sun: readonly [number, number, number]): boolean {
  return sun[2] <= 0 || sun[2] < sin(degToRad(scene.obstructionAltitudeDeg));
}

/** How far the line to the sun runs along u and v of an opening on its way through the reveal, m; scratch. */
const drift = { u: 0, v: 0 };

function aimThroughReveal(opening: SceneOpening, g: CellGrid, sun: readonly [number, number, number]): void {
  const stretch = opening.revealM / sunOnFace(g.face, sun);
  drift.u = sun[g.grid.uAxis]! * stretch;
  drift.v = sun[g.grid.vAxis]! * stretch;
}

/** Whether the line through (u, v) of the opening towards the sun misses the reveal. */
function passesReveal(g: CellGrid, u: number, v: number): boolean {
  const { us, vs, nu, nv } = g.grid;
  const uOut = u + drift.u;
  const vOut = v + drift.v;
  return uOut >= us[0]! && uOut <= us[nu]! && vOut >= vs[0]! && vOut <= vs[nv]!;
}

export interface SunScratch {
  patch: SunPatch;
  /** Place of an element in the patch list + 1, 0 = not lit; all zero between calls. */
  slot: Uint16Array;
  beam: Beam;
}

export function makeSunScratch(mesh: Mesh): SunScratch {
  return {
    patch: { count: 0, element: new Uint16Array(mesh.count), fluxLm: new Float64Array(mesh.count) },
    slot: new Uint16Array(mesh.count),
    beam: makeBeam(mesh),
  };
}

/** Fills `scratch.patch` for a beam of `directNormalLx`. `openShare`: share of each cell row not behind its blind. */
export function traceSun(
  scene: LightScene,
  points: SunPoints[],
  openShare: Float64Array,
  sun: readonly [number, number, number],
  directNormalLx: number,
  scratch: SunScratch,
): SunPatch {
  const { patch, slot } = scratch;
  patch.count = 0;
  if (sunHidden(scene, sun)) return patch;
  for (const p of points) {
    const cosine = sunOnFace(p.grid.face, sun);
    if (cosine <= 1e-6) continue;
    const opening = scene.openings[p.grid.opening]!;
    const ratio = openingRatio(opening, cosine) * opening.transmittance;
    const flux = directNormalLx * cosine * ratio * p.areaPerPointM2;
    aimThroughReveal(opening, p.grid, sun);
    traceWindow(p, openShare, sun, flux, scratch);
  }
  for (let i = 0; i < patch.count; i++) slot[patch.element[i]!] = 0;
  return patch;
}

/** Adds the beam through one window, `fluxLm` from each of its points. */
function traceWindow(
  points: SunPoints,
  openShare: Float64Array,
  sun: readonly [number, number, number],
  fluxLm: number,
  { patch, slot, beam }: SunScratch,
): void {
  const { columns, rows, place, row } = points;
  const { fixedAxis, fixedM, uAxis, vs, nv } = points.grid.grid;
  const fromV = vs[0]!;
  const stepV = (vs[nv]! - fromV) / rows;
  aimBeam(beam, points.grid.grid, -sun[0], -sun[1], -sun[2]);
  for (let j = 0; j < rows; j++) {
    chooseStrip(beam, fromV + stepV * j, fromV + stepV * (j + 1));
    for (let k = j * columns; k < (j + 1) * columns; k++) {
      const open = openShare[row[k]!]!;
      if (open === 0) continue;
      const u = place[2 * k]!;
      const v = place[2 * k + 1]!;
      if (!passesReveal(points.grid, u, v)) continue;
      const x = fixedAxis === 0 ? fixedM : u;
      const y = fixedAxis === 1 ? fixedM : uAxis === 1 ? u : v;
      const z = fixedAxis === 2 ? fixedM : v;
      const e = beamElement(beam, u, x, y, z);
      let at = slot[e]!;
      if (at === 0) {
        patch.element[patch.count] = e;
        patch.fluxLm[patch.count] = 0;
        at = ++patch.count;
        slot[e] = at;
      }
      patch.fluxLm[at - 1]! += fluxLm * open;
    }
  }
}

/** Direct sun on a point per lux of direct normal light, before its own cosine: 0 in shadow, else glass and blind. */
export function sunAtPoint(
  mesh: Mesh,
  scene: LightScene,
  cells: WindowCells,
  openShare: Float64Array,
  p: readonly [number, number, number],
  sun: readonly [number, number, number],
): number {
  if (sunHidden(scene, sun)) return 0;
  const e = traceElement(mesh, p[0], p[1], p[2], sun[0], sun[1], sun[2]);
  const index = mesh.opening[e]!;
  const opening = scene.openings[index];
  if (opening?.kind !== 'window') return 0;
  const g = cells.grids.find((grid) => grid.opening === index)!;
  const cosine = sunOnFace(g.face, sun);
  if (cosine <= 1e-6) return 0;
  const { vs, nv, uAxis, vAxis } = g.grid;
  const at = [hit.x, hit.y, hit.z];
  const v = at[vAxis]!;
  aimThroughReveal(opening, g, sun);
  if (!passesReveal(g, at[uAxis]!, v)) return 0;
  const share = (v - vs[0]!) / (vs[nv]! - vs[0]!);
  const row = g.firstRow + Math.min(nv - 1, Math.max(0, Math.floor(share * nv)));
  return openShare[row]! * openingRatio(opening, cosine) * opening.transmittance;
}
