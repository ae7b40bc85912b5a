import type { PointM } from '../../engine/types.ts';
import { nudgeBy } from '../state/acts.ts';

/** A step of the arrow keys, m. Source: the product's own keyboard table. */
const NUDGE_M = 0.25;

const ARROWS: Record<string, PointM> = {
  ArrowLeft: [-NUDGE_M, 0],
  ArrowRight: [NUDGE_M, 0],
  ArrowUp: [0, NUDGE_M],
  ArrowDown: [0, -NUDGE_M],
};

/** Moves the chosen Stand-in by an arrow key; true when the key was one. */
export function nudgePerson(personId: string, key: string): boolean {
  const by = ARROWS[key];
  return by !== undefined && nudgeBy(personId, by);
}
