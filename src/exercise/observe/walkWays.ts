/** Ways of comparing two walks, for the proofs: with care, with each classic mistake, and at random. */
import { secondsToTicks } from '../../engine/units.ts';
import type { Dice } from '../dice.ts';
import type { ObserveAnswers, WalkReason, WalkSignature } from './types.ts';
import { earlierOf, SEEN_WITHIN_TICKS } from './walkMarks.ts';
import {
  type Direction,
  directionOf,
  notedWalk,
  WALK_FROM_S,
  type WalksExercise,
  walkOffers,
  walkPaces,
  walkTruth,
} from './walks.ts';

export const WALK_REASONS: readonly WalkReason[] = ['crossesEdges', 'comesNearer', 'looksWider', 'isWarmer'];

function lineThat(exercise: WalksExercise, seed: number, direction: Direction): number {
  return walkOffers(exercise, seed).find((offer) => directionOf(offer, exercise.observe) === direction)?.id ?? 0;
}

/** Across first, then toward, at the slower pace; what is said follows from what the two walks showed. */
export function walkSolution(exercise: WalksExercise, seed: number): ObserveAnswers {
  const [paceMps] = walkPaces(exercise, seed);
  const choices = (['across', 'toward'] as const).map((way) => ({ line: lineThat(exercise, seed, way), paceMps }));
  const earlier = earlierOf(choices.map((choice) => walkTruth(exercise, seed, choice)));
  return {
    walks: choices.map((choice) => notedWalk(exercise, seed, choice)),
    ...(earlier === null ? {} : { earlier }),
    why: 'crossesEdges',
  };
}

interface Mistake {
  id: WalkSignature['id'];
  answers: ObserveAnswers;
}

/** `comparing`: nothing can be concluded from such two walks. `noting`: one line is lost. */
export function walkMistakes(exercise: WalksExercise, seed: number): { comparing: Mistake[]; noting: Mistake[] } {
  const right = walkSolution(exercise, seed);
  const [across, toward] = right.walks!;
  const [, briskMps] = walkPaces(exercise, seed);
  const other = (line: number, paceMps: number): ObserveAnswers => ({
    ...right,
    walks: [across!, notedWalk(exercise, seed, { line, paceMps })],
  });
  const seenLate = {
    ...across!,
    seen: { ...across!.seen!, tick: across!.seen!.tick + 2 * SEEN_WITHIN_TICKS },
  };
  return {
    comparing: [
      { id: 'twoPaces', answers: other(toward!.line, briskMps) },
      { id: 'oneDirection', answers: other(lineThat(exercise, seed, 'between'), across!.paceMps) },
    ],
    noting: [
      { id: 'alreadyOn', answers: { ...right, walks: [seenLate, toward!] } },
      { id: 'towardIsSooner', answers: { ...right, earlier: 1 } },
      { id: 'nearerIsStronger', answers: { ...right, why: 'comesNearer' } },
    ],
  };
}

/** Any two lines at any paces, notes at any instant of the walk or none, any conclusion. */
export function randomWalks(exercise: WalksExercise, seed: number, dice: Dice): ObserveAnswers {
  const paces = walkPaces(exercise, seed);
  const fromTick = secondsToTicks(WALK_FROM_S);
  const ticks = secondsToTicks(exercise.observe.toS) - fromTick;
  const walk = () => {
    const note = (k: number) => {
      if (dice(4) === 0) return k === 0 ? { unseen: true } : {};
      const tick = fromTick + dice(ticks);
      return { [k === 0 ? 'seen' : 'signal']: { tick, wayM: 0, signalUv: 0 } };
    };
    return {
      line: 1 + dice(exercise.observe.turnsDeg.length),
      paceMps: paces[dice(2)]!,
      ...note(0),
      ...note(1),
    };
  };
  return {
    walks: [walk(), walk()],
    earlier: dice(2) as 0 | 1,
    why: WALK_REASONS[dice(WALK_REASONS.length)]!,
  };
}
