/** Where the standing tags belong: desk lux, daylight estimates at the detector, outputs outside the room. */
import type { DetectorMount, RoomSpec, RowId, Vector3 } from '../../../engine/types.ts';
import { grillePlace } from '../model/fittings.ts';
import { type Tag, type TagBoard, tagOf } from './board.ts';

function set(board: TagBoard, id: string, tag: Partial<Tag>): void {
  Object.assign(tagOf(board, id), { hidden: false, ...tag });
}

/** The lamp of a row that hangs farthest right; its right end carries the leader. */
function lampEnd(room: RoomSpec, row: RowId): Vector3 | null {
  const lamps = room.luminaires.filter((l) => l.row === row);
  if (lamps.length === 0) return null;
  const last = lamps.reduce((a, b) => (b.atM[0] > a.atM[0] ? b : a));
  const half = last.turnDeg === 0 ? last.lengthM / 2 : 0;
  return [last.atM[0] + half, last.atM[1], last.heightM + 0.02];
}

/** Offsets of desk tags in order of liking, px at a stage 1480 wide: below, clear of the lamps above. */
const DESK_CHOICES: readonly [number, number][] = [
  [-50, 50],
  [50, 50],
  [0, 62],
  [-66, 14],
  [66, 14],
  [-60, -34],
  [60, -34],
  [-86, 60],
  [86, 60],
];

/** Offsets of the estimates beside the detector, under the lamps behind it. */
const WINDOW_CHOICES: readonly [number, number][] = [
  [-34, 10],
  [-34, 48],
  [-100, 0],
  [-34, -34],
];
const INNER_CHOICES: readonly [number, number][] = [
  [34, 28],
  [50, 66],
  [110, 30],
  [34, -14],
];

export function placeFixedTags(board: TagBoard, room: RoomSpec, mount: DetectorMount): void {
  room.deskPoints.forEach((p, k) => {
    set(board, `desk:${k}`, {
      anchorM: [p.atM[0], p.atM[1], p.heightM],
      choices: DESK_CHOICES,
      leader: [0.5, 0.5],
      mayGo: true,
    });
  });
  board.keepClearM = [
    ...room.furniture.filter((f) => f.kind === 'chair').map((f): Vector3 => [f.atM[0], f.atM[1], 1.25]),
    ...room.deskPoints.map((p): Vector3 => [p.atM[0], p.atM[1], p.heightM]),
    [mount.atM[0], mount.atM[1], mount.heightM - 0.1],
  ];
  const detector: Vector3 = [mount.atM[0], mount.atM[1], mount.heightM - 0.1];
  const rim = (dx: number): Vector3 => [detector[0] + dx, detector[1], detector[2] + 0.04];
  set(board, 'estimate:window', {
    anchorM: rim(-0.13),
    choices: WINDOW_CHOICES,
    hold: [1, 0.5],
    leader: [0.97, 0.5],
  });
  set(board, 'estimate:inner', { anchorM: rim(0.13), choices: INNER_CHOICES, hold: [0, 0.5], leader: [0.04, 0.5] });
  const rows: [RowId, number][] = [
    ['window', 0.86],
    ['inner', 0.34],
  ];
  for (const [row, depthShare] of rows) {
    const end = lampEnd(room, row);
    if (!end) continue;
    set(board, `output:${row}Row`, {
      anchorM: end,
      standM: [room.widthM + 0.9, room.depthM * depthShare, 1.5],
      offset: [0, 0],
      hold: [0, 0.5],
      leader: [-0.04, 0.5],
      beside: 'right',
    });
  }
  set(board, 'output:airContact', {
    anchorM: grillePlace(room),
    standM: [-2.3, room.depthM * 0.36, 0.5],
    hold: [1, 0.5],
    leader: [1.03, 0.5],
    beside: 'left',
  });
}
