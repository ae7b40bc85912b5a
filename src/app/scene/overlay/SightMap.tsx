/** Sight Map: outlines of the lens cells on the first surface they meet. No fill; masked cells are left out. */
import { useThree } from '@react-three/fiber';
import { useEffect, useState } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { SightCell } from '../../../host/messages.ts';
import { live, onLive } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { useGeometry } from '../RoomMesh.tsx';

/** Lifts outlines off the surface, m: less and they flicker into it. Assumed: seen from 34 m, 8 mm is nothing. */
const LIFT_M = 0.008;

function outlines(cells: readonly SightCell[], masked: boolean): BufferGeometry | null {
  const points: number[] = [];
  for (const cell of cells) {
    if (cell.masked !== masked) continue;
    const o = cell.outlineM;
    const count = Math.floor(o.length / 3);
    for (let k = 0; k < count; k++) {
      const a = k * 3;
      const b = ((k + 1) % count) * 3;
      // A masked cell shows every other stretch: dotted, so that the mask can be seen without reading as sight.
      if (masked && k % 2 === 1) continue;
      points.push(o[a]!, o[a + 1]!, o[a + 2]! + LIFT_M, o[b]!, o[b + 1]!, o[b + 2]! + LIFT_M);
    }
  }
  if (points.length === 0) return null;
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  return geometry;
}

export function SightMap() {
  const [version, setVersion] = useState(live.sightVersion);
  const day = useApp((s) => s.theme === 'day');
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => onLive(() => setVersion(live.sightVersion)), []);
  const seen = useGeometry(() => outlines(live.sightCells, false), [version]);
  const masked = useGeometry(() => outlines(live.sightCells, true), [version]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: these are what the picture shows; draw when they change
  useEffect(() => invalidate(), [invalidate, seen, masked, day]);
  const color = day ? '#1B2530' : '#F3F1EA';
  return (
    <>
      {seen && (
        <lineSegments geometry={seen} frustumCulled={false} renderOrder={2}>
          <lineBasicMaterial
            key={color}
            color={color}
            transparent
            opacity={day ? 0.34 : 0.4}
            toneMapped={false}
            depthWrite={false}
          />
        </lineSegments>
      )}
      {masked && (
        <lineSegments geometry={masked} frustumCulled={false} renderOrder={2}>
          <lineBasicMaterial
            key={color}
            color={color}
            transparent
            opacity={0.14}
            toneMapped={false}
            depthWrite={false}
          />
        </lineSegments>
      )}
    </>
  );
}
