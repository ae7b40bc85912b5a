/** The Walk Line being drawn: from where the Stand-in is, through the tapped points, dashed on the floor. */
import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { PointM } from '../../../engine/types.ts';
import { live } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { useGeometry } from '../RoomMesh.tsx';

/** Dash and gap on the floor, half width, m; and lift off it. Values: `look`, 2 px dashed from the corner. */
const DASH_M = 0.16;
const GAP_M = 0.1;
const HALF_WIDTH_M = 0.018;
const LIFT_M = 0.014;

/** Flat dashes along the way, as triangles: a line of one pixel would be lost on a projector. */
export function dashes(way: readonly PointM[]): number[] {
  const triangles: number[] = [];
  for (let k = 1; k < way.length; k++) {
    const [a, b] = [way[k - 1]!, way[k]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length < 1e-6) continue;
    const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    const corner = (along: number, side: number) =>
      [a[0] + ux * along - uy * side, a[1] + uy * along + ux * side, LIFT_M] as const;
    for (let from = 0; from < length; from += DASH_M + GAP_M) {
      const to = Math.min(from + DASH_M, length);
      const [p, q] = [corner(from, -HALF_WIDTH_M), corner(to, -HALF_WIDTH_M)];
      const [s, t] = [corner(to, HALF_WIDTH_M), corner(from, HALF_WIDTH_M)];
      triangles.push(...p, ...q, ...s, ...p, ...s, ...t);
    }
  }
  return triangles;
}

export function WalkLine() {
  const tool = useApp((s) => s.floorTool);
  const day = useApp((s) => s.theme === 'day');
  const invalidate = useThree((s) => s.invalidate);
  const geometry = useGeometry(() => {
    if (tool.kind !== 'line') return null;
    const person = live.frame?.people.find((p) => p.id === tool.personId);
    const points = dashes(person?.present ? [person.atM, ...tool.pointsM] : tool.pointsM);
    if (points.length === 0) return null;
    const g = new BufferGeometry();
    g.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
    return g;
  }, [tool]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: these are what the picture shows; draw when they change
  useEffect(() => invalidate(), [invalidate, geometry, day]);
  const color = day ? '#1B2530' : '#F3F1EA';
  return (
    geometry && (
      <mesh geometry={geometry} frustumCulled={false} renderOrder={4}>
        <meshBasicMaterial key={color} color={color} toneMapped={false} />
      </mesh>
    )
  );
}
