/** The parts of the light calculation of one scene, each built once and reused while its own inputs stay the same. */
import { CLOSED_BLIND_TRANSMITTANCE } from './blinds.ts';
import type { WindowCells } from './cells.ts';
import { buildCells } from './cells.ts';
import { glazingDiffuseRatio } from './glass.ts';
import { groupElementLx } from './lampLight.ts';
import type { Mesh } from './mesh.ts';
import { buildMesh } from './mesh.ts';
import type { DirectionMap, FacadeWeights } from './outside.ts';
import {
  BINS,
  buildDirectionMap,
  facadeLx,
  facadeWeights,
  faceIndex,
  fillOutside,
  openingRatio,
  SKY,
} from './outside.ts';
import type { LightScene, SceneSensor } from './scene.ts';
import type { SensorContext, SensorRow } from './sensors.ts';
import { buildSensorRow, sensorLampLx, sensorPoint, sensorWeighting } from './sensors.ts';
import { skyPatchVector } from './sky/sky.ts';
import type { Interreflection } from './solve.ts';
import { buildInterreflection } from './solve.ts';
import type { SunPoints, SunScratch } from './sunlight.ts';
import { buildSunPoints, makeSunScratch, sunAtPoint, sunHidden, sunOnFace, traceSun } from './sunlight.ts';
import type { Transport } from './transport.ts';
import { buildTransport } from './transport.ts';
import type { WindowCoupling } from './windows.ts';
import { coupleElements } from './windows.ts';

/** Depends on geometry, openings and lamps, not on reflectances, sensors or blinds. */
export interface RoomGeometry {
  mesh: Mesh;
  transport: Transport;
  cells: WindowCells;
  coupling: WindowCoupling;
  map: DirectionMap;
  facade: FacadeWeights;
  sunPoints: SunPoints[];
  /** Work space of one call; holds nothing between calls. */
  sunScratch: SunScratch;
  /** Direct light of each lamp group on elements, lx. */
  lampElementLx: Float64Array[];
  /** Door openings in scene order: their cells and what they give each element, lx. */
  doorOpenings: number[];
  doorElementLx: Float64Array[];
  doorCells: WindowCells;
}

/** One sensor, ready to read. */
export interface SensorPart {
  sensor: SceneSensor;
  point: [number, number, number];
  row: SensorRow;
  lampLx: number[];
  doorLx: number[];
}

/** Sensors after blinds: BINS numbers each, and lx per façade lux behind each blind. */
export interface BlindPart {
  /** Share of each cell row that the blind leaves open. */
  openShare: Float64Array;
  /** sensors x BINS. */
  daylight: Float64Array;
  /** sensors x openings: lx per lm/m2 leaving the covered part. */
  shining: Float64Array;
  /** Kernels of all sensors side by side: elements x sensors, lx per lumen on the element. */
  perLumen: Float64Array;
  anyClosed: boolean;
}

export function buildGeometry(scene: LightScene, refine = 1): RoomGeometry {
  const mesh = buildMesh(scene, refine);
  const transport = buildTransport(mesh);
  const cells = buildCells(scene, 'window', refine);
  const map = buildDirectionMap(scene);
  const doorCells = buildCells(scene, 'door');
  return {
    mesh,
    transport,
    cells,
    coupling: coupleElements(mesh, scene, cells, map),
    map,
    facade: facadeWeights(scene),
    sunPoints: buildSunPoints(cells),
    sunScratch: makeSunScratch(mesh),
    lampElementLx: scene.lampGroups.map((lamps) => groupElementLx(mesh, lamps)),
    doorCells,
    doorOpenings: doorCells.grids.map((g) => g.opening),
    doorElementLx: doorLight(mesh, scene, doorCells, map),
  };
}

