/** Cut walls, windows and doors of the plan. */
import { corridorStrip, corridorsUsed } from '../../../engine/room/corridor.ts';
import type { RoomSpec, Scenario, WallId } from '../../../engine/types.ts';
import { type PlanScale, WALL_M, wallEnds } from '../../../report/planGeometry.ts';
import { useApp } from '../../state/store.ts';
import styles from './Plan.module.css';

interface Props {
  room: RoomSpec;
  scale: PlanScale;
}

/** Floor outside the doors, where somebody of the story walks. */
export function PlanCorridors({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  return corridorsUsed(scenario).map((wall) => {
    const { minM, maxM } = corridorStrip(scenario.room, wall);
    const [x, y] = [scale.x(minM[0]), scale.y(maxM[1])];
    const [width, height] = [scale.x(maxM[0]) - x, scale.y(minM[1]) - y];
    return <rect key={wall} x={x} y={y} width={width} height={height} className={styles.corridor} />;
  });
}

export function PlanWalls({ room, scale }: Props) {
  const wall = WALL_M * scale.pxPerM;
  const x = scale.x(0);
  const y = scale.y(room.depthM);
  const w = room.widthM * scale.pxPerM;
  const h = room.depthM * scale.pxPerM;
  return (
    <>
      <rect x={x - wall} y={y - wall} width={w + 2 * wall} height={h + 2 * wall} className={styles.wall} />
      <rect x={x} y={y} width={w} height={h} className={styles.floor} />
    </>
  );
}

/** Rectangle of an opening through the wall. */
function opening(room: RoomSpec, scale: PlanScale, o: { wall: WallId; fromM: number; widthM: number }) {
  const [a, b] = wallEnds(room, o);
  const wall = WALL_M * scale.pxPerM;
  const x = Math.min(scale.x(a[0]), scale.x(b[0]));
  const y = Math.min(scale.y(a[1]), scale.y(b[1]));
  const length = o.widthM * scale.pxPerM;
  if (o.wall === 'back') return { x, y: y - wall, width: length, height: wall };
  if (o.wall === 'front') return { x, y, width: length, height: wall };
  if (o.wall === 'left') return { x: x - wall, y, width: wall, height: length };
  return { x, y, width: wall, height: length };
}

export function PlanWindows({ room, scale }: Props) {
  const blinds = useApp((s) => s.setup?.blinds ?? null);
  return (
    <g>
      {room.windows.map((window) => {
        const box = opening(room, scale, window);
        const along = window.wall === 'back' || window.wall === 'front';
        const middle = along
          ? `M${box.x} ${box.y + box.height / 2}h${box.width}`
          : `M${box.x + box.width / 2} ${box.y}v${box.height}`;
        const closed = blinds?.find((b) => b.windowId === window.id)?.closedShare ?? 0;
        return (
          <g key={window.id}>
            <rect {...box} className={styles.window} />
            <path d={middle} className={closed > 0 ? styles.blind : styles.glass} />
          </g>
        );
      })}
    </g>
  );
}

export function PlanDoors({ room, scale }: Props) {
  const doors = useApp((s) => s.setup?.doors ?? null);
  return (
    <g>
      {room.doors.map((door) => {
        const box = opening(room, scale, door);
        const open = doors?.find((d) => d.doorId === door.id)?.open ?? door.openAtStart;
        const [a, b] = wallEnds(room, door);
        const along = door.wall === 'back' || door.wall === 'front';
        const inward = door.wall === 'left' || door.wall === 'front' ? 1 : -1;
        const leaf = door.widthM;
        // The leaf hangs at the far end of the opening and swings into the room.
        const end = open ? (along ? [b[0], b[1] + inward * leaf] : [b[0] + inward * leaf, b[1]]) : a;
        const r = leaf * scale.pxPerM;
        const swing = along ? [b[0], b[1] + inward * leaf] : [b[0] + inward * leaf, b[1]];
        const sweep = (along ? inward > 0 : inward < 0) ? 1 : 0;
        return (
          <g key={door.id}>
            <rect {...box} className={styles.doorway} />
            <path
              d={`M${scale.x(a[0])} ${scale.y(a[1])}A${r} ${r} 0 0 ${along ? 1 - sweep : 1 - sweep} ${scale.x(swing[0]!)} ${scale.y(swing[1]!)}`}
              className={styles.swing}
            />
            <path
              d={`M${scale.x(b[0])} ${scale.y(b[1])}L${scale.x(end[0]!)} ${scale.y(end[1]!)}`}
              className={styles.leaf}
            />
          </g>
        );
      })}
    </g>
  );
}
