import { useEffect } from 'react';
import type { PointM, Vector3 } from '../../../engine/types.ts';
import { type TagBoard, tagOf } from './board.ts';

/** Shows tag `id` beside a place that does not move, `heightM` above the floor, while the component lives. `choices`: its
 *  offsets from the place, px at a stage 1480 wide, best first. */
export function useStillTag(
  board: TagBoard,
  id: string,
  atM: PointM,
  heightM: number,
  choices: readonly [number, number][],
): void {
  useEffect(() => {
    const tag = tagOf(board, id);
    const anchorM: Vector3 = [atM[0], atM[1], heightM];
    Object.assign(tag, { hidden: false, anchorM, choices, held: -1, leader: [0.5, 0.5] });
    board.invalidate();
    return () => {
      tag.hidden = true;
      board.invalidate();
    };
  }, [board, id, atM, heightM, choices]);
}
