/** Direct sun at level places, as the Light Map of the plan needs it: through which window, past which furniture. */
import type { Frame } from '../../../engine/frame.ts';
import { glazingRatio } from '../../../engine/light/glass.ts';
import { roomBoxes } from '../../../engine/room/boxes.ts';
import type { RoomSpec, Setup, WindowSpec } from '../../../engine/types.ts';

const OUTWARD: Record<WindowSpec['wall'], [number, number]> = {
  back: [0, 1],
  front: [0, -1],
  left: [-1, 0],
  right: [1, 0],
};

type SunOf = Pick<Frame['sun'], 'altitudeDeg' | 'bearingDeg' | 'directNormalLx'>;

/** Direct sun on a level place at x, y, z, lx; 0 in shadow. */
export function sunOnPlan(
  room: RoomSpec,
  setup: Pick<Setup, 'blinds' | 'furniture'>,
  { altitudeDeg, bearingDeg, directNormalLx }: SunOf,
): (x: number, y: number, z: number) => number {
  const altitude = (altitudeDeg * Math.PI) / 180;
  const bearing = (bearingDeg * Math.PI) / 180;
  const flat = Math.cos(altitude);
  const s = [Math.sin(bearing) * flat, Math.cos(bearing) * flat, Math.sin(altitude)] as const;
  if (directNormalLx <= 0 || s[2] <= 0) return () => 0;
  const windows = room.windows.flatMap((w) => {
    const [nx, ny] = OUTWARD[w.wall];
    const facing = nx * s[0] + ny * s[1];
    if (facing < 0.01) return [];
    const closed = setup.blinds.find((b) => b.windowId === w.id)?.closedShare ?? 0;
    const headM = w.headM - (w.headM - w.sillM) * closed;
    const lx = directNormalLx * s[2] * w.transmittance * w.frameFactor * w.dirtFactor * glazingRatio(facing);
    const inner = w.wall === 'back' ? room.depthM : w.wall === 'right' ? room.widthM : 0;
    const across = ny === 0 ? 0 : 1;
    // Both ends of the reveal: the inner face of the wall, where the blind hangs, and the glass.
    const planes = [
      { plane: inner, upToM: headM },
      { plane: inner + (nx + ny) * w.revealM, upToM: w.headM },
    ];
    return [{ across, planes, w, lx }];
  });
  const boxes = roomBoxes(room, setup.furniture).filter((box) => !box.glass);
  const shaded = (p: readonly number[]): boolean =>
    boxes.some(({ minM, maxM }) => {
      let near = 1e-4;
      let far = Number.POSITIVE_INFINITY;
      for (let k = 0; k < 3; k++) {
        const a = (minM[k]! - p[k]!) / (s[k]! || 1e-9);
        const b = (maxM[k]! - p[k]!) / (s[k]! || 1e-9);
        near = Math.max(near, Math.min(a, b));
        far = Math.min(far, Math.max(a, b));
      }
      return far > near;
    });
  return (x, y, z) => {
    const p = [x, y, z + 1e-3];
    for (const { across, planes, w, lx } of windows) {
      const through = planes.every(({ plane, upToM }) => {
        const t = (plane - p[across]!) / s[across]!;
        const along = p[1 - across]! + s[1 - across]! * t;
        const up = p[2]! + s[2] * t;
        return along >= w.fromM && along <= w.fromM + w.widthM && up >= w.sillM && up <= upToM;
      });
      if (through) return shaded(p) ? 0 : lx;
    }
    return 0;
  };
}
