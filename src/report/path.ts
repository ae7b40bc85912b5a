/** A path as lines of a table: clock of the run, minutes, a sentence. */
import type { PathStep } from '../exercise/assessment/path.ts';
import { placesOf } from '../exercise/diagnose/cards.ts';
import { benchScenario } from '../exercise/edits.ts';
import type { Exercise } from '../exercise/types.ts';
import { clockAt } from './text/format.ts';
import { actText, type PathNames } from './text/path.ts';

export interface PathLine {
  clock: string | null;
  minutes: number | null;
  text: string;
}

export function pathNames(exercise: Exercise): PathNames {
  const places = exercise.kind === 'diagnose' ? placesOf(exercise) : [];
  const points = exercise.kind === 'design' ? (exercise.design?.points ?? []) : [];
  const lamps = exercise.scenario.room.luminaires;
  return {
    places,
    point: (id) => points.find((point) => point.id === id)?.label ?? id,
    lamp: (id) => lamps.findIndex((lamp) => lamp.id === id) + 1,
  };
}

export function pathLines(exercise: Exercise, seed: number, steps: readonly PathStep[]): PathLine[] {
  const { start } = benchScenario(exercise, seed);
  const names = pathNames(exercise);
  return steps.map(({ atS, minutes, act }) => ({
    clock: atS === null ? null : clockAt(Math.round(atS * 10), start),
    minutes,
    text: actText(act, names),
  }));
}
