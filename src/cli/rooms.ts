/** `rooms FILE`: builds whole rooms with the engine's light calculation and compares lux at points. */

import type { OutsideLight, RoomGeometry, SensorPart } from '../engine/light/parts.ts';
import {
  buildBlindPart,
  buildGeometry,
  buildSensorPart,
  interreflection,
  sensorDaylight,
} from '../engine/light/parts.ts';
import type { LightScene, SceneLamp } from '../engine/light/scene.ts';
import { cos, sin } from '../engine/math.ts';
import type { FaceId } from '../engine/types.ts';
import { degToRad } from '../engine/units.ts';
import { readText } from './files.ts';
import type { ReferenceRoom, RoomLamp, RoomSource, SurfaceName } from './roomsFile.ts';
import { readRooms } from './roomsFile.ts';

/** Compass names of the file -> faces of the engine's room, whose +y axis then points north. */
const FACE: Record<SurfaceName, FaceId> = {
  floor: 'floor',
  ceiling: 'ceiling',
  south: 'front',
  north: 'back',
  west: 'left',
  east: 'right',
};

export interface RoomResult {
  roomId: string;
  sourceId: string;
  sensorId: string;
  gotLx: number;
  expectedLx: number;
  /** Relative. */
  tolerance: number;
  pass: boolean;
}

function sceneLamp(lamp: RoomLamp): SceneLamp {
  const middle = (axis: 0 | 1 | 2) => (lamp.min_m[axis] + lamp.max_m[axis]) / 2;
  return {
    centreM: [middle(0), middle(1), middle(2)],
    sizeM: [lamp.max_m[0] - lamp.min_m[0], lamp.max_m[1] - lamp.min_m[1]],
    downLm: lamp.flux_lm,
    upLm: 0,
    distribution: 'lambert',
  };
}

export function referenceScene(room: ReferenceRoom): LightScene {
  const reflectance = {} as Record<FaceId, number>;
  for (const [name, value] of Object.entries(room.reflectance)) reflectance[FACE[name as SurfaceName]] = value;
  return {
    sizeM: room.size_m,
    reflectance,
    openings: room.openings.map((o) => ({
      id: o.id,
      face: FACE[o.surface],
      minM: o.min_m,
      maxM: o.max_m,
      kind: 'window',
      transmittance: o.glass?.normalTransmittance ?? 1,
      glazed: o.glass !== null,
      insideReflectance: o.glass?.insideReflectance ?? 0,
      revealM: 0,
      exitanceLx: 0,
    })),
    boxes: room.boxes.map((b) => ({
      minM: b.min_m,
      maxM: b.max_m,
      reflectance: b.reflectance,
      furnitureId: null,
    })),
    lampGroups: room.sources.map((s) => (s.kind === 'lamps' ? s.lamps.map(sceneLamp) : [])),
    sensors: room.sensors.map((s) => ({
      id: s.id,
      positionM: s.position_m,
      normal: s.normal,
      halfAngleDeg: null,
    })),
    yBearingDeg: 0,
    groundReflectance: room.groundReflectance,
    obstructionAltitudeDeg: 0,
    obstructionReflectance: 0,
  };
}

export function outsideLight(source: Exclude<RoomSource, { kind: 'lamps' }>): OutsideLight {
  const sky = source.kind === 'sky';
  const altitudeDeg = sky ? source.sunAltitude_deg : source.altitude_deg;
  const azimuthDeg = sky ? source.sunAzimuth_deg : source.azimuth_deg;
  const altitude = degToRad(altitudeDeg);
  const azimuth = degToRad(azimuthDeg);
  return {
    cieType: sky ? source.skyType : 1,
    sunAltitudeDeg: altitudeDeg,
    sunAzimuthDeg: azimuthDeg,
    horizontalSkyLx: sky ? source.horizontalIlluminance_lx : 0,
    directNormalLx: sky ? 0 : source.directNormalIlluminance_lx,
    sunDirection: [cos(altitude) * sin(azimuth), cos(altitude) * cos(azimuth), sin(altitude)],
  };
}

function sourceLx(
  source: RoomSource,
  index: number,
  geometry: RoomGeometry,
  scene: LightScene,
  sensors: SensorPart[],
): number[] {
  if (source.kind === 'lamps') return sensors.map((s) => s.lampLx[index]!);
  const open = buildBlindPart(geometry, sensors, scene.openings.length, []);
  return sensorDaylight(geometry, scene, sensors, open, outsideLight(source));
}

/** Lux of every source at every sensor of one room, each source alone. */
export function evaluateRoom(room: ReferenceRoom, refine = 1): RoomResult[] {
  const scene = referenceScene(room);
  const geometry = buildGeometry(scene, refine);
  const inter = interreflection(geometry, scene);
  const sensors = scene.sensors.map((s) => buildSensorPart(geometry, scene, inter, s));
  return room.sources.flatMap((source, index) => {
    const lx = sourceLx(source, index, geometry, scene, sensors);
    return room.sensors.map((sensor, s) => {
      const gotLx = lx[s]!;
      const expectedLx = room.expected[source.id]![sensor.id]!.illuminance_lx;
      const tolerance = room.tolerance[source.id]!.rel;
      const pass = Math.abs(gotLx - expectedLx) <= tolerance * expectedLx;
      return { roomId: room.id, sourceId: source.id, sensorId: sensor.id, gotLx, expectedLx, tolerance, pass };
    });
  });
}

function line(r: RoomResult): string {
  const off = r.expectedLx > 0 ? `${(((r.gotLx - r.expectedLx) / r.expectedLx) * 100).toFixed(1)} %` : 'of nothing';
  const verdict = r.pass ? 'ok' : 'FAILED';
  const got = r.gotLx.toFixed(2).padStart(10);
  const expected = r.expectedLx.toFixed(2).padStart(10);
  const where = `${r.roomId} ${r.sourceId} ${r.sensorId}`.padEnd(52);
  return `${where} ${got} lx, expected ${expected} lx (${off}, allowed ${(r.tolerance * 100).toFixed(1)} %) ${verdict}`;
}

/** Prints every comparison; 0 when all pass, 1 when one failed or the file is bad. */
export function rooms(args: string[]): number {
  const [path, ...rest] = args;
  if (path === undefined || rest.length > 0) {
    console.error('rooms: expected one file of rooms: npm run sim -- rooms FILE');
    return 1;
  }
  const file = readText(path);
  const parsed = file.ok ? readRooms(file.text, path) : file;
  if (!parsed.ok) {
    console.error(parsed.sentence);
    return 1;
  }
  const results = parsed.rooms.flatMap((room) => evaluateRoom(room));
  for (const result of results) console.log(line(result));
  const failed = results.filter((r) => !r.pass).length;
  console.log(`${results.length - failed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}
