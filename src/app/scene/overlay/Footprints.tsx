/** What the two photometers look at: the rim of each cone on the floor, dashed in the row's colour. */
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, Line, LineDashedMaterial } from 'three';
import type { DetectorModel, DetectorMount, RoomSpec } from '../../../engine/types.ts';
import { degToRad } from '../../../engine/units.ts';
import { useApp } from '../../state/store.ts';

const STEPS = 96;
/** Colours of the two rows, on day and night tables. */
const ROW_COLOUR = { inner: ['#3A2FA0', '#C9C3FF'], window: ['#005F66', '#9FE0DF'] } as const;

/** Points of the rim on the floor, cut at the walls; `towards` +1 window side, -1 room side. */
export function rimOnFloor(model: DetectorModel, mount: DetectorMount, room: RoomSpec, towards: 1 | -1): number[] {
  const tilt = degToRad(model.photometerTiltDeg);
  const half = degToRad(model.photometerHalfAngleDeg);
  const turn = degToRad(mount.turnDeg);
  const ahead = [Math.sin(turn) * towards, Math.cos(turn) * towards] as const;
  const side = [Math.cos(turn), -Math.sin(turn)] as const;
  const points: number[] = [];
  for (let k = 0; k <= STEPS; k++) {
    const a = (k / STEPS) * 2 * Math.PI;
    // Axis tilted from straight down; rim direction = axis cos(half) + circle sin(half).
    const [c, s] = [Math.cos(half), Math.sin(half)];
    const f = Math.sin(tilt) * c + Math.cos(tilt) * s * Math.cos(a);
    const d = Math.cos(tilt) * c - Math.sin(tilt) * s * Math.cos(a);
    const w = s * Math.sin(a);
    if (d < 0.05) continue;
    const reach = mount.heightM / d;
    const x = mount.atM[0] + (ahead[0] * f + side[0] * w) * reach;
    const y = mount.atM[1] + (ahead[1] * f + side[1] * w) * reach;
    points.push(
      Math.min(Math.max(x, 0.01), room.widthM - 0.01),
      Math.min(Math.max(y, 0.01), room.depthM - 0.01),
      0.012,
    );
  }
  return points;
}

function dashed(points: number[]): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  const along = new Float32Array(points.length / 3);
  for (let k = 1; k < along.length; k++) {
    along[k] = along[k - 1]! + Math.hypot(points[k * 3]! - points[k * 3 - 3]!, points[k * 3 + 1]! - points[k * 3 - 2]!);
  }
  geometry.setAttribute('lineDistance', new BufferAttribute(along, 1));
  return geometry;
}

function createLine(points: number[], color: string): Line<BufferGeometry, LineDashedMaterial> {
  const material = new LineDashedMaterial({
    color,
    dashSize: 0.14,
    gapSize: 0.1,
    toneMapped: false,
    transparent: true,
  });
  material.depthWrite = false;
  const line = new Line(dashed(points), material);
  line.frustumCulled = false;
  line.renderOrder = 3;
  return line;
}

function Rim({ points, color }: { points: number[]; color: string }) {
  const line = useMemo(() => createLine(points, color), [points, color]);
  useEffect(
    () => () => {
      line.geometry.dispose();
      line.material.dispose();
    },
    [line],
  );
  return <primitive object={line} />;
}

export function Footprints({ model, mount, room }: { model: DetectorModel; mount: DetectorMount; room: RoomSpec }) {
  const tone = useApp((s) => (s.theme === 'day' ? 0 : 1));
  const inner = useMemo(() => rimOnFloor(model, mount, room, -1), [model, mount, room]);
  const window = useMemo(() => rimOnFloor(model, mount, room, 1), [model, mount, room]);
  return (
    <>
      <Rim points={inner} color={ROW_COLOUR.inner[tone]} />
      <Rim points={window} color={ROW_COLOUR.window[tone]} />
    </>
  );
}
