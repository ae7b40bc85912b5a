/**
 * A body as rays from the detector meet it: which part, what stands before it. An instrument for questions about one
 * instant; sensing weighs bodies by spans of rows (raster.ts), a different method for the same silhouettes.
 */

import { hypot3 } from '../math.ts';
import { type BodyBuffer, NUMBERS_PER_PART, PARTS_PER_BODY, type Vector3 } from '../types.ts';
import { HIDDEN_BY_M } from './lookup.ts';
import { bakedDepthM } from './scene.ts';
import type { MovementTables } from './types.ts';

/** Rays across the sphere around a body, each way. Assumed: 64 put a walker's solid angle within 1 %; half as many, 2 %. */
export const RAYS = 64;
/** The widest half angle that is looked at, as a tangent. Assumed: 76 degrees; who stands closer fills the view anyhow. */
const WIDEST = 4;

export interface BodyRay {
  /** Unit directions: as the room and as the detector measure. */
  room: Vector3;
  lens: Vector3;
  solidSr: number;
  /** Index into PART_KINDS of what it meets first of the body. */
  kind: number;
  /** Distance of that part's middle, m: what sensing compares with the furniture. */
  distanceM: number;
  /** Another body is met before. */
  behindBody: boolean;
  /** Furniture or the shell of the room is. */
  behindThing: boolean;
}

/** An ellipsoid ready for rays: |M (t d - c)| = 1 with the rows of M its semi-axes over their squared lengths. */
interface Solid {
  rows: number[];
  /** M c, and |M c|2 - 1. */
  pushed: number[];
  beyond: number;
  kind: number;
  distanceM: number;
}

function solidsOf(buffer: BodyBuffer, body: number, eyeM: Vector3): Solid[] {
  const solids: Solid[] = [];
  const { parts, partKind } = buffer;
  for (let p = body * PARTS_PER_BODY; p < (body + 1) * PARTS_PER_BODY; p++) {
    const k = p * NUMBERS_PER_PART;
    const c = [parts[k]! - eyeM[0], parts[k + 1]! - eyeM[1], parts[k + 2]! - eyeM[2]];
    const rows: number[] = [];
    const pushed: number[] = [];
    for (let a = k + 3; a < k + NUMBERS_PER_PART; a += 3) {
      const square = parts[a]! ** 2 + parts[a + 1]! ** 2 + parts[a + 2]! ** 2;
      if (square === 0) break;
      const row = [parts[a]! / square, parts[a + 1]! / square, parts[a + 2]! / square];
      rows.push(...row);
      pushed.push(row[0]! * c[0]! + row[1]! * c[1]! + row[2]! * c[2]!);
    }
    if (pushed.length < 3) continue;
    const beyond = pushed[0]! ** 2 + pushed[1]! ** 2 + pushed[2]! ** 2 - 1;
    solids.push({ rows, pushed, beyond, kind: partKind[p]!, distanceM: hypot3(c[0]!, c[1]!, c[2]!) });
  }
  return solids;
}

/** Distance at which a ray enters, m; infinite: it does not. */
function entryM({ rows, pushed, beyond }: Solid, [x, y, z]: Vector3): number {
  let a = 0;
  let b = 0;
  for (let k = 0; k < 3; k++) {
    const m = rows[3 * k]! * x + rows[3 * k + 1]! * y + rows[3 * k + 2]! * z;
    a += m * m;
    b += m * pushed[k]!;
  }
  const under = b * b - a * beyond;
  if (under <= 0 || b <= 0) return Number.POSITIVE_INFINITY;
  return (b - Math.sqrt(under)) / a;
}

/** Rays that meet the body. `sphereM`: centre and radius of a sphere around it; `hiders`: other bodies of the buffer. */
export function raysOfBody(
  tables: MovementTables,
  buffer: BodyBuffer,
  body: number,
  sphereM: ArrayLike<number>,
  hiders: readonly number[],
): BodyRay[] {
  const { eyeM } = tables.surroundings;
  const own = solidsOf(buffer, body, eyeM);
  const others = hiders.flatMap((hider) => solidsOf(buffer, hider, eyeM));
  const to = [sphereM[0]! - eyeM[0], sphereM[1]! - eyeM[1], sphereM[2]! - eyeM[2]];
  const farM = hypot3(to[0]!, to[1]!, to[2]!);
  const radiusM = sphereM[3]!;
  const away = to.map((n) => n / farM);
  const level = Math.sqrt(away[0]! ** 2 + away[1]! ** 2);
  const across = level > 1e-9 ? [away[1]! / level, -away[0]! / level, 0] : [1, 0, 0];
  const up = [
    across[1]! * away[2]! - across[2]! * away[1]!,
    across[2]! * away[0]! - across[0]! * away[2]!,
    across[0]! * away[1]! - across[1]! * away[0]!,
  ];
  const reach = farM > radiusM ? Math.min(WIDEST, radiusM / Math.sqrt(farM * farM - radiusM * radiusM)) : WIDEST;
  const cell = (2 * reach) / RAYS;
  const rays: BodyRay[] = [];
  for (let j = 0; j < RAYS; j++) {
    for (let i = 0; i < RAYS; i++) {
      const x = -reach + (i + 0.5) * cell;
      const y = -reach + (j + 0.5) * cell;
      const ray = castRay(tables, own, others, across, up, away, x, y, cell);
      if (ray) rays.push(ray);
    }
  }
  return rays;
}

function castRay(
  tables: MovementTables,
  own: readonly Solid[],
  others: readonly Solid[],
  across: readonly number[],
  up: readonly number[],
  away: readonly number[],
  x: number,
  y: number,
  cell: number,
): BodyRay | null {
  const length = Math.sqrt(1 + x * x + y * y);
  const room = [0, 1, 2].map((k) => (away[k]! + x * across[k]! + y * up[k]!) / length) as unknown as Vector3;
  let met: Solid | null = null;
  let nearestM = Number.POSITIVE_INFINITY;
  for (const solid of own) {
    const m = entryM(solid, room);
    if (m >= nearestM) continue;
    nearestM = m;
    met = solid;
  }
  if (!met) return null;
  const { turnSin, turnCos, scene } = tables;
  const lens: Vector3 = [room[0] * turnCos - room[1] * turnSin, room[0] * turnSin + room[1] * turnCos, room[2]];
  return {
    room,
    lens,
    solidSr: (cell * cell) / (length * length * length),
    kind: met.kind,
    distanceM: met.distanceM,
    behindBody: others.some((other) => entryM(other, room) < nearestM),
    behindThing: lens[2] < 0 && bakedDepthM(scene, lens) < met.distanceM - HIDDEN_BY_M,
  };
}

/** Bodies of the buffer other than one. */
export function othersOf(buffer: BodyBuffer, body: number): number[] {
  return Array.from({ length: buffer.count }, (_, b) => b).filter((b) => b !== body);
}
