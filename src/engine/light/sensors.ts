/**
 * A sensor's row: how much it reads per lux of direct light on every element (all bounces inside), per cd/m2 of every
 * outside bin through every row of window cells, and per lm/m2 of every shining cell row.
 */
import { cos, PI } from '../math.ts';
import { degToRad } from '../units.ts';
import type { WindowCells } from './cells.ts';
import { fineGrid, gridInFront } from './cells.ts';
import { coneOf, coneRay } from './coneRays.ts';
import type { Weighting } from './lampLight.ts';
import { lampAtPoint } from './lampLight.ts';
import type { Mesh } from './mesh.ts';
import type { DirectionMap } from './outside.ts';
import { BINS, openingRatio, outsideBin, REVEAL_BIN } from './outside.ts';
import { gridFactors } from './polygon.ts';
import type { LightScene, SceneSensor } from './scene.ts';
import type { Interreflection } from './solve.ts';
import { solveAdjoint } from './solve.ts';
import { hit, isBlocked, traceElement } from './trace.ts';
import type { Transport } from './transport.ts';
import { RAYS_PER_ELEMENT } from './transport.ts';
import type { WindowCoupling } from './windows.ts';
import { lookThroughCell, seen } from './windows.ts';

/** Rays of a directional photometer. Assumed: 8192; a quarter of it changes readings by 0.3 %. */
const PHOTOMETER_RAYS = 8192;
/** Window cells are split this often along each side for sensors. Assumed: 2, cells of 0.075 x 0.15 m. */
const SENSOR_SPLIT = 2;
/** A sensor on a surface sits this far above it, m. Assumed: a millimetre, thinner than any real meter. */
const LIFT_M = 1e-3;

export interface SensorRow {
  /** lx per lx of direct light on each element. */
  kernel: Float64Array;
  /** rowCount x BINS, lx per cd/m2, transmittance included. */
  daylight: Float64Array;
  /** rowCount, lx per lm/m2 leaving the room side of the cells (closed blind). */
  shining: Float64Array;
  /** The sensor's own view of elements, its sum 1. */
  view: Float64Array;
}

export interface SensorContext {
  mesh: Mesh;
  scene: LightScene;
  transport: Transport;
  inter: Interreflection;
  cells: WindowCells;
  coupling: WindowCoupling;
  map: DirectionMap;
}

/** Where a sensor's receiver is: lifted off the surface it lies on, kept inside the room; metres. */
export function sensorPoint(sensor: SceneSensor, scene: LightScene): [number, number, number] {
  const at = (axis: 0 | 1 | 2) =>
    Math.min(scene.sizeM[axis] - 1e-6, Math.max(1e-6, sensor.positionM[axis] + sensor.normal[axis] * LIFT_M));
  return [at(0), at(1), at(2)];
}

/**
 * Weight of light by direction. A photometer: cosine to its axis inside the cone, nothing outside, scaled so that a
 * uniform field of luminance L reads pi L (so that its reading is lux-like).
 */
export function sensorWeighting(sensor: SceneSensor): Weighting {
  const [nx, ny, nz] = sensor.normal;
  if (sensor.halfAngleDeg === null) return (x, y, z) => x * nx + y * ny + z * nz;
  const cosLimit = cos(degToRad(sensor.halfAngleDeg));
  // Integral of the cosine over a cone of half-angle h is pi sin^2 h.
  const scale = 1 / (1 - cosLimit * cosLimit);
  return (x, y, z) => {
    const c = x * nx + y * ny + z * nz;
    return c >= cosLimit ? c * scale : 0;
  };
}

function visibleShare(mesh: Mesh, s: Mesh['surfaces'][number], i: number, j: number, p: number[]): number {
  let seen = 0;
  const q = [0, 0, 0];
  q[s.fixedAxis] = s.fixedM;
  for (let k = 0; k < 4; k++) {
    q[s.uAxis] = s.us[i]! + (s.us[i + 1]! - s.us[i]!) * ((k & 1) === 0 ? 0.25 : 0.75);
    q[s.vAxis] = s.vs[j]! + (s.vs[j + 1]! - s.vs[j]!) * (k < 2 ? 0.25 : 0.75);
    if (!isBlocked(mesh, p[0]!, p[1]!, p[2]!, q[0]!, q[1]!, q[2]!)) seen += 0.25;
  }
  return seen;
}

