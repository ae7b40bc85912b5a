/** Points where a design may hang the detector: their numbers over the picture, each at the ceiling; a tap chooses. */
import { choosePoint } from '../../state/points.ts';
import { type OpenJob, useApp } from '../../state/store.ts';
import { type TagBoard, tagOf } from './board.ts';
import styles from './PointTags.module.css';
import { useStillTag } from './useStillTag.ts';

type Points = NonNullable<OpenJob['points']>;

/** Offsets of a number from its point, px at a stage 1480 wide, best first. */
const CHOICES: readonly [number, number][] = [
  [0, -44],
  [-40, -26],
  [40, -26],
  [-40, 26],
  [40, 26],
  [0, 46],
  [-64, -44],
  [64, -44],
];

export function PointTags({ board, points }: { board: TagBoard; points: Points }) {
  return points.map(({ id, atM }, i) => <PointTag key={id} board={board} id={id} number={i + 1} atM={atM} />);
}

function PointTag({
  board,
  id,
  number,
  atM,
}: {
  board: TagBoard;
  id: string;
  number: number;
  atM: Points[number]['atM'];
}) {
  const chosen = useApp((s) => s.job?.chosenPoint === id);
  const heightM = useApp((s) => s.scenario?.mount.heightM ?? 0);
  useStillTag(board, `point:${id}`, atM, heightM, CHOICES);
  return (
    <button
      type="button"
      className={styles.point}
      data-point={id}
      data-chosen={chosen}
      tabIndex={-1}
      ref={(el) => {
        tagOf(board, `point:${id}`).element = el;
      }}
      onClick={() => void choosePoint(id)}
    >
      {number}
    </button>
  );
}
