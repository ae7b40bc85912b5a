/**
 * A vertical cut through the detector: what its plane shows of the room, of the lens cells that it passes, and of what
 * stands in their way. Distances along the plane are signed: positive towards the plane's bearing, the detector at 0.
 */
import { acos, cos, PI, sin, tan } from '../math.ts';
import type { Box } from '../room/boxes.ts';
import { hitDistance, nearestBox } from '../room/rays.ts';
import type { Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';
import { weightM2 } from './angularMap.ts';
import { CHANNELS } from './lens.ts';
import { sectorOf } from './lookup.ts';
import { sceneDistanceM } from './scene.ts';
import type { MovementTables, Surroundings } from './types.ts';

/** A run of directions of the plane in which one half of a facet has at least half its weight. */
export interface SectionCell {
  channel: number;
  polarity: 1 | -1;
  ring: number;
  masked: boolean;
  /** Edges from straight down, signed, rad. */
  edgesRad: [number, number];
  /** Where the edges would meet the floor and the desk height if nothing stood there, m along the plane. */
  floorM: [number, number];
  deskM: [number, number];
  /** Where they end: along, up, along, up, m. */
  endsM: [number, number, number, number];
  /** Both ends lie on the floor. */
  onFloor: boolean;
}

export interface SectionBox {
  furnitureId: string;
  glass: boolean;
  alongM: [number, number];
  upM: [number, number];
}

export interface SectionShadow {
  furnitureId: string;
  glass: boolean;
  /** Outline of what the piece hides from the detector, along and up in turn, m. */
  outlineM: number[];
}

export interface SideSection {
  /** Bearing of the plane in the room, clockwise from +y. */
  bearingDeg: number;
  heightM: number;
  deskHeightM: number;
  eyeUpM: number;
  /** The room's walls along the plane. */
  alongM: [number, number];
  cells: SectionCell[];
  boxes: SectionBox[];
  shadows: SectionShadow[];
}

/** Step of the search along the plane, rad. Assumed: 0.05 degrees, a fifth of the blur; no cell is as narrow. */
const STEP_RAD = degToRad(0.05);
/** Edges are found to this, rad. Assumed: 0.1 mm on a floor 3 m below. */
const EDGE_RAD = 3e-5;
/** The search ends this far from the horizon, rad. Assumed: the outermost beam ends at 81 degrees. */
const WIDEST_RAD = degToRad(86);
/** Step of the rays that find shadows, rad. Assumed: 0.2 degrees, a centimetre at 3 m. */
const SHADOW_STEP_RAD = degToRad(0.2);
/** Heights under this are the floor, m. Assumed: rounding of a ray's length. */
const FLOOR_M = 1e-6;

interface Plane {
  tables: MovementTables;
  sinB: number;
  cosB: number;
}

function roomDirection({ sinB, cosB }: Plane, nadirRad: number): Vector3 {
  const s = sin(nadirRad);
  return [s * sinB, s * cosB, -cos(nadirRad)];
}

/** The same direction in the detector's frame. */
function lensDirection(plane: Plane, nadirRad: number): Vector3 {
  const [x, y, z] = roomDirection(plane, nadirRad);
  const { turnSin, turnCos } = plane.tables;
  return [x * turnCos - y * turnSin, x * turnSin + y * turnCos, z];
}

interface Ring {
  nadirRad: number;
  openingM2: number;
}

function ringsOf(tables: MovementTables): Ring[] {
  const rings: Ring[] = [];
  for (const f of tables.facets) rings[f.ring] ??= { nadirRad: acos(-f.axis[2]), openingM2: f.openingM2 };
  return rings;
}

function ringAt(rings: readonly Ring[], nadirRad: number): number {
  const off = (ring: number) => Math.abs(rings[ring]!.nadirRad - Math.abs(nadirRad));
  return rings.reduce((best, _, ring) => (off(ring) < off(best) ? ring : best), 0);
}

/** Weight in shares of the full weight of the ring at hand: 1 inside a cell, half at its drawn edge. */
function shareAt(plane: Plane, rings: readonly Ring[], channel: number, nadirRad: number): number {
  const full = rings[ringAt(rings, nadirRad)]!.openingM2;
  return weightM2(plane.tables.map, channel, lensDirection(plane, nadirRad)) / full;
}

/** Where the share passes a half between `inside` and `outside`. */
function edgeBetween(share: (nadirRad: number) => number, inside: number, outside: number): number {
  let [within, beyond] = [inside, outside];
  while (Math.abs(beyond - within) > EDGE_RAD) {
    const middle = (within + beyond) / 2;
    if (share(middle) >= 0.5) within = middle;
    else beyond = middle;
  }
  return (within + beyond) / 2;
}

/** Runs of one channel and sign, as signed angles from straight down. */
function runsOf(plane: Plane, rings: readonly Ring[], channel: number, polarity: 1 | -1): [number, number][] {
  const share = (nadirRad: number) => polarity * shareAt(plane, rings, channel, nadirRad);
  const runs: [number, number][] = [];
  let from: number | null = null;
  for (let a = -WIDEST_RAD; a <= WIDEST_RAD + STEP_RAD; a += STEP_RAD) {
    const inside = share(a) >= 0.5;
    if (inside && from === null) from = edgeBetween(share, a, a - STEP_RAD);
    if (!inside && from !== null) {
      runs.push([from, edgeBetween(share, a - STEP_RAD, a)]);
      from = null;
    }
  }
  return runs;
}

/** End of a ray on the first surface, along and up, m. */
function endOf(plane: Plane, s: Surroundings, nadirRad: number): [number, number] {
  const far = sceneDistanceM(s, ...roomDirection(plane, nadirRad));
  return [far * sin(nadirRad), s.eyeM[2] - far * cos(nadirRad)];
}

function cellsOf(plane: Plane, deskHeightM: number, maskedSectors: readonly number[]): SectionCell[] {
  const { tables } = plane;
  const s = tables.surroundings;
  const rings = ringsOf(tables);
  const cells: SectionCell[] = [];
  for (let channel = 0; channel < CHANNELS; channel++) {
    for (const polarity of [1, -1] as const) {
      for (const edgesRad of runsOf(plane, rings, channel, polarity)) {
        const middle = (edgesRad[0] + edgesRad[1]) / 2;
        const [x, y] = lensDirection(plane, middle);
        const at = (down: number): [number, number] => [down * tan(edgesRad[0]), down * tan(edgesRad[1])];
        const endsM = [...endOf(plane, s, edgesRad[0]), ...endOf(plane, s, edgesRad[1])] as SectionCell['endsM'];
        cells.push({
          channel,
          polarity,
          ring: ringAt(rings, middle),
          masked: maskedSectors.includes(sectorOf(x, y)),
          edgesRad,
          floorM: at(s.eyeM[2]),
          deskM: at(s.eyeM[2] - deskHeightM),
          endsM,
          onFloor: endsM[1] < FLOOR_M && endsM[3] < FLOOR_M,
        });
      }
    }
  }
  return cells.sort((a, b) => a.edgesRad[0] - b.edgesRad[0]);
}

/** The stretch of the plane over a rectangle in plan; null when it passes beside it. */
function stretchOver(plane: Plane, minM: Vector3, maxM: Vector3): [number, number] | null {
  const { eyeM } = plane.tables.surroundings;
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  for (const [axis, d] of [
    [0, plane.sinB],
    [1, plane.cosB],
  ] as const) {
    const low = minM[axis] - eyeM[axis];
    const high = maxM[axis] - eyeM[axis];
    if (Math.abs(d) < 1e-12) {
      if (low > 0 || high < 0) return null;
      continue;
    }
    from = Math.max(from, Math.min(low / d, high / d));
    to = Math.min(to, Math.max(low / d, high / d));
  }
  return from < to ? [from, to] : null;
}

/** Which piece a ray of the plane ends on, and where rays end with and without furniture. */
function rayPast(plane: Plane, bare: Surroundings, nadirRad: number): { box: number; hit: number[]; shell: number[] } {
  const s = plane.tables.surroundings;
  const d = roomDirection(plane, nadirRad);
  const far = sceneDistanceM(bare, ...d);
  const box = nearestBox(s.boxes, ...s.eyeM, ...d, far);
  const at = (t: number) => [t * sin(nadirRad), s.eyeM[2] - t * cos(nadirRad)];
  return { box, hit: at(box >= 0 ? hitDistance.value : far), shell: at(far) };
}

function shadowsOf(plane: Plane, boxes: readonly Box[]): SectionShadow[] {
  const s = plane.tables.surroundings;
  const bare = { ...s, boxes: { count: 0, bounds: new Float64Array(0) } };
  const shadows: SectionShadow[] = [];
  let open: { id: string; glass: boolean; near: number[][]; far: number[][] } | null = null;
  const close = () => {
    if (!open) return;
    const outlineM = [...open.near, ...open.far.reverse()].flat();
    shadows.push({ furnitureId: open.id, glass: open.glass, outlineM });
    open = null;
  };
  for (let a = -PI / 2 + SHADOW_STEP_RAD; a < PI / 2; a += SHADOW_STEP_RAD) {
    const { box, hit, shell } = rayPast(plane, bare, a);
    const piece = box >= 0 ? boxes[box]! : null;
    if (open && open.id !== piece?.furnitureId) close();
    if (!piece) continue;
    open ??= { id: piece.furnitureId, glass: piece.glass, near: [], far: [] };
    open.near.push(hit);
    open.far.push(shell);
  }
  close();
  return shadows;
}

/** `boxes`: those the tables were built from, in their order. Pure. */
export function sideSection(
  tables: MovementTables,
  boxes: readonly Box[],
  options: { bearingDeg: number; deskHeightM: number; maskedSectors: readonly number[] },
): SideSection {
  const { bearingDeg, deskHeightM, maskedSectors } = options;
  const plane = { tables, sinB: sin(degToRad(bearingDeg)), cosB: cos(degToRad(bearingDeg)) };
  const { eyeM, roomM } = tables.surroundings;
  const cut = boxes.flatMap((box): SectionBox[] => {
    const alongM = stretchOver(plane, box.minM, box.maxM);
    const { furnitureId, glass } = box;
    return alongM ? [{ furnitureId, glass, alongM, upM: [box.minM[2], box.maxM[2]] }] : [];
  });
  return {
    bearingDeg,
    heightM: roomM[2],
    deskHeightM,
    eyeUpM: eyeM[2],
    alongM: stretchOver(plane, [0, 0, 0], roomM) ?? [0, 0],
    cells: cellsOf(plane, deskHeightM, maskedSectors),
    boxes: cut,
    shadows: shadowsOf(plane, boxes),
  };
}
