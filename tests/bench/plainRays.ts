/**
 * Sensing people the plain way, to be compared with: the body as triangles in a tree of three-mesh-bvh, posed anew each
 * sub-step, and a grid of rays over the rectangle that it fills; each ray that meets it counts with what the lens looks
 * with in its direction. One ray for each beam would be plainer, and blind to how far a beam is filled.
 */
import { BufferAttribute, BufferGeometry, FrontSide, IcosahedronGeometry, Ray } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { weightM2 } from '../../src/engine/detection/angularMap.ts';
import type { MovementTables } from '../../src/engine/detection/types.ts';
import { type BodyBuffer, NUMBERS_PER_PART, PARTS_PER_BODY, type Vector3 } from '../../src/engine/types.ts';

const CHANNELS = 4;
/** Subdivision of a part's icosahedron: 180 triangles. */
const DETAIL = 2;

/** Corners of a ball of triangles, nine numbers each, blown up until it looks as large as the true ball on the mean. */
const BALL = (() => {
  const corners = Float64Array.from(new IcosahedronGeometry(1, DETAIL).getAttribute('position').array);
  let areaM2 = 0;
  for (let k = 0; k < corners.length; k += 9) {
    const side = (from: number, to: number) => [0, 1, 2].map((a) => corners[k + to + a]! - corners[k + from + a]!);
    const [ux, uy, uz] = side(0, 3) as Vector3;
    const [vx, vy, vz] = side(0, 6) as Vector3;
    areaM2 += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
  }
  // A convex body's mean shadow is a quarter of its surface (Cauchy).
  return corners.map((x) => x * Math.sqrt((4 * Math.PI) / areaM2));
})();
const TRIANGLES_A_PART = BALL.length / 9;

/** Part of body 0 that a ray from the eye meets first, or -1. */
export type PartCast = (direction: Vector3) => number;
/** What casts rays at a pose. */
export type Caster = (buffer: BodyBuffer, eyeM: Vector3) => PartCast;

/** The rig as triangles; the tree is built on the first pose and fitted to each later one. */
export function triangleCaster(): Caster {
  const position = new Float32Array(PARTS_PER_BODY * BALL.length);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(position, 3));
  let tree: MeshBVH | null = null;
  const ray = new Ray();
  const cast: PartCast = (direction) => {
    ray.direction.set(...direction);
    const hit = tree!.raycastFirst(ray, FrontSide);
    return hit ? Math.floor(hit.faceIndex! / TRIANGLES_A_PART) : -1;
  };
  return (buffer, eyeM) => {
    poseTriangles(position, buffer);
    if (tree) tree.refit();
    else tree = new MeshBVH(geometry, { indirect: true });
    ray.origin.set(...eyeM);
    return cast;
  };
}

/** Puts the triangles of body 0 where its parts are: centre plus three semi-axes each. */
function poseTriangles(position: Float32Array, { parts }: BodyBuffer): void {
  for (let p = 0, out = 0; p < PARTS_PER_BODY; p++) {
    const k = p * NUMBERS_PER_PART;
    // Parts not in use are points inside the first.
    const from = parts[k + 3] || parts[k + 4] || parts[k + 5] ? k : 0;
    for (let b = 0; b < BALL.length; b += 3) {
      for (let a = 0; a < 3; a++) {
        const axes = BALL[b]! * parts[k + 3 + a]! + BALL[b + 1]! * parts[k + 6 + a]! + BALL[b + 2]! * parts[k + 9 + a]!;
        position[out++] = parts[from + a]! + axes;
      }
    }
  }
}

/** The ellipsoids themselves, each tried by each ray: slow and exact. */
export const ellipsoidCaster: Caster = ({ parts }, eyeM) => {
  const solids = Array.from({ length: PARTS_PER_BODY }, (_, p) => {
    const k = p * NUMBERS_PER_PART;
    // Rows that turn the ellipsoid into a unit ball: each axis over its squared length.
    const rows = [3, 6, 9].map((a) => {
      const axis = [0, 1, 2].map((j) => parts[k + a + j]!);
      const square = axis.reduce((sum, v) => sum + v * v, 0);
      return axis.map((v) => v / square);
    });
    const centre = [0, 1, 2].map((j) => parts[k + j]! - eyeM[j]!) as Vector3;
    const ball = rows.map((row) => dot(row, ...centre));
    return { part: p, rows, ball, beyond: ball.reduce((sum, v) => sum + v * v, -1) };
  }).filter(({ beyond }) => Number.isFinite(beyond));
  return ([x, y, z]) => {
    let nearest = Infinity;
    let part = -1;
    for (const { part: p, rows, ball, beyond } of solids) {
      const [u, v, w] = [dot(rows[0]!, x, y, z), dot(rows[1]!, x, y, z), dot(rows[2]!, x, y, z)];
      const square = u * u + v * v + w * w;
      const half = u * ball[0]! + v * ball[1]! + w * ball[2]!;
      const root = half * half - square * beyond;
      if (root < 0) continue;
      const t = (half - Math.sqrt(root)) / square;
      if (t > 0 && t < nearest) {
        nearest = t;
        part = p;
      }
    }
    return part;
  };
};

