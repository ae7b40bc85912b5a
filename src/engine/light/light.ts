/** Stage 5 of the tick, and what it is fed from: sun and sky, transfer tables, readings, the picture's lux. */
import { dayOfYearUtc } from '../calendar.ts';
import { cos, lerp, sin } from '../math.ts';
import type { DetectorModel, RoomSpec, Setup, Site, SkyCondition, Tick, UprightBody } from '../types.ts';
import { degToRad, wrapDeg } from '../units.ts';
import { buildColumns, buildWindowLight, daylightPicture } from './field.ts';
import { knowsGeometry, previewParts, sceneParts } from './memory.ts';
import type { OutsideLight } from './parts.ts';
import { sensorDaylight } from './parts.ts';
import { buildPictureGrid } from './picture.ts';
import { roomScene, sceneSensors } from './roomScene.ts';
import type { LightScene } from './scene.ts';
import { photometersClear } from './shade.ts';
import { skyState } from './sky/levels.ts';
import { sunPosition } from './sky/sun.ts';
import { torchLx } from './torch.ts';
import type { LightField, LightState, LightTables, RoomLight, SkySample } from './types.ts';

/** Where and when, for sun and sky. `utcMs` is the sun's own instant. */
export interface SkyMoment {
  tick: Tick;
  utcMs: number;
  sky: SkyCondition;
  seed: number;
}

/** Below this outside illuminance, lx, a room counts as dark. Assumed: 0.05; a sensor inside would read under 0.005 lx. */
export const DARK_OUTSIDE_LX = 0.05;

/** Number of a lamp row among the scene's lamp groups. */
const INNER = 0;
const WINDOW = 1;

/** Pure function of its arguments; cached by the caller. Parts that the change left alone are reused. */
export function buildLightTables(room: RoomSpec, site: Site, setup: Setup, model: DetectorModel): LightTables {
  return tablesOf(roomScene(room, site, setup, model), site, setup.blinds);
}

/** Coarse tables in a third of the time; null where the geometry is remembered, so that the true ones are quick. */
export function previewLightTables(room: RoomSpec, site: Site, setup: Setup, model: DetectorModel): LightTables | null {
  const scene = roomScene(room, site, setup, model);
  return knowsGeometry(scene) ? null : tablesOf(scene, site, setup.blinds, previewParts);
}

/** Tables of any scene whose lamp groups are [inner, window]. */
export function tablesOf(
  scene: LightScene,
  site: Site,
  blinds: Setup['blinds'],
  partsOf: typeof sceneParts = sceneParts,
): LightTables {
  const closedShare = scene.openings.map((o) => blinds.find((b) => b.windowId === o.id)?.closedShare ?? 0);
  const parts = partsOf(scene, closedShare);
  const lamps = (group: number) => parts.sensors.map((s) => s.lampLx[group] ?? 0);
  return {
    rowLx: { inner: lamps(INNER), window: lamps(WINDOW) },
    doors: parts.geometry.doorOpenings.map((opening, door) => ({
      doorId: scene.openings[opening]!.id,
      lx: parts.sensors.map((s) => s.doorLx[door]!),
    })),
    site,
    scene,
    parts,
    picture: null,
  };
}

/** Tables after the detector was moved: only its two photometers are worked out anew. */
export function rebuildPhotometers(
  tables: LightTables,
  room: RoomSpec,
  setup: Setup,
  model: DetectorModel,
): LightTables {
  return tablesOf({ ...tables.scene, sensors: sceneSensors(room, setup.mount, model) }, tables.site, setup.blinds);
}

/** Sun and sky outside at a moment; the direction to the sun in room axes. */
export function outsideLight(tables: LightTables, moment: SkyMoment): OutsideLight {
  const { latitudeDeg, longitudeDeg } = tables.site;
  const { altitudeDeg, azimuthDeg } = sunPosition(moment.utcMs, latitudeDeg, longitudeDeg);
  const day = dayOfYearUtc(moment.utcMs);
  const sky = skyState(moment.sky, altitudeDeg, day, moment.utcMs / 1000, moment.seed);
  const altitude = degToRad(altitudeDeg);
  const bearing = degToRad(azimuthDeg - tables.scene.yBearingDeg);
  return {
    cieType: sky.cieType,
    sunAltitudeDeg: altitudeDeg,
    sunAzimuthDeg: azimuthDeg,
    horizontalSkyLx: sky.horizontalSkyLx,
    directNormalLx: sky.directNormalLx,
    sunDirection: [cos(altitude) * sin(bearing), cos(altitude) * cos(bearing), sin(altitude)],
  };
}

/** Sun, sky and the daylight of every sensor at one instant. Blinds are in the tables. */
export function sampleSky(tables: LightTables, moment: SkyMoment, _setup?: Setup): SkySample {
  const light = outsideLight(tables, moment);
  const { geometry, sensors, blinds } = tables.parts;
  const sunLx = light.directNormalLx * Math.max(0, light.sunDirection[2]);
  const dark = light.horizontalSkyLx < DARK_OUTSIDE_LX && light.directNormalLx === 0;
  return {
    tick: moment.tick,
    altitudeDeg: light.sunAltitudeDeg,
    azimuthDeg: light.sunAzimuthDeg,
    directNormalLx: light.directNormalLx,
    outsideHorizontalLx: light.horizontalSkyLx + sunLx,
    daylightLx: dark ? sensors.map(() => 0) : sensorDaylight(geometry, tables.scene, sensors, blinds, light),
  };
}