/** Direct light of each fully open door on elements: a Lambert source in the wall. */
function doorLight(mesh: Mesh, scene: LightScene, cells: WindowCells, map: DirectionMap): Float64Array[] {
  const out = cells.grids.map(() => new Float64Array(mesh.count));
  if (out.length === 0) return out;
  const coupling = coupleElements(mesh, scene, cells, map);
  const doorOfCell = new Uint16Array(cells.cellCount);
  cells.grids.forEach((g, door) => {
    doorOfCell.fill(door, g.firstCell, g.firstCell + g.grid.nu * g.grid.nv);
  });
  for (let e = 0; e < mesh.count; e++) {
    for (let i = coupling.start[e]!; i < coupling.start[e + 1]!; i++) {
      const door = doorOfCell[coupling.cell[i]!]!;
      out[door]![e]! += coupling.factor[i]! * scene.openings[cells.grids[door]!.opening]!.exitanceLx;
    }
  }
  return out;
}

export function interreflection(geometry: RoomGeometry, scene: LightScene): Interreflection {
  return buildInterreflection(geometry.mesh, scene, geometry.transport);
}

/** What sensor rows are made from. */
export function sensorContext(geometry: RoomGeometry, scene: LightScene, inter: Interreflection): SensorContext {
  const { mesh, transport, cells, coupling, map } = geometry;
  return { mesh, scene, transport, inter, cells, coupling, map };
}

export function buildSensorPart(
  geometry: RoomGeometry,
  scene: LightScene,
  inter: Interreflection,
  sensor: SceneSensor,
): SensorPart {
  const c = sensorContext(geometry, scene, inter);
  const row = buildSensorRow(c, sensor);
  return {
    sensor,
    point: sensorPoint(sensor, scene),
    row,
    lampLx: geometry.lampElementLx.map((lx, group) => sensorLampLx(c, sensor, row, group, lx)),
    doorLx: doorSensorLx(geometry, scene, row),
  };
}

/** Open doors on a sensor: seen directly (its own view of the door's elements) plus reflected. */
function doorSensorLx(geometry: RoomGeometry, scene: LightScene, row: SensorRow): number[] {
  const { mesh } = geometry;
  return geometry.doorOpenings.map((opening, door) => {
    let lx = 0;
    for (let e = 0; e < mesh.count; e++) {
      if (mesh.opening[e] === opening) lx += row.view[e]! * scene.openings[opening]!.exitanceLx;
      lx += row.kernel[e]! * geometry.doorElementLx[door]![e]!;
    }
    return lx;
  });
}

/** `closedShare` by opening index: the part of the window's height covered from the top, 0-1. */
export function buildBlindPart(
  { cells, mesh }: Pick<RoomGeometry, 'cells' | 'mesh'>,
  sensors: SensorPart[],
  openingCount: number,
  closedShare: number[],
): BlindPart {
  const openShare = new Float64Array(cells.rowCount);
  for (let r = 0; r < cells.rowCount; r++) {
    const limit = 1 - (closedShare[cells.openingOfRow[r]!] ?? 0);
    const from = cells.rowFrom[r]!;
    const to = cells.rowTo[r]!;
    openShare[r] = Math.min(1, Math.max(0, (limit - from) / (to - from)));
  }
  const daylight = new Float64Array(sensors.length * BINS);
  const shining = new Float64Array(sensors.length * openingCount);
  sensors.forEach(({ row }, s) => {
    for (let r = 0; r < cells.rowCount; r++) {
      const open = openShare[r]!;
      for (let b = 0; b < BINS; b++) daylight[s * BINS + b]! += open * row.daylight[r * BINS + b]!;
      shining[s * openingCount + cells.openingOfRow[r]!]! += (1 - open) * row.shining[r]!;
    }
  });
  const perLumen = new Float64Array(mesh.count * sensors.length);
  for (let e = 0; e < mesh.count; e++) {
    const area = mesh.areaM2[e]!;
    if (area === 0) continue;
    for (let s = 0; s < sensors.length; s++) perLumen[e * sensors.length + s] = sensors[s]!.row.kernel[e]! / area;
  }
  return { openShare, daylight, shining, perLumen, anyClosed: openShare.some((open) => open < 1) };
}