/** View of a cosine sensor: exact factors of elements times visibility, scaled to sum 1; all 0 when it sees nothing. */
function cosineView(mesh: Mesh, p: [number, number, number], n: readonly number[], out: Float64Array): void {
  const largest = mesh.surfaces.reduce((most, s) => Math.max(most, s.nu * s.nv), 1);
  const factors = new Float64Array(largest);
  let sum = 0;
  for (const s of mesh.surfaces) {
    const above = (p[s.fixedAxis]! - s.fixedM) * s.sign;
    if (above <= 1e-7 || !gridInFront(s, p[0], p[1], p[2], n[0]!, n[1]!, n[2]!)) continue;
    gridFactors(s, p[0], p[1], p[2], n[0]!, n[1]!, n[2]!, factors);
    for (let j = 0; j < s.nv; j++) {
      for (let i = 0; i < s.nu; i++) {
        const e = s.first + j * s.nu + i;
        const f = factors[j * s.nu + i]! * mesh.openShare[e]!;
        if (f < 1e-9) continue;
        const seen = f * (mesh.boxCount > 0 ? visibleShare(mesh, s, i, j, p) : 1);
        out[e] = seen;
        sum += seen;
      }
    }
  }
  for (let e = 0; sum > 0 && e < mesh.count; e++) out[e]! /= sum;
}

/** Direct daylight of a cosine sensor, from finer cells; a cell across its horizon is shared out by height. */
function cosineDaylight(c: SensorContext, p: [number, number, number], n: readonly number[], row: SensorRow): void {
  for (const g of c.cells.grids) {
    const grid = fineGrid(g.grid, SENSOR_SPLIT);
    const opening = c.scene.openings[g.opening]!;
    if (!gridInFront(grid, p[0], p[1], p[2], n[0]!, n[1]!, n[2]!)) continue;
    if (Math.abs(p[grid.fixedAxis]! - grid.fixedM) < 1e-7) continue;
    const factors = new Float64Array(grid.nu * grid.nv);
    gridFactors(grid, p[0], p[1], p[2], n[0]!, n[1]!, n[2]!, factors);
    const q = [0, 0, 0];
    q[grid.fixedAxis] = grid.fixedM;
    for (let j = 0; j < grid.nv; j++) {
      const into = g.firstRow + Math.floor(j / SENSOR_SPLIT);
      for (let i = 0; i < grid.nu; i++) {
        const f = factors[j * grid.nu + i]!;
        if (f < 1e-10) continue;
        q[grid.uAxis] = (grid.us[i]! + grid.us[i + 1]!) / 2;
        q[grid.vAxis] = (grid.vs[j]! + grid.vs[j + 1]!) / 2;
        if (isBlocked(c.mesh, p[0], p[1], p[2], q[0]!, q[1]!, q[2]!)) continue;
        row.shining[into]! += f;
        lookThroughCell(c.map, opening, g.face, grid, i, j, p[0], p[1], p[2]);
        for (let k = 0; k < seen.count; k++) {
          const weight = PI * f * seen.share[k]! * seen.ratio[k]! * opening.transmittance;
          row.daylight[into * BINS + seen.bin[k]!]! += weight;
        }
      }
    }
  }
}

/** Scratch: one direction. */
const ray = new Float64Array(3);

/** View and direct daylight of a photometer, by rays drawn in proportion to its weighting. */
export function photometerView(
  c: SensorContext,
  sensor: SceneSensor,
  p: [number, number, number],
  row: SensorRow,
): void {
  const cone = coneOf(sensor.normal, sensor.halfAngleDeg!);
  for (let r = 0; r < PHOTOMETER_RAYS; r++) {
    coneRay(cone, r, ray);
    const x = ray[0]!;
    const y = ray[1]!;
    const z = ray[2]!;
    const e = traceElement(c.mesh, p[0], p[1], p[2], x, y, z);
    row.view[e]! += 1 / PHOTOMETER_RAYS;
    const index = c.mesh.opening[e]!;
    const opening = c.scene.openings[index];
    if (opening && opening.kind === 'window') windowRay(c, index, x, y, z, PI / PHOTOMETER_RAYS, row);
  }
}

