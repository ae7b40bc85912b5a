/** Ceiling outline (dashed), rails and drop-lines: what the lamps hang from, since no ceiling is drawn. */
import { useMemo } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { DetectorMount, RoomSpec } from '../../engine/types.ts';
import { useApp } from '../state/store.ts';
import { ceilingOutline, hangingLines } from './model/fittings.ts';
import { MODEL_LINE } from './model/palette.ts';
import { useGeometry } from './RoomMesh.tsx';

function lineGeometry(points: number[], dashed: boolean): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  if (!dashed) return geometry;
  const along = new Float32Array(points.length / 3);
  for (let k = 0; k < along.length; k += 2) {
    const p = k * 3;
    const q = p + 3;
    along[k + 1] = Math.hypot(
      points[q]! - points[p]!,
      points[q + 1]! - points[p + 1]!,
      points[q + 2]! - points[p + 2]!,
    );
  }
  geometry.setAttribute('lineDistance', new BufferAttribute(along, 1));
  return geometry;
}

export function ModelLines({ room, mount }: { room: RoomSpec; mount: DetectorMount }) {
  const theme = useApp((s) => s.theme);
  const style = MODEL_LINE[theme];
  const hanging = useGeometry(() => lineGeometry(hangingLines(room, mount), false), [room, mount]);
  const ceiling = useGeometry(() => lineGeometry(ceilingOutline(room), true), [room]);
  const key = useMemo(() => `${style.color}${style.opacity}`, [style]);
  return (
    <>
      {hanging && (
        <lineSegments geometry={hanging} frustumCulled={false} renderOrder={4}>
          <lineBasicMaterial key={key} color={style.color} transparent opacity={style.opacity} toneMapped={false} />
        </lineSegments>
      )}
      {ceiling && (
        <lineSegments geometry={ceiling} frustumCulled={false} renderOrder={5}>
          <lineDashedMaterial
            key={key}
            color={style.color}
            transparent
            opacity={style.opacity}
            dashSize={0.16}
            gapSize={0.1}
            toneMapped={false}
          />
        </lineSegments>
      )}
    </>
  );
}
