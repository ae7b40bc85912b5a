/**
 * Where a photometer's reading comes from: what it looks at, and whose light that is. The sum of a row taken forwards:
 * light leaves the elements, and the photometer's view of them adds it up, so the parts make the reading exactly.
 */
import { lerp } from '../math.ts';
import type { Setup } from '../types.ts';
import type { ReadingParts, SeenPart } from './detectorParts.ts';
import { SEEN_PARTS } from './detectorParts.ts';
import { lampAtPoint } from './lampLight.ts';
import { DARK_OUTSIDE_LX, outsideLight, type SkyMoment } from './light.ts';
import { BINS } from './outside.ts';
import type { OutsideLight, RoomGeometry, SensorPart } from './parts.ts';
import { blindExitance, fillBins, sensorContext } from './parts.ts';
import type { BetweenSkies } from './probe.ts';
import type { SensorRow } from './sensors.ts';
import { photometerView, sensorWeighting } from './sensors.ts';
import type { Interreflection } from './solve.ts';
import { solvePatches } from './solve.ts';
import { sunAtPoint, traceSun } from './sunlight.ts';
import { RAYS_PER_ELEMENT } from './transport.ts';
import type { LightTables } from './types.ts';

function nothing(): Record<SeenPart, number> {
  return { floor: 0, desks: 0, furniture: 0, walls: 0, window: 0, lamps: 0 };
}

/** Light leaving every element, lm/m2, for light that arrives on them directly, lx: the forward twin of a sensor's row. */
function elementExitance(geometry: RoomGeometry, inter: Interreflection, directLx: Float64Array): Float64Array {
  const { mesh, transport } = geometry;
  const n = mesh.patchCount;
  const patch = new Float64Array(n);
  for (let e = 0; e < mesh.count; e++) {
    if (mesh.areaM2[e] === 0 || directLx[e] === 0) continue;
    const perRayLm = (inter.elementReflectance[e]! * directLx[e]! * mesh.areaM2[e]!) / RAYS_PER_ELEMENT;
    const end = (e + 1) * RAYS_PER_ELEMENT;
    for (let r = e * RAYS_PER_ELEMENT; r < end; r++) patch[mesh.patch[transport.hits[r]!]!]! += perRayLm;
  }
  for (let p = 0; p < n; p++) {
    const area = mesh.patchAreaM2[p]!;
    patch[p] = area > 0 ? (patch[p]! * inter.patchReflectance[p]!) / area : 0;
  }
  solvePatches(inter.lu, n, patch);
  const out = new Float64Array(mesh.count);
  for (let e = 0; e < mesh.count; e++) {
    const first = mesh.areaM2[e]! > 0 ? inter.elementReflectance[e]! * directLx[e]! : 0;
    out[e] = first + patch[mesh.patch[e]!]!;
  }
  return out;
}

/** Sky, ground, blinds and sun straight on every element, lx. */
function daylightOnElements(tables: LightTables, light: OutsideLight, bins: Float64Array): Float64Array {
  const { geometry, blinds } = tables.parts;
  const { mesh, cells, coupling } = geometry;
  const { openShare } = blinds;
  const shine = tables.scene.openings.map(() => 0);
  for (const g of cells.grids) shine[g.opening] = blindExitance(geometry, tables.scene, light, bins, g.opening);
  const out = new Float64Array(mesh.count);
  for (let e = 0; e < mesh.count; e++) {
    let lx = 0;
    for (let i = coupling.start[e]!; i < coupling.start[e + 1]!; i++) {
      const row = cells.rowOfCell[coupling.cell[i]!]!;
      const opening = cells.openingOfRow[row]!;
      const open = openShare[row]!;
      lx += open * coupling.weight[i]! * tables.scene.openings[opening]!.transmittance * bins[coupling.bin[i]!]!;
      if (open < 1) lx += (1 - open) * coupling.factor[i]! * shine[opening]!;
    }
    out[e] = lx;
  }
  if (light.directNormalLx <= 0) return out;
  const { sunDirection: sun, directNormalLx } = light;
  const patch = traceSun(tables.scene, geometry.sunPoints, openShare, sun, directNormalLx, geometry.sunScratch);
  for (let i = 0; i < patch.count; i++) {
    const e = patch.element[i]!;
    if (mesh.areaM2[e]! > 0) out[e]! += patch.fluxLm[i]! / mesh.areaM2[e]!;
  }
  return out;
}

