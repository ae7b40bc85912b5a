/** Numbers on the sun's way of today, every third hour: slots in the tag layer; the way itself places them. */
import { useEffect } from 'react';
import { useApp } from '../../state/store.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';

/** Hours that carry a number. Assumed: every third; more would run into each other in the morning. */
export const TAGGED_HOURS = [3, 6, 9, 12, 15, 18, 21] as const;

export function sunTagId(hour: number): string {
  return `sun:${hour}`;
}

export function SunHourTags({ board }: { board: TagBoard }) {
  const shown = useApp((s) => s.pathsShown);
  useEffect(() => {
    if (!shown) for (const hour of TAGGED_HOURS) tagOf(board, sunTagId(hour)).hidden = true;
  }, [board, shown]);
  if (!shown) return null;
  return TAGGED_HOURS.map((hour) => (
    <div
      key={hour}
      className={styles.sunHour}
      ref={(el) => {
        tagOf(board, sunTagId(hour)).element = el;
      }}
    >
      {hour}
    </div>
  ));
}