/** Share of the way from the earlier to the later sample. */
function shareAt(state: LightState, tick: Tick): number {
  const span = state.after.tick - state.before.tick;
  if (span <= 0) return 0;
  return Math.min(1, Math.max(0, (tick - state.before.tick) / span));
}

/** Sun and sky at a tick between the two samples. */
export function skyNow(state: LightState, tick: Tick): SkySample {
  const share = shareAt(state, tick);
  const { before, after } = state;
  const turnDeg = wrapDeg(after.azimuthDeg - before.azimuthDeg + 180) - 180;
  return {
    tick,
    altitudeDeg: lerp(before.altitudeDeg, after.altitudeDeg, share),
    azimuthDeg: wrapDeg(before.azimuthDeg + turnDeg * share),
    directNormalLx: lerp(before.directNormalLx, after.directNormalLx, share),
    outsideHorizontalLx: lerp(before.outsideHorizontalLx, after.outsideHorizontalLx, share),
    daylightLx: before.daylightLx.map((lx, s) => lerp(lx, after.daylightLx[s] ?? lx, share)),
  };
}

const NOBODY: readonly UprightBody[] = [];

type Readings = RoomLight['readings'];

/** What a hand holds before the photometers: a cloth shuts them, a torch adds its light. */
function beforePhotometers(readings: Readings, { scene }: LightTables, setup: Setup, tick: Tick): Readings {
  if (setup.coveredUntilTick !== undefined && tick < setup.coveredUntilTick) return { innerLx: 0, windowLx: 0 };
  const { torch } = setup;
  if (!torch || tick >= torch.untilTick) return readings;
  const clear = setup.photometerClearShare ?? 1;
  const [inner, window] = scene.sensors;
  return {
    innerLx: readings.innerLx + clear * torchLx(inner!, torch.side),
    windowLx: readings.windowLx + clear * torchLx(window!, torch.side),
  };
}

/**
 * Readings and desk lux now: interpolated daylight plus lamps at their levels (0-1) plus open doors. `bodies`: who stands
 * so high before the photometers that they count.
 */
export function lightRoom(
  tables: LightTables,
  state: LightState,
  tick: Tick,
  lamps: { inner: number; window: number },
  setup: Setup,
  bodies: readonly UprightBody[] = NOBODY,
): RoomLight {
  const share = shareAt(state, tick);
  const { inner, window } = tables.rowLx;
  const lx: number[] = [];
  for (let s = 0; s < inner.length; s++) {
    const day = lerp(state.before.daylightLx[s] ?? 0, state.after.daylightLx[s] ?? 0, share);
    lx.push(day + lamps.inner * inner[s]! + lamps.window * window[s]!);
  }
  for (const door of tables.doors) {
    if (!setup.doors.some((d) => d.doorId === door.doorId && d.open)) continue;
    for (let s = 0; s < lx.length; s++) lx[s]! += door.lx[s]!;
  }
  const clear = setup.photometerClearShare ?? 1;
  const [innerClear, windowClear] = photometersClear(tables, bodies);
  const readings = { innerLx: clear * innerClear * lx[0]!, windowLx: clear * windowClear * lx[1]! };
  return { readings: beforePhotometers(readings, tables, setup, tick), deskLx: lx.slice(2) };
}

/**
 * The whole field for the picture, at one instant. The sun's own direct patch is not in it: the view adds it with
 * `directNormalLx x glazingRatio(cos of incidence on the glass) x transmittance x frameFactor x dirtFactor x cos at the
 * surface` wherever the line to the sun passes a window, its reveal and the open part of its blind.
 */
export function lightField(tables: LightTables, moment: SkyMoment, setup: Setup): LightField {
  const { scene, parts } = tables;
  if (tables.picture === null) {
    const grid = buildPictureGrid(parts.geometry.mesh, scene);
    tables.picture = { grid, columns: buildColumns(grid, parts, scene), through: buildWindowLight(scene, parts) };
  }
  const { grid, columns, through } = tables.picture;
  const doorLx = new Float32Array(grid.cellCount);
  tables.doors.forEach(({ doorId }, door) => {
    if (!setup.doors.some((d) => d.doorId === doorId && d.open)) return;
    const lx = columns.doors[door]!;
    for (let c = 0; c < grid.cellCount; c++) doorLx[c]! += lx[c]!;
  });
  return {
    faces: grid.faces,
    daylightLx: daylightPicture(grid, scene, parts, through, outsideLight(tables, moment)),
    innerRowLx: columns.lamps[INNER]!.slice(),
    windowRowLx: columns.lamps[WINDOW]!.slice(),
    doorLx,
  };
}

/** Samples at two moments ten seconds of room time apart. */
export function createLightState(tables: LightTables, before: SkyMoment, after: SkyMoment, _setup?: Setup): LightState {
  return { before: sampleSky(tables, before), after: sampleSky(tables, after) };
}