/** Light leaving every element by source at full strength; lamps and doors do not change while the tables stand. */
interface Steady {
  rows: Float64Array[];
  doors: Float64Array[];
  partOf: SeenPart[];
}

const steadyOf = new WeakMap<LightTables, Steady>();

/** Flat pieces at table height count as desks: their top is what white paper lies on. Assumed: 0.6 to 1.2 m, thin. */
const DESK_FROM_M = 0.6;
const DESK_TO_M = 1.2;
const DESK_THICK_M = 0.1;

/** Whether a box is the top of a desk or table. */
export function isDeskTop(box: { minM: readonly number[]; maxM: readonly number[] }): boolean {
  const top = box.maxM[2]!;
  return top >= DESK_FROM_M && top <= DESK_TO_M && top - box.minM[2]! <= DESK_THICK_M;
}

function partsOfSurfaces(tables: LightTables): SeenPart[] {
  const { mesh } = tables.parts.geometry;
  return mesh.surfaces.map((s): SeenPart => {
    if (s.box >= 0) return isDeskTop(tables.scene.boxes[s.box]!) ? 'desks' : 'furniture';
    return s.fixedAxis === 2 && s.sign > 0 ? 'floor' : 'walls';
  });
}

function steadyFor(tables: LightTables): Steady {
  const known = steadyOf.get(tables);
  if (known) return known;
  const { geometry, inter } = tables.parts;
  const steady = {
    rows: geometry.lampElementLx.map((lx) => elementExitance(geometry, inter, lx)),
    doors: geometry.doorElementLx.map((lx) => elementExitance(geometry, inter, lx)),
    partOf: partsOfSurfaces(tables),
  };
  steadyOf.set(tables, steady);
  return steady;
}

/** What the photometer sees of the outside without any reflection: its own rays through the windows. */
const directRows = new WeakMap<SensorPart, SensorRow>();

function directRow(tables: LightTables, part: SensorPart): SensorRow {
  const known = directRows.get(part);
  if (known) return known;
  const { geometry, inter } = tables.parts;
  const c = sensorContext(geometry, tables.scene, inter);
  const row: SensorRow = {
    kernel: new Float64Array(0),
    daylight: new Float64Array(geometry.cells.rowCount * BINS),
    shining: new Float64Array(geometry.cells.rowCount),
    view: new Float64Array(geometry.mesh.count),
  };
  photometerView(c, part.sensor, part.point, row);
  directRows.set(part, row);
  return row;
}

function addView(tables: LightTables, part: SensorPart, exitance: Float64Array, level: number, out: ViewSum): void {
  const { mesh } = tables.parts.geometry;
  const { partOf } = steadyFor(tables);
  const { view } = part.row;
  for (let e = 0; e < mesh.count; e++) {
    if (view[e] === 0) continue;
    const window = tables.scene.openings[mesh.opening[e]!]?.kind === 'window';
    out[window ? 'window' : partOf[mesh.surfaceOf[e]!]!] += level * view[e]! * exitance[e]!;
  }
}

type ViewSum = Record<SeenPart, number>;

/** Light that comes to a photometer through the glass it looks at: sky, ground, blinds, and the sun itself. */
function throughWindows(tables: LightTables, part: SensorPart, light: OutsideLight, bins: Float64Array): number {
  const { geometry, blinds } = tables.parts;
  const { cells } = geometry;
  const row = directRow(tables, part);
  let lx = 0;
  for (let r = 0; r < cells.rowCount; r++) {
    const open = blinds.openShare[r]!;
    for (let b = 0; b < BINS; b++) lx += open * row.daylight[r * BINS + b]! * bins[b]!;
    if (open === 1 || row.shining[r] === 0) continue;
    lx += (1 - open) * row.shining[r]! * blindExitance(geometry, tables.scene, light, bins, cells.openingOfRow[r]!);
  }
  const sun = light.sunDirection;
  const weight = light.directNormalLx > 0 ? sensorWeighting(part.sensor)(sun[0], sun[1], sun[2]) : 0;
  if (weight <= 0) return lx;
  const through = sunAtPoint(geometry.mesh, tables.scene, cells, blinds.openShare, part.point, sun);
  return lx + light.directNormalLx * weight * through;
}

