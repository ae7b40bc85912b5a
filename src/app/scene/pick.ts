/** What a ray of the pointer meets: a Stand-in, a lamp, the detector, or the floor. Plain geometry, room metres. */
import type { PersonView } from '../../engine/frame.ts';
import type { DetectorMount, OutputId, PointM, RoomSpec, Vector3 } from '../../engine/types.ts';

export type Picked =
  | { kind: 'person'; personId: string }
  | { kind: 'output'; output: OutputId }
  | { kind: 'floor'; atM: PointM }
  | null;

export interface Ray {
  origin: Vector3;
  direction: Vector3;
}

/** How near a ray must pass, m. Assumed: a finger on a tablet is about 25 cm wide in the room. */
const PERSON_REACH_M = 0.3;
const LAMP_REACH_M = 0.16;
const DETECTOR_REACH_M = 0.28;

const sub = (a: Vector3, b: Vector3): Vector3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vector3, b: Vector3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const along = (a: Vector3, d: Vector3, t: number): Vector3 => [a[0] + d[0] * t, a[1] + d[1] * t, a[2] + d[2] * t];

/** Least distance between a ray and a segment, m. */
export function rayToSegmentM(ray: Ray, from: Vector3, to: Vector3): number {
  const u = ray.direction;
  const v = sub(to, from);
  const w = sub(ray.origin, from);
  const [a, b, c, d, e] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)];
  const denominator = a * c - b * b;
  let t = denominator > 1e-9 ? (a * e - b * d) / denominator : 0;
  t = Math.min(Math.max(t, 0), 1);
  const s = Math.max((b * t - d) / a, 0);
  const gap = sub(along(ray.origin, u, s), along(from, v, t));
  return Math.sqrt(dot(gap, gap));
}

/** Where the ray meets the floor of the room, or null. */
export function floorPoint(ray: Ray, room: Pick<RoomSpec, 'widthM' | 'depthM'>): PointM | null {
  if (ray.direction[2] >= -1e-6) return null;
  const [x, y] = along(ray.origin, ray.direction, -ray.origin[2] / ray.direction[2]);
  return x >= 0 && y >= 0 && x <= room.widthM && y <= room.depthM ? [x, y] : null;
}

/** Where the ray meets a level plane, unbounded. */
export function levelPoint(ray: Ray, z: number): PointM | null {
  if (ray.direction[2] >= -1e-6) return null;
  const [x, y] = along(ray.origin, ray.direction, (z - ray.origin[2]) / ray.direction[2]);
  return [x, y];
}

/** Tops higher than this are not laid on, m. Source: the same limit as where a meter comes to rest. */
const HIGHEST_TOP_M = 1.4;

interface Top {
  furnitureId: string;
  minM: Vector3;
  maxM: Vector3;
}

/** Whether a level point lies on a top: inside its rectangle, or inside its ellipse when it is round. */
function liesOn([x, y]: PointM, { minM, maxM }: Top, round: boolean): boolean {
  const across = (2 * (x - minM[0])) / (maxM[0] - minM[0]) - 1;
  const deep = (2 * (y - minM[1])) / (maxM[1] - minM[1]) - 1;
  return round ? across * across + deep * deep <= 1 : Math.abs(across) <= 1 && Math.abs(deep) <= 1;
}

/** Where the ray first meets a level top of furniture, and how high that is; null where it meets none.
 *  The eye is above: of two tops the higher is met first. */
export function topPoint(
  ray: Ray,
  boxes: readonly Top[],
  round: ReadonlySet<string>,
): { atM: PointM; heightM: number } | null {
  let best: { atM: PointM; heightM: number } | null = null;
  let bestM = 0;
  for (const box of boxes) {
    const topM = box.maxM[2];
    const at = topM <= HIGHEST_TOP_M && topM > bestM ? levelPoint(ray, topM) : null;
    if (!at || !liesOn(at, box, round.has(box.furnitureId))) continue;
    best = { atM: at, heightM: topM };
    bestM = topM;
  }
  return best;
}

function pickPerson(ray: Ray, people: readonly PersonView[]): string | null {
  let best: string | null = null;
  let bestM = PERSON_REACH_M;
  for (const p of people) {
    if (!p.present) continue;
    const top = p.act === 'walk' || /stand|sway|stretch|reach|lean|ladder/i.test(p.act) ? 1.6 : 1.2;
    const gapM = rayToSegmentM(ray, [p.atM[0], p.atM[1], 0.2], [p.atM[0], p.atM[1], top]);
    if (gapM < bestM) {
      bestM = gapM;
      best = p.id;
    }
  }
  return best;
}

function pickLamp(ray: Ray, room: RoomSpec): OutputId | null {
  for (const l of room.luminaires) {
    const half = l.lengthM / 2;
    const [dx, dy] = l.turnDeg === 0 ? [half, 0] : [0, half];
    const from: Vector3 = [l.atM[0] - dx, l.atM[1] - dy, l.heightM];
    const to: Vector3 = [l.atM[0] + dx, l.atM[1] + dy, l.heightM];
    if (rayToSegmentM(ray, from, to) < LAMP_REACH_M) return l.row === 'inner' ? 'innerRow' : 'windowRow';
  }
  return null;
}

/** Things in front of the floor first: Stand-ins, lamps, detector (as the air contact, whose sensor it is). */
export function pick(ray: Ray, room: RoomSpec, people: readonly PersonView[], mount: DetectorMount): Picked {
  const personId = pickPerson(ray, people);
  if (personId) return { kind: 'person', personId };
  const lamp = pickLamp(ray, room);
  if (lamp) return { kind: 'output', output: lamp };
  const d: Vector3 = [mount.atM[0], mount.atM[1], mount.heightM - 0.1];
  if (rayToSegmentM(ray, d, along(d, [0, 0, 1], 0.05)) < DETECTOR_REACH_M)
    return { kind: 'output', output: 'airContact' };
  const atM = floorPoint(ray, room);
  return atM ? { kind: 'floor', atM } : null;
}
