/** One camera-facing quad per lamp for its glow. */
import { BufferAttribute, BufferGeometry } from 'three';
import type { RoomSpec } from '../../../engine/types.ts';

export function haloGeometry(room: RoomSpec): BufferGeometry {
  const [positions, axes, corners, rows, indices] = [[], [], [], [], []] as number[][] as [
    number[],
    number[],
    number[],
    number[],
    number[],
  ];
  room.luminaires.forEach((l, k) => {
    for (const [cx, cy] of [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const) {
      positions.push(l.atM[0], l.atM[1], l.heightM);
      axes.push(l.turnDeg === 0 ? 1 : 0, l.turnDeg === 0 ? 0 : 1, 0);
      corners.push(cx, cy);
      rows.push(l.row === 'window' ? 1 : 0);
    }
    const first = k * 4;
    indices.push(first, first + 1, first + 2, first, first + 2, first + 3);
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  geometry.setAttribute('axis', new BufferAttribute(new Float32Array(axes), 3));
  geometry.setAttribute('corner', new BufferAttribute(new Float32Array(corners), 2));
  geometry.setAttribute('row', new BufferAttribute(new Float32Array(rows), 1));
  geometry.setIndex(indices);
  return geometry;
}