/** Light leaving every element by daylight at a moment, lm/m2, with the luminance of every bin; null in the dark. */
export interface DaylitRoom {
  light: OutsideLight;
  bins: Float64Array;
  exitance: Float64Array;
}

export function daylitRoom(tables: LightTables, moment: SkyMoment): DaylitRoom | null {
  const light = outsideLight(tables, moment);
  if (light.horizontalSkyLx < DARK_OUTSIDE_LX && light.directNormalLx === 0) return null;
  const { geometry, inter } = tables.parts;
  const bins = new Float64Array(BINS);
  fillBins(geometry, tables.scene, light, bins);
  return { light, bins, exitance: elementExitance(geometry, inter, daylightOnElements(tables, light, bins)) };
}

function daylightParts(tables: LightTables, part: SensorPart, day: DaylitRoom | null): ViewSum {
  const out = nothing();
  if (!day) return out;
  addView(tables, part, day.exitance, 1, out);
  out.window += throughWindows(tables, part, day.light, day.bins);
  return out;
}

/** Lamps of one row at full light: reflected by what is seen, and seen directly. */
function rowParts(tables: LightTables, part: SensorPart, group: number, level: number): ViewSum {
  const out = nothing();
  addView(tables, part, steadyFor(tables).rows[group]!, level, out);
  const weigh = sensorWeighting(part.sensor);
  const { mesh } = tables.parts.geometry;
  const [x, y, z] = part.point;
  for (const lamp of tables.scene.lampGroups[group]!) out.lamps += level * lampAtPoint(mesh, lamp, x, y, z, weigh, 4);
  return out;
}

function doorParts(tables: LightTables, part: SensorPart, doors: Setup['doors']): ViewSum {
  const out = nothing();
  const { geometry } = tables.parts;
  tables.doors.forEach(({ doorId }, door) => {
    if (!doors.some((d) => d.doorId === doorId && d.open)) return;
    addView(tables, part, steadyFor(tables).doors[door]!, 1, out);
    const opening = geometry.doorOpenings[door]!;
    const { exitanceLx } = tables.scene.openings[opening]!;
    for (let e = 0; e < geometry.mesh.count; e++) {
      if (geometry.mesh.opening[e] === opening) out.walls += part.row.view[e]! * exitanceLx;
    }
  });
  return out;
}

/** Light leaving every element at an instant, all sources together, lm/m2. `levels`: lamps of each row, 0-1. */
export function roomExitance(
  tables: LightTables,
  day: DaylitRoom | null,
  levels: { inner: number; window: number },
  doors: Setup['doors'],
): Float64Array {
  const { rows, doors: doorColumns } = steadyFor(tables);
  const out = day ? day.exitance.slice() : new Float64Array(tables.parts.geometry.mesh.count);
  const add = (column: Float64Array, level: number) => {
    for (let e = 0; level > 0 && e < out.length; e++) out[e]! += level * column[e]!;
  };
  add(rows[0]!, levels.inner);
  add(rows[1]!, levels.window);
  tables.doors.forEach(({ doorId }, door) => {
    if (!doors.some((d) => d.doorId === doorId && d.open)) return;
    add(doorColumns[door]!, 1);
    const { mesh, doorOpenings } = tables.parts.geometry;
    const opening = doorOpenings[door]!;
    const { exitanceLx } = tables.scene.openings[opening]!;
    for (let e = 0; e < mesh.count; e++) if (mesh.opening[e] === opening) out[e]! += exitanceLx;
  });
  return out;
}

/** Parts of the reading of photometer `which` (0 inner, 1 window) at an instant. `levels`: lamps of each row, 0-1. */
export function readingParts(
  tables: LightTables,
  days: { before: DaylitRoom | null; after: DaylitRoom | null; share: BetweenSkies['share'] },
  levels: { inner: number; window: number },
  doors: Setup['doors'],
  which: 0 | 1,
): ReadingParts {
  const part = tables.parts.sensors[which]!;
  const daylight = daylightParts(tables, part, days.before);
  if (days.share > 0) {
    const after = daylightParts(tables, part, days.after);
    for (const seen of SEEN_PARTS) daylight[seen] = lerp(daylight[seen], after[seen], days.share);
  }
  return {
    daylight,
    innerRow: rowParts(tables, part, 0, levels.inner),
    windowRow: rowParts(tables, part, 1, levels.window),
    doors: doorParts(tables, part, doors),
  };
}
