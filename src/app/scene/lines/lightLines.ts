/** All lines of the Light Map on floor and desk tops. Pure: field, levels and sun in, lines out. */
import type { FieldFace, LightField } from '../../../engine/light/types.ts';
import type { FurnitureSpec, PointM, Vector3 } from '../../../engine/types.ts';
import { drawnRound } from '../model/furniture.ts';
import { contoursAt } from './contour.ts';
import { smoothLattice, totalLux } from './lattice.ts';

/** Lux that have a line. Values: `look`. */
export const LEVELS_LX: readonly number[] = [100, 200, 300, 500, 1000];

export interface LightLine {
  /** What a meter reads along it, lx. */
  lux: number;
  /** How much of that the sun itself throws there, lx; 0 for lines outside its patches. */
  sunLx: number;
  /** Room metres, at the height of the surface; a closed line ends where it begins. */
  points: Vector3[];
  /** Number of the furniture whose top carries it; -1 the floor. */
  own: number;
}

export interface LineInput {
  lamps: { inner: number; window: number };
  /** Line of its own, lx; null where nothing is set. */
  setpointLx: number | null;
  /** Lux that the sun throws on level surfaces where it enters, one number for each kind of glass. */
  sunLx: readonly number[];
  furniture: readonly FurnitureSpec[];
}

/** Rings shorter than this are left out, m. Assumed: smaller than what casts shadows in a room, so noise. */
const LEAST_RING_M = 0.6;

/** Length seen from above, m. */
export function lengthM(points: readonly Vector3[]): number {
  let sum = 0;
  for (let k = 1; k < points.length; k++)
    sum += Math.hypot(points[k]![0] - points[k - 1]![0], points[k]![1] - points[k - 1]![1]);
  return sum;
}

function closed(points: readonly Vector3[]): boolean {
  const [first, last] = [points[0]!, points.at(-1)!];
  return Math.hypot(first[0] - last[0], first[1] - last[1]) < 1e-6;
}

/** The pieces of a line within a circle; they end on it. */
export function withinCircle(points: readonly Vector3[], centreM: PointM, radiusM: number): Vector3[][] {
  const away = (p: Vector3) => Math.hypot(p[0] - centreM[0], p[1] - centreM[1]);
  const parts: Vector3[][] = [];
  let part: Vector3[] = [];
  points.forEach((p, k) => {
    const before = points[k - 1];
    const inside = away(p) <= radiusM;
    if (before && inside !== away(before) <= radiusM) {
      const share = (radiusM - away(before)) / (away(p) - away(before));
      part.push([before[0] + (p[0] - before[0]) * share, before[1] + (p[1] - before[1]) * share, p[2]]);
      if (!inside) {
        parts.push(part);
        part = [];
      }
    }
    if (inside) part.push(p);
  });
  if (part.length > 1) parts.push(part);
  return parts;
}

/** The piece of furniture whose top this face is; null for the floor; undefined where the map colours nothing. */
function carrierOf(face: FieldFace, furniture: readonly FurnitureSpec[]): FurnitureSpec | null | undefined {
  if (face.kind === 'floor') return null;
  if (face.kind !== 'furniture' || face.normal[2] < 0.9) return undefined;
  return furniture.find((f) => f.id === face.furnitureId && (f.kind === 'desk' || f.kind === 'table'));
}

/** Lines of one surface. */
function linesOf(field: LightField, face: FieldFace, carrier: FurnitureSpec | null, input: LineInput): LightLine[] {
  const lattice = smoothLattice(face, totalLux(field, face, input.lamps));
  const own = carrier ? input.furniture.indexOf(carrier) : -1;
  const { originM: o, uM: u, vM: v } = face;
  const levels = input.setpointLx ? [...new Set([...LEVELS_LX, input.setpointLx])] : LEVELS_LX;
  const wanted = levels.flatMap((lux) => [0, ...input.sunLx].map((sunLx) => ({ lux, sunLx })));
  return wanted.flatMap(({ lux, sunLx }) => {
    if (lux <= sunLx) return [];
    const lines = contoursAt(lattice, lux - sunLx).map((line) =>
      line.map(([s, t]) => [0, 1, 2].map((k) => o[k]! + u[k]! * s + v[k]! * t) as Vector3),
    );
    const kept = lines.filter((line) => !closed(line) || lengthM(line) >= LEAST_RING_M);
    const cut =
      carrier && drawnRound(carrier)
        ? kept.flatMap((line) => withinCircle(line, carrier.atM, carrier.widthM / 2))
        : kept;
    return cut.map((points) => ({ lux, sunLx, points, own }));
  });
}

export function lightLines(field: LightField, input: LineInput): LightLine[] {
  return field.faces.flatMap((face) => {
    const carrier = carrierOf(face, input.furniture);
    return carrier === undefined ? [] : linesOf(field, face, carrier, input);
  });
}
