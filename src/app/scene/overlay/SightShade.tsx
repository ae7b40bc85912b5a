/** Dots over floor that furniture hides from the detector, and the line of the side section's plane. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useState } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { DetectorMount, PointM, RoomSpec, Vector3 } from '../../../engine/types.ts';
import { live, onLive } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { createShadowMaterial } from '../light/hatchMaterial.ts';
import { useGeometry } from '../RoomMesh.tsx';
import { dashes } from './WalkLine.tsx';
import { faceGeometry } from './WarmthMap.tsx';

export function SightShade({ mount }: { mount: DetectorMount }) {
  const [version, setVersion] = useState(live.sightVersion);
  useEffect(() => onLive(() => setVersion(live.sightVersion)), []);
  const night = useApp((s) => s.theme !== 'day');
  const material = useMemo(createShadowMaterial, []);
  const invalidate = useThree((s) => s.invalidate);
  const eye: Vector3 = [mount.atM[0], mount.atM[1], mount.heightM];
  const geometry = useGeometry(() => {
    const faces = live.shadows.map(({ outlineM }) => ({ faceM: outlineM.flatMap(([x, y]) => [x, y, 0]), value: 0 }));
    return faceGeometry(faces, eye);
  }, [version, mount]);
  useEffect(() => () => material.dispose(), [material]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: these are what the picture shows; draw when they change
  useEffect(() => invalidate(), [invalidate, geometry, night]);
  useFrame(({ gl }) => {
    material.uniforms.uRatio!.value = gl.getPixelRatio();
    material.uniforms.uNight!.value = night ? 1 : 0;
  });
  return geometry && <mesh geometry={geometry} material={material} frustumCulled={false} renderOrder={1} />;
}

/** Where a line through the detector meets the walls. */
function planeEnds(room: RoomSpec, [x, y]: PointM, bearingDeg: number): [PointM, PointM] {
  const rad = (bearingDeg * Math.PI) / 180;
  const end = (way: 1 | -1): PointM => {
    const [dx, dy] = [Math.sin(rad) * way, Math.cos(rad) * way];
    const toX = dx > 1e-9 ? (room.widthM - x) / dx : dx < -1e-9 ? -x / dx : Number.POSITIVE_INFINITY;
    const toY = dy > 1e-9 ? (room.depthM - y) / dy : dy < -1e-9 ? -y / dy : Number.POSITIVE_INFINITY;
    const far = Math.min(toX, toY);
    return [x + dx * far, y + dy * far];
  };
  return [end(-1), end(1)];
}

export function PlaneLine({ room, mount }: { room: RoomSpec; mount: DetectorMount }) {
  const deg = useApp((s) => s.sectionDeg);
  const day = useApp((s) => s.theme === 'day');
  const invalidate = useThree((s) => s.invalidate);
  const geometry = useGeometry(() => {
    if (deg === null) return null;
    const g = new BufferGeometry();
    g.setAttribute('position', new BufferAttribute(new Float32Array(dashes(planeEnds(room, mount.atM, deg))), 3));
    return g;
  }, [room, mount, deg]);
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
