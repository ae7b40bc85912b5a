/** A room at the moment of a reading, and where You are in it. */
import { hypot2 } from '../../engine/math.ts';
import type { ButtonId, OutputId, PointM, Scenario, Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { Complaint, Place, Refusal } from './types.ts';
import { tickOf, type World } from './world.ts';

/** The learner as a Stand-in. Source: the product's name for it, You. */
export const YOU = 'Y';
/** You measure what is so near, m. Source: the product's decision; an arm's length. */
export const REACH_M = 0.7;
/** Acts in which nothing moves on purpose. */
const STILL = ['standStill', 'sitStill', 'outside'];

export interface Moment {
  world: World;
  /** The room that this card makes, without anybody's acts. */
  plain: Scenario;
  complaint: Complaint;
  places: readonly Place[];
  /** The true room: here You must stand where You measure. A rival's room is only asked what it would have shown. */
  isTrue: boolean;
  /** Why You cannot measure at a place; null: You can. */
  you: (atM: PointM, must: YouMust) => Refusal | null;
}

/** What You must do where You measure, beside being there. */
export type YouMust = 'beThere' | 'move' | 'standOnLadder';

export function secondsAgo({ world }: Moment, s: number): Tick {
  return tickOf(world) - s * TICKS_PER_S;
}

/** Distance between two places, m; infinite when one is not known. */
export function nearest(a: PointM | null, b: PointM): number {
  return a === null ? Number.POSITIVE_INFINITY : hypot2(a[0] - b[0], a[1] - b[1]);
}

export function rowOf(button: ButtonId): OutputId {
  return button === 'air' ? 'airContact' : button === 'inner' ? 'innerRow' : 'windowRow';
}

/** Where You are in the true room. */
export function youAt(world: World, atM: PointM, must: YouMust): Refusal | null {
  const you = world.sim.state.people.find((person) => person.spec.id === YOU && !person.removed && person.present);
  if (!you || nearest(you.atM, atM) > REACH_M) return 'youAreNotThere';
  if (must === 'standOnLadder') return you.act === 'ladder' ? null : 'notUpTheLadder';
  return must === 'move' && STILL.includes(you.act) ? 'youAreStill' : null;
}
