/** Reading a file of reference rooms; the first thing that is wrong becomes one sentence. */
export type Point = [number, number, number];
export type SurfaceName = 'floor' | 'ceiling' | 'south' | 'north' | 'west' | 'east';
export const SURFACES: readonly SurfaceName[] = ['floor', 'ceiling', 'south', 'north', 'west', 'east'];

export interface RoomOpening {
  id: string;
  surface: SurfaceName;
  min_m: Point;
  max_m: Point;
  glass: { normalTransmittance: number; insideReflectance: number } | null;
}
export interface RoomLamp {
  id: string;
  min_m: Point;
  max_m: Point;
  flux_lm: number;
}
export type RoomSource =
  | {
      id: string;
      kind: 'sky';
      skyType: number;
      horizontalIlluminance_lx: number;
      sunAltitude_deg: number;
      sunAzimuth_deg: number;
    }
  | { id: string; kind: 'sun'; directNormalIlluminance_lx: number; altitude_deg: number; azimuth_deg: number }
  | { id: string; kind: 'lamps'; lamps: RoomLamp[] };

export interface ReferenceRoom {
  id: string;
  title: string;
  size_m: Point;
  reflectance: Record<SurfaceName, number>;
  groundReflectance: number;
  openings: RoomOpening[];
  boxes: { min_m: Point; max_m: Point; reflectance: number }[];
  sources: RoomSource[];
  sensors: { id: string; position_m: Point; normal: Point }[];
  expected: Record<string, Record<string, { illuminance_lx: number; standardError_rel?: number }>>;
  tolerance: Record<string, { rel: number }>;
}

export type RoomsFile = { ok: true; rooms: ReferenceRoom[] } | { ok: false; sentence: string };

/** Thrown while checking; becomes the sentence. */
class Fault extends Error {
  readonly path: string;
  readonly expectation: string;
  constructor(path: string, expectation: string) {
    super(`${path}: expected ${expectation}.`);
    this.path = path;
    this.expectation = expectation;
  }
}

type Fields = Record<string, unknown>;

function object(value: unknown, path: string): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new Fault(path, 'an object');
  return value as Fields;
}

function list(value: unknown, path: string): unknown[] {
  if (!Array.isArray(value)) throw new Fault(path, 'a list');
  return value;
}

function text(value: unknown, path: string): string {
  if (typeof value !== 'string' || value === '') throw new Fault(path, 'a text');
  return value;
}

function number(value: unknown, path: string, low = -Infinity, high = Infinity): number {
  if (typeof value !== 'number' || !Number.isFinite(value) || value < low || value > high) {
    const range = low === -Infinity ? '' : high === Infinity ? `, ${low} or larger` : ` from ${low} to ${high}`;
    throw new Fault(path, `a number${range}`);
  }
  return value;
}

function point(value: unknown, path: string): Point {
  if (!Array.isArray(value) || value.length !== 3) throw new Fault(path, 'three numbers, m');
  value.forEach((v, i) => {
    number(v, `${path}[${i}]`);
  });
  return value as Point;
}

function rectangle(value: Fields, path: string, size: Point, flatAxis: number | null, flatM: number): void {
  const low = point(value.min_m, `${path}.min_m`);
  const high = point(value.max_m, `${path}.max_m`);
  for (let axis = 0; axis < 3; axis++) {
    if (low[axis]! < -1e-9 || high[axis]! > size[axis]! + 1e-9) throw new Fault(path, 'corners inside the room');
    if (axis === flatAxis) {
      if (Math.abs(low[axis]! - flatM) > 1e-6 || Math.abs(high[axis]! - flatM) > 1e-6) {
        throw new Fault(`${path}.min_m[${axis}]`, `${flatM} in both corners, the plane of its surface`);
      }
    } else if (high[axis]! <= low[axis]!) {
      throw new Fault(`${path}.max_m[${axis}]`, 'a number larger than that of min_m');
    }
  }
}

function checkOpening(value: unknown, path: string, size: Point): void {
  const o = object(value, path);
  text(o.id, `${path}.id`);
  const surface = o.surface as SurfaceName;
  if (!SURFACES.includes(surface)) throw new Fault(`${path}.surface`, `one of ${SURFACES.join(', ')}`);
  const axis = surface === 'west' || surface === 'east' ? 0 : surface === 'south' || surface === 'north' ? 1 : 2;
  const high = surface === 'east' || surface === 'north' || surface === 'ceiling';
  rectangle(o, path, size, axis, high ? size[axis]! : 0);
  if (o.glass === null) return;
  const glass = object(o.glass, `${path}.glass`);
  number(glass.normalTransmittance, `${path}.glass.normalTransmittance`, 0, 1);
  number(glass.insideReflectance, `${path}.glass.insideReflectance`, 0, 1);
  if (glass.refractiveIndex !== undefined) number(glass.refractiveIndex, `${path}.glass.refractiveIndex`, 1.5, 1.55);
}