/** Sky and sun outside at one instant, direction in room axes. */
export interface OutsideLight {
  cieType: number;
  sunAltitudeDeg: number;
  sunAzimuthDeg: number;
  horizontalSkyLx: number;
  directNormalLx: number;
  sunDirection: [number, number, number];
}

/** Glass ratio for evenly diffuse light, used for the light on closed blinds. */
const DIFFUSE_RATIO = glazingDiffuseRatio();

/** Luminance of every bin, cd/m2, into `bins` (BINS numbers). */
export function fillBins(geometry: RoomGeometry, scene: LightScene, light: OutsideLight, bins: Float64Array): void {
  bins.fill(0);
  if (light.horizontalSkyLx > 0) {
    const sky = bins.subarray(0, SKY.count);
    skyPatchVector(light.cieType, light.sunAltitudeDeg, light.sunAzimuthDeg, light.horizontalSkyLx, sky, SKY);
  }
  fillOutside(scene, geometry.facade, light.horizontalSkyLx, light.directNormalLx, light.sunDirection, bins);
}

/** Light leaving the room side of a closed blind, lm/m2. */
export function blindExitance(
  geometry: RoomGeometry,
  scene: LightScene,
  light: OutsideLight,
  bins: Float64Array,
  opening: number,
): number {
  const o = scene.openings[opening]!;
  const face = faceIndex(o);
  const diffuse = facadeLx(geometry.facade, face, bins) * (o.glazed ? DIFFUSE_RATIO : 1);
  const cosine = sunHidden(scene, light.sunDirection) ? 0 : sunOnFace(face, light.sunDirection);
  const beam = cosine > 0 ? light.directNormalLx * cosine * openingRatio(o, cosine) : 0;
  return CLOSED_BLIND_TRANSMITTANCE * o.transmittance * (diffuse + beam);
}

/** Daylight of every sensor, lx, into `out`. */
export function sensorDaylight(
  geometry: RoomGeometry,
  scene: LightScene,
  sensors: SensorPart[],
  blinds: BlindPart,
  light: OutsideLight,
): number[] {
  const bins = new Float64Array(BINS);
  fillBins(geometry, scene, light, bins);
  const out: number[] = [];
  const { daylight } = blinds;
  for (let s = 0; s < sensors.length; s++) {
    let lx = 0;
    const at = s * BINS;
    for (let b = 0; b < BINS; b++) lx += daylight[at + b]! * bins[b]!;
    out.push(lx);
  }
  if (blinds.anyClosed) {
    const openings = scene.openings.length;
    for (const g of geometry.cells.grids) {
      const exitance = blindExitance(geometry, scene, light, bins, g.opening);
      for (let s = 0; s < sensors.length; s++) out[s]! += blinds.shining[s * openings + g.opening]! * exitance;
    }
  }
  if (light.directNormalLx > 0) addSun(geometry, scene, sensors, blinds, light, out);
  return out;
}

function addSun(
  geometry: RoomGeometry,
  scene: LightScene,
  sensors: SensorPart[],
  blinds: BlindPart,
  light: OutsideLight,
  out: number[],
): void {
  const { mesh, sunPoints, cells } = geometry;
  const sun = light.sunDirection;
  const patch = traceSun(scene, sunPoints, blinds.openShare, sun, light.directNormalLx, geometry.sunScratch);
  if (patch.count === 0) return;
  const count = sensors.length;
  const sum = new Float64Array(count);
  const { perLumen } = blinds;
  for (let i = 0; i < patch.count; i++) {
    const at = patch.element[i]! * count;
    const flux = patch.fluxLm[i]!;
    for (let s = 0; s < count; s++) sum[s]! += perLumen[at + s]! * flux;
  }
  for (let s = 0; s < count; s++) out[s]! += sum[s]!;
  for (let s = 0; s < sensors.length; s++) {
    const weight = sensorWeighting(sensors[s]!.sensor)(sun[0], sun[1], sun[2]);
    if (weight <= 0) continue;
    const through = sunAtPoint(mesh, scene, cells, blinds.openShare, sensors[s]!.point, sun);
    if (through > 0) out[s]! += light.directNormalLx * weight * through;
  }
}
