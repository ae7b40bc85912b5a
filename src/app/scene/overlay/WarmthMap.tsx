/** Warmth Map: still things that differ from the room, hatched where they are. Bodies are hatched by `People`. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useState } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { Vector3 } from '../../../engine/types.ts';
import type { WarmthPatch } from '../../../engine/warmthPatches.ts';
import { live, onLive } from '../../state/live.ts';
import { createWarmPatchMaterial } from '../light/hatchMaterial.ts';
import { useGeometry } from '../RoomMesh.tsx';

/** Faces are drawn this much off their surface, m. Assumed: seen from 34 m, 12 mm is nothing; less flickers. */
const LIFT_M = 0.012;

/** Triangles of a convex face, lifted towards `eye`. */
function fan(face: readonly number[], eye: Vector3, out: number[]): void {
  const count = face.length / 3;
  const corner = (k: number) => {
    const at = [face[k * 3]!, face[k * 3 + 1]!, face[k * 3 + 2]!];
    const far = Math.hypot(eye[0] - at[0]!, eye[1] - at[1]!, eye[2] - at[2]!);
    return at.map((x, axis) => x + ((eye[axis]! - x) * LIFT_M) / Math.max(far, LIFT_M));
  };
  for (let k = 1; k + 1 < count; k++) out.push(...corner(0), ...corner(k), ...corner(k + 1));
}

/** Convex flat faces as triangles with a number at each corner. */
export function faceGeometry(
  faces: readonly { faceM: readonly number[]; value: number }[],
  eye: Vector3,
): BufferGeometry | null {
  const points: number[] = [];
  const values: number[] = [];
  for (const { faceM, value } of faces) {
    fan(faceM, eye, points);
    while (values.length < points.length / 3) values.push(value);
  }
  if (points.length === 0) return null;
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  geometry.setAttribute('contrast', new BufferAttribute(new Float32Array(values), 1));
  return geometry;
}

function patchKey(patches: readonly WarmthPatch[]): string {
  return JSON.stringify(patches.map(({ id, contrastK, middleM }) => [id, contrastK.toFixed(2), middleM]));
}

export function WarmthMap({ eye }: { eye: Vector3 }) {
  const [key, setKey] = useState('');
  useEffect(() => {
    const look = () => setKey(live.warmth ? patchKey(live.warmth.patches) : '');
    look();
    return onLive(look);
  }, []);
  const geometry = useGeometry(() => {
    const patches = live.warmth?.patches ?? [];
    const faces = patches.flatMap(({ facesM, contrastK }) => facesM.map((faceM) => ({ faceM, value: contrastK })));
    return faceGeometry(faces, eye);
  }, [key, eye]);
  const material = useMemo(createWarmPatchMaterial, []);
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => () => material.dispose(), [material]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn again when it changes
  useEffect(() => invalidate(), [geometry, invalidate]);
  useFrame(({ gl }) => {
    material.uniforms.uRatio!.value = gl.getPixelRatio();
  });
  return geometry && <mesh geometry={geometry} material={material} frustumCulled={false} renderOrder={4} />;
}