function checkSource(value: unknown, path: string, size: Point): string {
  const s = object(value, path);
  const id = text(s.id, `${path}.id`);
  if (s.kind === 'sky') {
    const type = number(s.skyType, `${path}.skyType`, 1, 16);
    if (!Number.isInteger(type)) throw new Fault(`${path}.skyType`, 'a whole number from 1 to 16');
    number(s.horizontalIlluminance_lx, `${path}.horizontalIlluminance_lx`, 0);
    number(s.sunAltitude_deg, `${path}.sunAltitude_deg`, -90, 90);
    number(s.sunAzimuth_deg, `${path}.sunAzimuth_deg`);
  } else if (s.kind === 'sun') {
    number(s.directNormalIlluminance_lx, `${path}.directNormalIlluminance_lx`, 0);
    number(s.altitude_deg, `${path}.altitude_deg`, -90, 90);
    number(s.azimuth_deg, `${path}.azimuth_deg`);
  } else if (s.kind === 'lamps') {
    list(s.lamps, `${path}.lamps`).forEach((lamp, i) => {
      const at = `${path}.lamps[${i}]`;
      const l = object(lamp, at);
      number(l.flux_lm, `${at}.flux_lm`, 0);
      rectangle(l, at, size, 2, size[2]);
    });
  } else {
    throw new Fault(`${path}.kind`, 'one of sky, sun, lamps');
  }
  return id;
}

function checkSensors(value: unknown, path: string, size: Point): string[] {
  return list(value, path).map((sensor, i) => {
    const at = `${path}[${i}]`;
    const s = object(sensor, at);
    point(s.position_m, `${at}.position_m`).forEach((c, axis) => {
      if (c < 0 || c > size[axis]!) throw new Fault(`${at}.position_m[${axis}]`, 'a point inside the room');
    });
    const n = point(s.normal, `${at}.normal`);
    if (Math.abs(n[0] * n[0] + n[1] * n[1] + n[2] * n[2] - 1) > 1e-3) throw new Fault(`${at}.normal`, 'a unit vector');
    return text(s.id, `${at}.id`);
  });
}

function checkRoom(value: unknown, path: string): void {
  const room = object(value, path);
  text(room.id, `${path}.id`);
  const size = point(room.size_m, `${path}.size_m`);
  size.forEach((side, i) => {
    number(side, `${path}.size_m[${i}]`, 0.1, 100);
  });
  const reflectance = object(room.reflectance, `${path}.reflectance`);
  for (const name of SURFACES) number(reflectance[name], `${path}.reflectance.${name}`, 0, 0.99);
  number(room.groundReflectance, `${path}.groundReflectance`, 0, 1);
  list(room.openings, `${path}.openings`).forEach((o, i) => {
    checkOpening(o, `${path}.openings[${i}]`, size);
  });
  list(room.boxes, `${path}.boxes`).forEach((b, i) => {
    const box = object(b, `${path}.boxes[${i}]`);
    rectangle(box, `${path}.boxes[${i}]`, size, null, 0);
    number(box.reflectance, `${path}.boxes[${i}].reflectance`, 0, 0.99);
  });
  const sources = list(room.sources, `${path}.sources`).map((s, i) => checkSource(s, `${path}.sources[${i}]`, size));
  const sensors = checkSensors(room.sensors, `${path}.sensors`, size);
  const expected = object(room.expected, `${path}.expected`);
  const tolerance = object(room.tolerance, `${path}.tolerance`);
  for (const source of sources) {
    const limit = object(tolerance[source], `${path}.tolerance.${source}`);
    number(limit.rel, `${path}.tolerance.${source}.rel`, 0);
    const values = object(expected[source], `${path}.expected.${source}`);
    for (const sensor of sensors) {
      const at = `${path}.expected.${source}.${sensor}`;
      number(object(values[sensor], at).illuminance_lx, `${at}.illuminance_lx`, 0);
    }
  }
}

/** `name` is how the sentence calls the file. Paths are JSON paths from the top, `$`. */
export function readRooms(content: string, name: string): RoomsFile {
  try {
    const data: unknown = JSON.parse(content);
    list(data, '$').forEach((room, i) => {
      checkRoom(room, `$[${i}]`);
    });
    return { ok: true, rooms: data as ReferenceRoom[] };
  } catch (error) {
    const what = error instanceof Fault ? error.message : `$: expected JSON, but ${(error as Error).message}.`;
    return { ok: false, sentence: `${name}: ${what}` };
  }
}