/** Plane square to the line to the body's middle, one metre off the eye: rectangle that the parts fill. */
const plane = { away: [0, 0, 0], across: [0, 0, 0], up: [0, 0, 0], minX: 0, maxX: 0, minY: 0, maxY: 0 };

function dot(a: readonly number[], x: number, y: number, z: number): number {
  return a[0]! * x + a[1]! * y + a[2]! * z;
}

function frameBody({ parts }: BodyBuffer, eyeM: Vector3): void {
  const used = Array.from({ length: PARTS_PER_BODY }, (_, p) => p * NUMBERS_PER_PART).filter(
    (k) => parts[k + 3] || parts[k + 4] || parts[k + 5],
  );
  const middle = [0, 1, 2].map((a) => used.reduce((sum, k) => sum + parts[k + a]! - eyeM[a]!, 0) / used.length);
  const distance = Math.hypot(...middle);
  plane.away = middle.map((x) => x / distance);
  const [x, y, z] = plane.away as Vector3;
  const level = Math.hypot(x, y) || 1;
  plane.across = [y / level, -x / level, 0];
  plane.up = [plane.across[1]! * z, -plane.across[0]! * z, plane.across[0]! * y - plane.across[1]! * x];
  plane.minX = plane.minY = Infinity;
  plane.maxX = plane.maxY = -Infinity;
  for (const k of used) {
    const [cx, cy, cz] = [0, 1, 2].map((a) => parts[k + a]! - eyeM[a]!) as Vector3;
    const reach = Math.max(...[3, 6, 9].map((a) => Math.hypot(parts[k + a]!, parts[k + a + 1]!, parts[k + a + 2]!)));
    const near = dot(plane.away, cx, cy, cz) - reach;
    const [u, v] = [dot(plane.across, cx, cy, cz), dot(plane.up, cx, cy, cz)];
    for (const depth of [near, near + 2 * reach]) {
      plane.minX = Math.min(plane.minX, (u - reach) / depth);
      plane.maxX = Math.max(plane.maxX, (u + reach) / depth);
      plane.minY = Math.min(plane.minY, (v - reach) / depth);
      plane.maxY = Math.max(plane.maxY, (v + reach) / depth);
    }
  }
}

/**
 * Flux of body 0 per channel above an empty room at the air's temperature, W, into `fluxW`; about `rays` rays. Radiance
 * by part kind, W m-2 sr-1. For a bare room and a detector that is not turned.
 */
export function weighPlainly(
  caster: Caster,
  buffer: BodyBuffer,
  tables: MovementTables,
  radiance: Float64Array,
  rays: number,
  fluxW: Float64Array,
): void {
  const { eyeM } = tables.surroundings;
  const cast = caster(buffer, eyeM);
  frameBody(buffer, eyeM);
  fluxW.fill(0);
  const { away, across, up, minX, minY } = plane;
  const step = Math.sqrt(((plane.maxX - minX) * (plane.maxY - minY)) / rays);
  const direction: Vector3 = [0, 0, 0];
  for (let y = minY + step / 2; y < plane.maxY; y += step) {
    for (let x = minX + step / 2; x < plane.maxX; x += step) {
      const square = 1 + x * x + y * y;
      const length = Math.sqrt(square);
      for (let a = 0; a < 3; a++) direction[a] = (away[a]! + x * across[a]! + y * up[a]!) / length;
      const part = cast(direction);
      if (part < 0) continue;
      const kind = buffer.partKind[part]!;
      const share = (radiance[kind]! * step * step) / (square * length);
      for (let c = 0; c < CHANNELS; c++) fluxW[c]! += share * weightM2(tables.map, c, direction);
    }
  }
}
