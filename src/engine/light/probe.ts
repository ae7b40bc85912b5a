/**
 * A lux meter anywhere in the room: the same sensor rows as the desk points have, made when first asked for. Reads
 * tables and state; writes neither, so measuring never changes a run.
 */
import { lerp } from '../math.ts';
import type { Setup } from '../types.ts';
import { DARK_OUTSIDE_LX, outsideLight, type SkyMoment } from './light.ts';
import { isCovered } from './mesh.ts';
import type { BlindPart, RoomGeometry, SensorPart } from './parts.ts';
import { buildBlindPart, buildSensorPart, sensorDaylight } from './parts.ts';
import type { ProbePlace, ProbeReading } from './probePlace.ts';
import type { Interreflection } from './solve.ts';
import { sunAtPoint } from './sunlight.ts';
import type { LightTables } from './types.ts';

/** An instant between two moments of sun and sky (`share` of the way, 0-1), as the desk points have it. */
export interface BetweenSkies {
  before: SkyMoment;
  after: SkyMoment;
  share: number;
}

/** Rows kept for each room. Assumed: 24 of about 0.3 MB; fewer would redo rows while a hand goes to and fro. */
const KEPT = 24;

/** Rows depend on geometry and reflectances: they go with them. Blinds are worked in for each set of tables. */
const rowsOf = new WeakMap<Interreflection, Map<string, SensorPart>>();

interface Worked {
  key: string;
  sensors: SensorPart[];
  blinds: BlindPart;
  /** Daylight and direct sun by moment, so that a standing clock costs nothing. */
  days: Map<string, { daylightLx: number[]; sunLx: number[] }>;
}

const workedOf = new WeakMap<LightTables, Worked>();

function rowFor(tables: LightTables, place: ProbePlace): SensorPart {
  const { geometry, inter } = tables.parts;
  let rows = rowsOf.get(inter);
  if (!rows) {
    rows = new Map();
    rowsOf.set(inter, rows);
  }
  const key = JSON.stringify([place.positionM, place.normal]);
  const known = rows.get(key);
  const sensor = { id: 'probe', positionM: place.positionM, normal: place.normal, halfAngleDeg: null };
  const row = known ?? buildSensorPart(geometry, tables.scene, inter, sensor);
  rows.delete(key);
  rows.set(key, row);
  const oldest = rows.keys().next();
  if (rows.size > KEPT && !oldest.done) rows.delete(oldest.value);
  return row;
}

/** Share of each opening that its blind covers from the top, 0-1. */
export function closedShares(tables: LightTables, blinds: Setup['blinds']): number[] {
  return tables.scene.openings.map((o) => blinds.find((b) => b.windowId === o.id)?.closedShare ?? 0);
}

function workedFor(tables: LightTables, blinds: Setup['blinds'], places: readonly ProbePlace[]): Worked {
  const key = JSON.stringify(places.map((p) => [p.positionM, p.normal]));
  const known = workedOf.get(tables);
  if (known?.key === key) return known;
  const sensors = places.map((place) => rowFor(tables, place));
  const openings = tables.scene.openings.length;
  const part = buildBlindPart(tables.parts.geometry, sensors, openings, closedShares(tables, blinds));
  const worked = { key, sensors, blinds: part, days: new Map() };
  workedOf.set(tables, worked);
  return worked;
}

function directSunLx(geometry: RoomGeometry, tables: LightTables, worked: Worked, moment: SkyMoment): number[] {
  const light = outsideLight(tables, moment);
  const sun = light.sunDirection;
  return worked.sensors.map(({ sensor, point }) => {
    const cosine = sun[0] * sensor.normal[0] + sun[1] * sensor.normal[1] + sun[2] * sensor.normal[2];
    if (light.directNormalLx <= 0 || cosine <= 0) return 0;
    const { openShare } = worked.blinds;
    const through = sunAtPoint(geometry.mesh, tables.scene, geometry.cells, openShare, point, sun);
    return light.directNormalLx * cosine * through;
  });
}

/** Moments remembered for one set of places. Assumed: the two that an instant lies between, and the two next ones. */
const MOMENTS = 4;

function dayOf(tables: LightTables, worked: Worked, moment: SkyMoment): { daylightLx: number[]; sunLx: number[] } {
  const key = JSON.stringify([moment.utcMs, moment.sky, moment.seed]);
  const known = worked.days.get(key);
  if (known) return known;
  const { geometry } = tables.parts;
  const light = outsideLight(tables, moment);
  const dark = light.horizontalSkyLx < DARK_OUTSIDE_LX && light.directNormalLx === 0;
  const day = {
    daylightLx: dark
      ? worked.sensors.map(() => 0)
      : sensorDaylight(geometry, tables.scene, worked.sensors, worked.blinds, light),
    sunLx: directSunLx(geometry, tables, worked, moment),
  };
  worked.days.set(key, day);
  const oldest = worked.days.keys().next();
  if (worked.days.size > MOMENTS && !oldest.done) worked.days.delete(oldest.value);
  return day;
}

/** Lux at every place at an instant, as the desk points have it. `levels`: lamps of each row, 0-1. */
export function probeLight(
  tables: LightTables,
  between: BetweenSkies,
  levels: { inner: number; window: number },
  setup: Pick<Setup, 'blinds' | 'doors'>,
  places: readonly ProbePlace[],
): ProbeReading[] {
  const worked = workedFor(tables, setup.blinds, places);
  const before = dayOf(tables, worked, between.before);
  const after = between.share > 0 ? dayOf(tables, worked, between.after) : before;
  return places.map(({ id }, k) => {
    const { lampLx, doorLx, point } = worked.sensors[k]!;
    if (isCovered(tables.parts.geometry.mesh, point[0], point[1], point[2])) {
      return { id, daylightLx: 0, sunLx: 0, innerRowLx: 0, windowRowLx: 0, doorLx: 0, covered: true };
    }
    let throughDoors = 0;
    tables.doors.forEach(({ doorId }, door) => {
      if (setup.doors.some((d) => d.doorId === doorId && d.open)) throughDoors += doorLx[door]!;
    });
    return {
      id,
      daylightLx: lerp(before.daylightLx[k]!, after.daylightLx[k]!, between.share),
      sunLx: lerp(before.sunLx[k]!, after.sunLx[k]!, between.share),
      innerRowLx: levels.inner * lampLx[0]!,
      windowRowLx: levels.window * lampLx[1]!,
      doorLx: throughDoors,
      covered: false,
    };
  });
}
