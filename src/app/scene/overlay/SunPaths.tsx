/** The sun's ways over the model: today (thick, with its hours), both solstices (thin), the equinox (dashed), the sun now. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import {
  BackSide,
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  type Group,
  InstancedMesh,
  Matrix4,
  MeshBasicMaterial,
  SphereGeometry,
} from 'three';
import type { SunPoint } from '../../../engine/light/sky/sunPath.ts';
import type { RoomSpec } from '../../../engine/types.ts';
import { useSunPaths } from '../../state/insight.ts';
import { live } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { useGeometry } from '../RoomMesh.tsx';
import { type TagBoard, tagOf } from '../tags/board.ts';
import { sunTagId, TAGGED_HOURS } from '../tags/SunHourTags.tsx';
import { type Dome, domeOf, onDome, waysAbove } from './sunDome.ts';

/** Half widths of the lines, m: today, and the bounding days. Values: `look`, 2.5 and 1.5 px from the corner. */
const THICK_M = 0.026;
const THIN_M = 0.013;
/** Beads at whole hours and at every third, and the sun, m. Assumed: as wide as the rail's ticks and its puck from the corner. */
const BEAD_M = 0.05;
const THIRD_M = 0.085;
const SUN_M = 0.2;
const RIM_M = 0.235;
/** Today's way behind walls shows through this much. Assumed: seen, yet plainly behind. */
const BEHIND_OPACITY = 0.25;

type Point = [number, number, number];

/** A way as a ribbon of four sides, so that it has a width from every station; every second piece left out when dashed. */
function ribbon(ways: readonly Point[][], half: number, dashed: boolean): BufferGeometry | null {
  const triangles: number[] = [];
  for (const way of ways) {
    for (let k = 1; k < way.length; k++) {
      if (dashed && k % 2 === 0) continue;
      const [a, b] = [way[k - 1]!, way[k]!];
      for (const [dx, dy, dz] of [
        [half, half, 0],
        [half, -half, 0],
        [0, 0, half],
      ] as const) {
        const p: Point = [a[0] - dx, a[1] - dy, a[2] - dz];
        const q: Point = [b[0] - dx, b[1] - dy, b[2] - dz];
        const r: Point = [b[0] + dx, b[1] + dy, b[2] + dz];
        const s: Point = [a[0] + dx, a[1] + dy, a[2] + dz];
        triangles.push(...p, ...q, ...r, ...p, ...r, ...s);
      }
    }
  }
  if (triangles.length === 0) return null;
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(triangles), 3));
  return geometry;
}

function Way({ dome, points, half, dashed, color }: WayProps) {
  const geometry = useGeometry(() => ribbon(waysAbove(dome, points), half, dashed), [dome, points, half, dashed]);
  if (!geometry) return null;
  return (
    <>
      <mesh geometry={geometry} frustumCulled={false} renderOrder={7}>
        <meshBasicMaterial key={color} color={color} side={DoubleSide} toneMapped={false} />
      </mesh>
      {half === THICK_M && (
        <mesh geometry={geometry} frustumCulled={false} renderOrder={7}>
          <meshBasicMaterial
            key={color}
            color={color}
            side={DoubleSide}
            depthTest={false}
            transparent
            opacity={BEHIND_OPACITY}
            toneMapped={false}
          />
        </mesh>
      )}
    </>
  );
}

interface WayProps {
  dome: Dome;
  points: readonly SunPoint[];
  half: number;
  dashed: boolean;
  color: string;
}

function createBeads(dome: Dome, points: readonly SunPoint[], color: string): InstancedMesh {
  const hours = points.filter((p) => p.localS % 3600 === 0 && p.localS < 86_400 && p.altitudeDeg >= 0);
  const mesh = new InstancedMesh(
    new SphereGeometry(1, 12, 8),
    new MeshBasicMaterial({ color, toneMapped: false }),
    hours.length,
  );
  const at = new Matrix4();
  hours.forEach((p, i) => {
    const r = (p.localS / 3600) % 3 === 0 ? THIRD_M : BEAD_M;
    at.makeScale(r, r, r).setPosition(...onDome(dome, p.altitudeDeg, p.azimuthDeg));
    mesh.setMatrixAt(i, at);
  });
  mesh.frustumCulled = false;
  mesh.renderOrder = 7;
  return mesh;
}

function Beads({ dome, points, color }: Pick<WayProps, 'dome' | 'points' | 'color'>) {
  const mesh = useMemo(() => createBeads(dome, points, color), [dome, points, color]);
  useEffect(
    () => () => {
      mesh.geometry.dispose();
      (mesh.material as MeshBasicMaterial).dispose();
      mesh.dispose();
    },
    [mesh],
  );
  return <primitive object={mesh} />;
}

/** Puts the numbers of the hours beside their beads; hidden for hours with the sun down. */
function tagHours(board: TagBoard, dome: Dome, points: readonly SunPoint[]): void {
  for (const hour of TAGGED_HOURS) {
    const point = points.find((p) => p.localS === hour * 3600);
    const tag = tagOf(board, sunTagId(hour));
    tag.hidden = !point || point.altitudeDeg < 0;
    if (point) tag.anchorM = onDome(dome, point.altitudeDeg, point.azimuthDeg);
    tag.offset = [0, -16];
  }
}

/** The sun where it is now: yellow with an ink rim, also where a wall stands before it; hidden below the horizon. */
function Sun({ dome, rim }: { dome: Dome; rim: string }) {
  const group = useRef<Group>(null);
  const ball = useGeometry(() => new SphereGeometry(1, 20, 14), []);
  useFrame(() => {
    const sun = live.frame?.sun;
    if (!group.current || !sun) return;
    group.current.visible = sun.altitudeDeg > 0;
    group.current.position.set(...onDome(dome, sun.altitudeDeg, sun.azimuthDeg));
  });
  if (!ball) return null;
  return (
    <group ref={group}>
      <mesh geometry={ball} scale={SUN_M} renderOrder={8}>
        <meshBasicMaterial color="#FFC629" depthTest={false} transparent toneMapped={false} />
      </mesh>
      <mesh geometry={ball} scale={RIM_M} renderOrder={7}>
        <meshBasicMaterial key={rim} color={rim} side={BackSide} depthTest={false} transparent toneMapped={false} />
      </mesh>
    </group>
  );
}

export function SunPaths({ room, board }: { room: RoomSpec; board: TagBoard }) {
  const paths = useSunPaths();
  const day = useApp((s) => s.theme === 'day');
  const invalidate = useThree((s) => s.invalidate);
  const dome = useMemo(() => domeOf(room), [room]);
  useEffect(() => {
    if (paths) tagHours(board, dome, paths.today.points);
    invalidate();
  }, [paths, board, dome, invalidate]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn again in the table's other tone, and without the ways
  useEffect(() => {
    invalidate();
    return () => invalidate();
  }, [invalidate, day]);
  if (!paths) return null;
  const [strong, weak] = day ? ['#1B2530', '#66707A'] : ['#F3F1EA', '#C3CBD3'];
  return (
    <>
      <Way dome={dome} points={paths.june.points} half={THIN_M} dashed={false} color={weak} />
      <Way dome={dome} points={paths.december.points} half={THIN_M} dashed={false} color={weak} />
      <Way dome={dome} points={paths.equinox.points} half={THIN_M} dashed color={weak} />
      <Way dome={dome} points={paths.today.points} half={THICK_M} dashed={false} color={strong} />
      <Beads dome={dome} points={paths.today.points} color={strong} />
      <Sun dome={dome} rim={strong} />
    </>
  );
}
