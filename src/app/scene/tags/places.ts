/** Where the standing tags belong: desk lux, daylight estimates at the detector, outputs outside the room. */
import type { DetectorMount, RowId, Scenario, Vector3 } from '../../../engine/types.ts';
import { grillePlace } from '../model/fittings.ts';
import { type Tag, type TagBoard, tagOf } from './board.ts';

function set(board: TagBoard, id: string, tag: Partial<Tag>): void {
  Object.assign(tagOf(board, id), { hidden: false, ...tag });
}

/** The lamp of a row that hangs farthest right; its right end carries the leader. */
function lampEnd(scenario: Scenario, row: RowId): Vector3 | null {
  const lamps = scenario.room.luminaires.filter((l) => l.row === row);
  if (lamps.length === 0) return null;
  const last = lamps.reduce((a, b) => (b.atM[0] > a.atM[0] ? b : a));
  const half = last.turnDeg === 0 ? last.lengthM / 2 : 0;
  return [last.atM[0] + half, last.atM[1], last.heightM + 0.02];
}

export function placeFixedTags(board: TagBoard, scenario: Scenario, mount: DetectorMount): void {
  const { room } = scenario;
  room.deskPoints.forEach((p, k) => {
    const right = p.atM[0] > room.widthM * 0.62;
    set(board, `desk:${k}`, {
      anchorM: [p.atM[0], p.atM[1], p.heightM],
      offset: [right ? 62 : -58, 58],
      leader: [0.5, 0.5],
    });
  });
  const detector: Vector3 = [mount.atM[0], mount.atM[1], mount.heightM - 0.1];
  set(board, 'estimate:window', { anchorM: detector, offset: [-34, 10], hold: [1, 0.5], leader: [0.97, 0.5] });
  set(board, 'estimate:inner', { anchorM: detector, offset: [30, 46], hold: [0, 0.5], leader: [0.04, 0.5] });
  const rows: [RowId, number][] = [
    ['window', 0.62],
    ['inner', 0.18],
  ];
  for (const [row, depthShare] of rows) {
    const end = lampEnd(scenario, row);
    if (!end) continue;
    set(board, `output:${row}Row`, {
      anchorM: end,
      standM: [room.widthM + 1.1, room.depthM * depthShare, 1.1],
      offset: [0, 0],
      hold: [0, 0.5],
      leader: [-0.04, 0.5],
    });
  }
  set(board, 'output:airContact', {
    anchorM: grillePlace(room),
    standM: [-2.5, room.depthM * 0.45, 1.5],
    hold: [1, 0.5],
    leader: [1.03, 0.5],
  });
}
