/** Lends the camera to the pointer, and draws the ghost of a carried Stand-in. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import type { Group, PerspectiveCamera } from 'three';
import { useApp } from '../state/store.ts';
import type { PointerState } from './pointer.ts';

export function PointerEye({ pointer }: { pointer: PointerState }) {
  const camera = useThree((s) => s.camera) as PerspectiveCamera;
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => {
    pointer.camera = camera;
    pointer.invalidate = () => invalidate();
    return () => {
      pointer.camera = null;
    };
  }, [pointer, camera, invalidate]);
  return null;
}

/** A plain outline on the floor where the Stand-in would be set down, with a staff as tall as it. */
export function Ghost({ pointer }: { pointer: PointerState }) {
  const group = useRef<Group>(null);
  const day = useApp((s) => s.theme === 'day');
  const color = day ? '#1B2530' : '#F3F1EA';
  useFrame(() => {
    if (!group.current) return;
    group.current.visible = pointer.ghost !== null;
    if (pointer.ghost) group.current.position.set(pointer.ghost.atM[0], pointer.ghost.atM[1], 0.02);
  });
  return (
    <group ref={group} visible={false} renderOrder={7}>
      <mesh>
        <ringGeometry args={[0.24, 0.28, 32]} />
        <meshBasicMaterial color={color} toneMapped={false} depthTest={false} transparent />
      </mesh>
      <mesh rotation={[Math.PI / 2, 0, 0]} position={[0, 0, 0.8]}>
        <capsuleGeometry args={[0.2, 1.2, 6, 16]} />
        <meshBasicMaterial color={color} toneMapped={false} transparent opacity={0.28} depthWrite={false} />
      </mesh>
    </group>
  );
}
