/** Sight Map: outlines of the lens cells on the first surface they meet, the sign of each half inside. No fill. */
import { useThree } from '@react-three/fiber';
import { useEffect, useState } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import { signStrokesM } from '../../../engine/detection/signStrokes.ts';
import type { DetectorMount, RoomSpec } from '../../../engine/types.ts';
import type { SightCell } from '../../../host/messages.ts';
import { live, onLive } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { LOW_CUT_M } from '../model/shell.ts';
import { useGeometry } from '../RoomMesh.tsx';

/** Draws outlines this much nearer to the detector than the surface, m: less and they flicker into it. Assumed: seen from
 *  34 m, 12 mm is nothing. */
const LIFT_M = 0.012;

/** Neighbouring points whose distances from the detector differ by more than this share lie on two surfaces, one behind
 *  the other: no line joins them. Assumed: on one floor they differ by under a tenth. */
const JUMP_SHARE = 0.12;

/** Heights of one outline on a level surface differ by less than this, m. Assumed: rounding. */
const ONE_LEVEL_M = 0.01;

/** Outside the room, or on a wall that is cut away in the picture: nothing to draw on. */
function offModel(room: RoomSpec, x: number, y: number, z: number): boolean {
  const cut = z > LOW_CUT_M && (y < 0.02 || x > room.widthM - 0.02);
  return cut || x < -0.05 || y < -0.05 || x > room.widthM + 0.05 || y > room.depthM + 0.05;
}

/** A plus or minus, where the whole of it lies on one surface of the model. */
function addSign(cell: SightCell, room: RoomSpec, eye: readonly [number, number, number], points: number[]): void {
  const far = (p: readonly number[], k: number) => Math.hypot(eye[0] - p[k]!, eye[1] - p[k + 1]!, eye[2] - p[k + 2]!);
  const all = cell.outlineM;
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let k = 0; k < all.length; k += 3) {
    if (offModel(room, all[k]!, all[k + 1]!, all[k + 2]!)) return;
    least = Math.min(least, all[k + 2]!);
    most = Math.max(most, all[k + 2]!);
  }
  // Over an edge the middle would hang in the air.
  if (most - least > ONE_LEVEL_M) return;
  for (const stroke of signStrokesM(cell.outlineM, cell.polarity)) {
    for (const k of [0, 3]) {
      const share = LIFT_M / Math.max(far(stroke, k), LIFT_M);
      for (const axis of [0, 1, 2] as const) points.push(stroke[k + axis]! + (eye[axis] - stroke[k + axis]!) * share);
    }
  }
}

/** Pieces of the outlines as pairs of points. A masked cell keeps every other piece: dotted. */
export function sightLines(
  cells: readonly SightCell[],
  masked: boolean,
  room: RoomSpec,
  mount: DetectorMount,
): number[] {
  const points: number[] = [];
  const eye = [mount.atM[0], mount.atM[1], mount.heightM] as const;
  const far = (o: readonly number[], k: number) => Math.hypot(eye[0] - o[k]!, eye[1] - o[k + 1]!, eye[2] - o[k + 2]!);
  const add = (o: readonly number[], k: number, distanceM: number) => {
    const share = LIFT_M / Math.max(distanceM, LIFT_M);
    for (const axis of [0, 1, 2] as const) points.push(o[k + axis]! + (eye[axis] - o[k + axis]!) * share);
  };
  for (const cell of cells) {
    if (cell.masked !== masked) continue;
    const o = cell.outlineM;
    const count = Math.floor(o.length / 3);
    for (let k = 0; k < count; k++) {
      const [a, b] = [k * 3, ((k + 1) % count) * 3];
      if (masked && k % 2 === 1) continue;
      if (offModel(room, o[a]!, o[a + 1]!, o[a + 2]!) || offModel(room, o[b]!, o[b + 1]!, o[b + 2]!)) continue;
      const [fa, fb] = [far(o, a), far(o, b)];
      if (Math.abs(fa - fb) > JUMP_SHARE * Math.min(fa, fb)) continue;
      add(o, a, fa);
      add(o, b, fb);
    }
    if (!masked) addSign(cell, room, eye, points);
  }
  return points;
}

function toLines(points: number[]): BufferGeometry | null {
  if (points.length === 0) return null;
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  return geometry;
}

export function SightMap({ room, mount }: { room: RoomSpec; mount: DetectorMount }) {
  const [version, setVersion] = useState(live.sightVersion);
  const day = useApp((s) => s.theme === 'day');
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => onLive(() => setVersion(live.sightVersion)), []);
  const seen = useGeometry(() => toLines(sightLines(live.sightCells, false, room, mount)), [version, room, mount]);
  const masked = useGeometry(() => toLines(sightLines(live.sightCells, true, room, mount)), [version, room, mount]);
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
            opacity={day ? 0.3 : 0.34}
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
