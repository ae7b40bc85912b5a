/** What a lecturer can put into a room: each cause that a diagnose exercise can have, with the bench that has it. */
import { candidateOf, trueCard } from './cards.ts';
import type { DiagnoseExercise } from './types.ts';

export interface DrawerCard {
  exercise: string;
  job: number;
  /** Title of the exercise. */
  room: string;
  card: string;
  title: string;
  healthy: boolean;
  /** First bench on which this cause is the true one. */
  seed: number;
}

/** Benches looked through. Assumed: with at most 12 causes none is missed among so many but once in 10^7. */
const MOST_SEEDS = 200;

function benchWith(exercise: DiagnoseExercise, card: string): number | null {
  for (let seed = 1; seed <= MOST_SEEDS; seed++) if (trueCard(exercise, seed) === card) return seed;
  return null;
}

/** In the order of jobs; `exercises` in any order. */
export function drawerOf(exercises: readonly DiagnoseExercise[]): DrawerCard[] {
  return exercises
    .flatMap((exercise) =>
      exercise.diagnose.truths.flatMap((card): DrawerCard[] => {
        const seed = benchWith(exercise, card);
        if (seed === null) return [];
        const { title, healthy } = candidateOf(exercise, card).card;
        return [{ exercise: exercise.id, job: exercise.job, room: exercise.title, card, title, healthy, seed }];
      }),
    )
    .sort((a, b) => a.job - b.job || a.room.localeCompare(b.room) || a.title.localeCompare(b.title));
}
