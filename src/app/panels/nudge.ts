import type { PointM } from '../../engine/types.ts';
import { placePerson } from '../state/acts.ts';
import { live } from '../state/live.ts';

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
  const person = live.frame?.people.find((p) => p.id === personId);
  if (!by || !person) return false;
  placePerson(personId, [person.atM[0] + by[0], person.atM[1] + by[1]]);
  return true;
}