/** Adds a ray that left through a window at `hit`, weighing `weight` (lx per cd/m2 without glass). */
function windowRay(
  c: SensorContext,
  index: number,
  x: number,
  y: number,
  z: number,
  weight: number,
  row: SensorRow,
): void {
  const g = c.cells.grids.find((grid) => grid.opening === index)!;
  const opening = c.scene.openings[index]!;
  const { fixedAxis, uAxis, vAxis, us, vs, nu, nv } = g.grid;
  const direction = [x, y, z];
  const at = [hit.x, hit.y, hit.z];
  const depth = Math.abs(direction[fixedAxis]!);
  const u = at[uAxis]!;
  const v = at[vAxis]!;
  const share = (v - vs[0]!) / (vs[nv]! - vs[0]!);
  const into = g.firstRow + Math.min(nv - 1, Math.max(0, Math.floor(share * nv)));
  const uOut = u + (direction[uAxis]! * opening.revealM) / depth;
  const vOut = v + (direction[vAxis]! * opening.revealM) / depth;
  const inReveal = uOut < us[0]! || uOut > us[nu]! || vOut < vs[0]! || vOut > vs[nv]!;
  const bin = opening.revealM > 0 && inReveal ? REVEAL_BIN + g.face : outsideBin(c.map, g.face, x, y, z);
  row.daylight[into * BINS + bin]! += weight * openingRatio(opening, depth) * opening.transmittance;
  row.shining[into]! += weight / PI;
}

/** Response to direct light on each element: seen directly, and through all further bounces. */
function fillKernel(c: SensorContext, row: SensorRow): void {
  const { mesh, inter, transport } = c;
  const n = mesh.patchCount;
  const value = new Float64Array(n);
  for (let e = 0; e < mesh.count; e++) value[mesh.patch[e]!]! += row.view[e]!;
  solveAdjoint(inter.lu, n, value);
  // Worth of a lux on a patch, per m2.
  for (let p = 0; p < n; p++) {
    const area = mesh.patchAreaM2[p]!;
    value[p] = area > 0 ? (value[p]! * inter.patchReflectance[p]!) / area : 0;
  }
  const worth = new Float64Array(mesh.count);
  for (let e = 0; e < mesh.count; e++) worth[e] = value[mesh.patch[e]!]!;
  const { hits } = transport;
  for (let e = 0; e < mesh.count; e++) {
    if (mesh.areaM2[e]! === 0) continue;
    let sum = 0;
    const end = (e + 1) * RAYS_PER_ELEMENT;
    for (let r = e * RAYS_PER_ELEMENT; r < end; r++) sum += worth[hits[r]!]!;
    row.kernel[e] = inter.elementReflectance[e]! * (row.view[e]! + (mesh.areaM2[e]! * sum) / RAYS_PER_ELEMENT);
  }
}

/** Light that comes through the windows, falls on elements and is reflected to the sensor. */
function addReflectedDaylight(c: SensorContext, row: SensorRow): void {
  const { start, cell, bin, weight, factor } = c.coupling;
  for (let e = 0; e < c.mesh.count; e++) {
    const k = row.kernel[e]!;
    if (k === 0) continue;
    for (let i = start[e]!; i < start[e + 1]!; i++) {
      const into = c.cells.rowOfCell[cell[i]!]!;
      const transmittance = c.scene.openings[c.cells.openingOfRow[into]!]!.transmittance;
      row.daylight[into * BINS + bin[i]!]! += k * weight[i]! * transmittance;
      row.shining[into]! += k * factor[i]!;
    }
  }
}

/** `sensor` anywhere in the room; a point on a face counts as just inside it. */
export function buildSensorRow(c: SensorContext, sensor: SceneSensor): SensorRow {
  const row: SensorRow = {
    kernel: new Float64Array(c.mesh.count),
    daylight: new Float64Array(c.cells.rowCount * BINS),
    shining: new Float64Array(c.cells.rowCount),
    view: new Float64Array(c.mesh.count),
  };
  const p = sensorPoint(sensor, c.scene);
  if (sensor.halfAngleDeg === null) {
    cosineView(c.mesh, p, sensor.normal, row.view);
    cosineDaylight(c, p, sensor.normal, row);
  } else {
    photometerView(c, sensor, p, row);
  }
  fillKernel(c, row);
  addReflectedDaylight(c, row);
  return row;
}

/** Full light of a lamp group on a sensor, lx. */
export function sensorLampLx(
  c: SensorContext,
  sensor: SceneSensor,
  row: SensorRow,
  group: number,
  elementLx: Float64Array,
): number {
  const p = sensorPoint(sensor, c.scene);
  const weigh = sensorWeighting(sensor);
  let lx = 0;
  for (const lamp of c.scene.lampGroups[group]!) lx += lampAtPoint(c.mesh, lamp, p[0], p[1], p[2], weigh, 4);
  for (let e = 0; e < c.mesh.count; e++) lx += row.kernel[e]! * elementLx[e]!;
  return lx;
}
