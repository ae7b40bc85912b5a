/** Reach outlines on the floor, and the points of a walk-test: flat shapes, ink on an edge of paper. */
import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { PointM } from '../../../engine/types.ts';
import { shownKinds, useReach } from '../../state/reach.ts';
import { DASHES, flatDashes, inOrder } from '../../state/reachShape.ts';
import { useApp } from '../../state/store.ts';
import { useWalkTest, type WalkPoint } from '../../state/walkTest.ts';
import { useGeometry } from '../RoomMesh.tsx';

/** Half widths of line and edge, size of a point, its rim, and lifts off the floor, m. Assumed: some 3 px from the corner. */
const HALF_WIDTH_M = 0.024;
const HALF_EDGE_M = 0.045;
const POINT_M = 0.11;
const RIM_M = 0.035;
const EDGE_LIFT_M = 0.012;
const LIFT_M = 0.015;

const SOLID = [1000] as const;

function toMesh(triangles: number[]): BufferGeometry | null {
  if (triangles.length === 0) return null;
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(triangles), 3));
  return geometry;
}

/** Corners of a point's shape: how many, where the first lies (turns), how large. */
const SHAPES: Record<WalkPoint['way'], [corners: number, firstTurn: number, size: number]> = {
  across: [4, 1 / 8, 1.3],
  toward: [3, 1 / 4, 1.4],
  away: [3, 1 / 4, 1.4],
  seated: [20, 0, 1],
  standing: [4, 0, 1.3],
};

/** A flat regular shape of radius `outer`, hollow inside `inner`, as triangles. */
function shape(point: WalkPoint, outer: number, inner: number, liftM: number): number[] {
  const [corners, first, size] = SHAPES[point.way];
  const [cx, cy] = point.atM;
  const at = (k: number, r: number): number[] => {
    const a = 2 * Math.PI * (k / corners + first);
    return [cx + r * size * Math.cos(a), cy + r * size * Math.sin(a), liftM];
  };
  const triangles: number[] = [];
  for (let k = 0; k < corners; k++) {
    triangles.push(...at(k, inner), ...at(k, outer), ...at(k + 1, outer));
    if (inner > 0) triangles.push(...at(k, inner), ...at(k + 1, outer), ...at(k + 1, inner));
  }
  return triangles;
}

const flat = (ring: readonly PointM[]): number[] => ring.flat();

interface Drawn {
  ink: number[];
  paper: number[];
}

function drawPoints(points: readonly WalkPoint[], own: readonly PointM[]): Drawn {
  const ink: number[] = [];
  const paper: number[] = [];
  const closed = own.length > 2 ? [...own, own[0]!] : own;
  ink.push(...flatDashes(flat(closed), SOLID, HALF_WIDTH_M, LIFT_M));
  for (const point of points) {
    paper.push(...shape(point, POINT_M + RIM_M, 0, EDGE_LIFT_M));
    ink.push(...shape(point, POINT_M, point.seen ? 0 : POINT_M - RIM_M, LIFT_M));
  }
  return { ink, paper };
}

function Flat({
  triangles,
  color,
  opacity,
  order,
}: {
  triangles: number[];
  color: string;
  opacity: number;
  order: number;
}) {
  const geometry = useGeometry(() => toMesh(triangles), [triangles]);
  return (
    geometry && (
      <mesh geometry={geometry} frustumCulled={false} renderOrder={order}>
        <meshBasicMaterial
          key={`${color}${opacity}`}
          color={color}
          toneMapped={false}
          transparent
          opacity={opacity}
          depthWrite={false}
        />
      </mesh>
    )
  );
}

const INK = '#1B2530';
const PAPER = '#FBFAF7';

function Outlines() {
  const outlines = useReach((s) => s.outlines);
  const stale = useReach((s) => s.progress !== null);
  const sight = useApp((s) => s.overlay === 'sight');
  const kinds = useReach((s) => shownKinds(s, sight).join(' '));
  const drawn = useTriangles(() => {
    const chosen = outlines?.outlines.filter((o) => kinds.split(' ').includes(o.kind)) ?? [];
    const lines = (pattern: (o: (typeof chosen)[number]) => readonly number[], half: number, lift: number) =>
      chosen.flatMap((o) => o.linesM.flatMap((line) => flatDashes(line, pattern(o), half, lift)));
    return {
      ink: lines((o) => DASHES[o.kind], HALF_WIDTH_M, LIFT_M),
      paper: lines(() => SOLID, HALF_EDGE_M, EDGE_LIFT_M),
    };
  }, [outlines, kinds]);
  return (
    <>
      <Flat triangles={drawn.paper} color={PAPER} opacity={stale ? 0.3 : 0.75} order={3} />
      <Flat triangles={drawn.ink} color={INK} opacity={stale ? 0.35 : 1} order={4} />
    </>
  );
}

/** Triangles that keep their identity until a key changes; then the picture is drawn again. */
function useTriangles(build: () => Drawn, keys: readonly unknown[]): Drawn {
  const invalidate = useThree((s) => s.invalidate);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller names what the shapes are built from
  const drawn = useMemo(build, keys);
  // biome-ignore lint/correctness/useExhaustiveDependencies: draw when the shapes change
  useEffect(() => invalidate(), [invalidate, drawn]);
  return drawn;
}

function Points() {
  const points = useWalkTest((s) => s.points);
  const kind = useWalkTest((s) => s.kind);
  const edge = useWalkTest((s) => s.edge);
  const mounted = useApp((s) => s.setup?.mount.atM.join(' ') ?? '');
  const drawn = useTriangles(() => {
    const own = points.filter((p) => edge[kind].includes(p.id)).map((p) => p.atM);
    return drawPoints(points, mounted ? inOrder(own, mounted.split(' ').map(Number) as PointM) : []);
  }, [points, kind, edge, mounted]);
  return (
    <>
      <Flat triangles={drawn.paper} color={PAPER} opacity={1} order={5} />
      <Flat triangles={drawn.ink} color={INK} opacity={1} order={6} />
    </>
  );
}

export function Reach() {
  const shown = useWalkTest((s) => s.shown);
  return (
    <>
      <Outlines />
      {shown && <Points />}
    </>
  );
}
