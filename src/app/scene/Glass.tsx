/** Window panes, glass screens, and the soft shade of the model on the table. Shown only; the light knows its own glass. */
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, DoubleSide, ShaderMaterial } from 'three';
import { roomBoxes } from '../../engine/room/boxes.ts';
import type { FurnitureSpec, RoomSpec, Vector3 } from '../../engine/types.ts';
import { useApp } from '../state/store.ts';
import { BOARD_M, boardBounds, SLAB_M } from './model/outside.ts';
import { cutHeightM, wallFrame, wallGaps } from './model/shell.ts';
import { useGeometry } from './RoomMesh.tsx';

function quads(list: Vector3[][]): BufferGeometry {
  const positions = list.flatMap((q) => q.flat());
  const indices = list.flatMap((_, k) => [0, 1, 2, 0, 2, 3].map((i) => k * 4 + i));
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  geometry.setIndex(indices);
  return geometry;
}

function paneQuads(room: RoomSpec): Vector3[][] {
  return (['back', 'left', 'front', 'right'] as const).flatMap((wall) => {
    const frame = wallFrame(room, wall);
    const top = cutHeightM(room, wall);
    return wallGaps(room, wall)
      .filter((g) => g.window && g.sillM < top)
      .map((g) => {
        const d = Math.max(g.window!.revealM, 0.06) - 0.02;
        const z1 = Math.min(g.headM, top);
        return [
          frame.at(g.fromM, d, g.sillM),
          frame.at(g.toM, d, g.sillM),
          frame.at(g.toM, d, z1),
          frame.at(g.fromM, d, z1),
        ];
      });
  });
}

function glassScreenQuads(room: RoomSpec, furniture: readonly FurnitureSpec[]): Vector3[][] {
  return roomBoxes(room, [...furniture])
    .filter((b) => b.glass)
    .map(({ minM: a, maxM: c }) => {
      const thinX = c[0] - a[0] < c[1] - a[1];
      const [x, y] = [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2];
      return thinX
        ? [
            [x, a[1], a[2]],
            [x, c[1], a[2]],
            [x, c[1], c[2]],
            [x, a[1], c[2]],
          ]
        : [
            [a[0], y, a[2]],
            [c[0], y, a[2]],
            [c[0], y, c[2]],
            [a[0], y, c[2]],
          ];
    }) as Vector3[][];
}

/** Glass lets no heat through: on the Warmth Map it is a wall. */
const OPAQUE = ['#dcdfe0', 1] as const;

const PANE = { day: ['#9fb4c6', 0.22], night: ['#3d5068', 0.3], opening: ['#2c3c52', 0.3] } as const;

export function Glass({ room, furniture }: { room: RoomSpec; furniture: readonly FurnitureSpec[] }) {
  const theme = useApp((s) => s.theme);
  const opaque = useApp((s) => s.overlay === 'warmth');
  const [color, opacity] = opaque ? OPAQUE : PANE[theme];
  const panes = useGeometry(() => quads([...paneQuads(room), ...glassScreenQuads(room, furniture)]), [room, furniture]);
  return (
    panes && (
      <mesh geometry={panes} renderOrder={3} frustumCulled={false}>
        <meshBasicMaterial
          key={color}
          color={color}
          transparent
          opacity={opacity}
          depthWrite={opaque}
          side={DoubleSide}
          toneMapped={false}
        />
      </mesh>
    )
  );
}

/** Shade of the board on the table: darkest at its edge, gone after about a metre and a half, pushed to the lower right. */
export function TableShade({ room }: { room: RoomSpec }) {
  const theme = useApp((s) => s.theme);
  const { min, max } = useMemo(() => boardBounds(room), [room]);
  const reach = 3;
  const z = -SLAB_M - BOARD_M;
  const geometry = useGeometry(
    () =>
      quads([
        [
          [min[0] - reach, min[1] - reach, z],
          [max[0] + reach, min[1] - reach, z],
          [max[0] + reach, max[1] + reach, z],
          [min[0] - reach, max[1] + reach, z],
        ],
      ]),
    [room],
  );
  const material = useMemo(
    () =>
      new ShaderMaterial({
        transparent: true,
        depthWrite: false,
        uniforms: { uMin: { value: min }, uMax: { value: max }, uStrength: { value: 0.2 } },
        vertexShader:
          'varying vec2 vAt; void main() { vAt = position.xy; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }',
        fragmentShader: /* glsl */ `
          varying vec2 vAt; uniform vec2 uMin; uniform vec2 uMax; uniform float uStrength;
          float shade(vec2 shift, float soft) {
            vec2 p = vAt - shift;
            vec2 d = max(max(uMin - p, p - uMax), vec2(0.0));
            return exp(-dot(d, d) / (soft * soft));
          }
          void main() {
            float a = 0.55 * shade(vec2(0.25, -0.12), 0.35) + 0.45 * shade(vec2(0.6, -0.25), 1.3);
            gl_FragColor = vec4(0.0, 0.0, 0.0, a * uStrength);
          }`,
      }),
    [min, max],
  );
  useEffect(() => () => material.dispose(), [material]);
  material.uniforms.uStrength!.value = theme === 'day' ? 0.2 : 0.34;
  return geometry && <mesh geometry={geometry} material={material} renderOrder={-1} frustumCulled={false} />;
}
