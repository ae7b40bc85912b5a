/** Dice of somebody who clicks without thought, for the proofs: every choice free of the one before, the same each time. */
import { streamFor } from '../engine/random.ts';

/** A whole number from 0 up to, not with, `count`. */
export type Dice = (count: number) => number;

/** Draws thrown away at first: streams of like seeds begin alike. Assumed: twenty steps of the generator part them. */
const SHAKEN = 20;

/** Dice of the `round`-th random attempt at an exercise on a bench. */
export function diceOf(exercise: string, seed: number, round: number): Dice {
  const stream = streamFor({ random: [], seed: 0 }, `${exercise}/${seed}/${round}`);
  for (let i = 0; i < SHAKEN; i++) stream.next();
  return (count) => Math.floor(stream.next() * count);
}
