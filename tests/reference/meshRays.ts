/** Rays against a reference room by an open library: walls and boxes as triangles in a tree of three-mesh-bvh. */
import { BufferAttribute, BufferGeometry, DoubleSide, Ray } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { ReferenceRoom } from '../../src/cli/roomsFile.ts';
import { type Cast, hitAt } from './pathTracer.ts';

/** Corners of a unit box by number, bit k = high side of axis k, and the four of each side: low x, high x, low y ... */
const SIDES = [
  [0, 2, 6, 4],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 3, 7, 6],
  [0, 1, 3, 2],
  [4, 5, 7, 6],
] as const;
const TRIANGLES_A_SIDE = 2;
const TRIANGLES_A_BOX = SIDES.length * TRIANGLES_A_SIDE;

/** A ray starts off its surface by a ten-millionth of a metre; single precision would put it behind. */
function boxesGeometry(boxes: { min_m: readonly number[]; max_m: readonly number[] }[]): BufferGeometry {
  const position = boxes.flatMap(({ min_m, max_m }) =>
    Array.from({ length: 8 }, (_, corner) => [0, 1, 2].map((k) => (corner & (1 << k) ? max_m[k]! : min_m[k]!))).flat(),
  );
  const index = boxes.flatMap((_, b) =>
    SIDES.flatMap(([p, q, r, s]) => [p, q, r, p, r, s].map((corner) => 8 * b + corner)),
  );
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float64Array.from(position), 3));
  geometry.setIndex(index);
  return geometry;
}

/** Openings are told by place, as they lie in the walls. Without `indirect` the tree would reorder the triangles. */
export function meshCast(room: ReferenceRoom): Cast {
  const tree = new MeshBVH(boxesGeometry([{ min_m: [0, 0, 0], max_m: room.size_m }, ...room.boxes]), {
    indirect: true,
  });
  const ray = new Ray();
  return (p, d) => {
    ray.origin.set(...p);
    ray.direction.set(...d);
    const hit = tree.raycastFirst(ray, DoubleSide);
    if (!hit) throw new Error(`a ray left the room from ${p} along ${d}`);
    const triangle = hit.faceIndex!;
    const box = Math.floor(triangle / TRIANGLES_A_BOX);
    const axis = Math.floor((triangle % TRIANGLES_A_BOX) / (2 * TRIANGLES_A_SIDE));
    const { x, y, z } = hit.point;
    return hitAt(room, [x, y, z], axis, d, box === 0 ? null : room.boxes[box - 1]!.reflectance);
  };
}
