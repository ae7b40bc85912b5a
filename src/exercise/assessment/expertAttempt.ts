/** The stored expert of any exercise on one bench, as an attempt: what its proofs show to pass. Runs the bench's room. */
import { secondsToTicks } from '../../engine/units.ts';
import { solutionAttempt } from '../commission/proofs.ts';
import { attemptOf } from '../diagnose/expert.ts';
import { expertWorker } from '../diagnose/proofs.ts';
import { benchScenario } from '../edits.ts';
import { attemptWith as observed } from '../observe/proofs.ts';
import { allDesksRead, metersOf, solutionRatios } from '../observe/ratios.ts';
import { momentsOf, solutionTags } from '../observe/tags.ts';
import type { ObserveExercise } from '../observe/types.ts';
import { attemptWith as predicted } from '../predict/proofs.ts';
import { playFor, solutionEdges } from '../predict/solution.ts';
import { endTickOf } from '../replay.ts';
import type { Attempt, Exercise } from '../types.ts';
import { besideEachOther, type Paths, pathOf } from './path.ts';

function observation(exercise: ObserveExercise, seed: number): Attempt {
  const { observe } = exercise;
  if (observe.task === 'tags') {
    const tags = solutionTags(momentsOf(observe, playFor(exercise, seed).events));
    return observed(exercise, seed, { tags });
  }
  const scenario = benchScenario(exercise, seed);
  const meter = metersOf(scenario, [], endTickOf(exercise));
  const readings = allDesksRead(scenario, secondsToTicks(observe.fromS), meter);
  return observed(exercise, seed, { readings, ratios: solutionRatios(scenario, readings, meter) });
}

export function expertAttempt(exercise: Exercise, seed: number): Attempt {
  switch (exercise.kind) {
    case 'diagnose':
      return attemptOf(expertWorker(exercise, seed));
    case 'predict':
      return predicted(exercise, seed, solutionEdges(exercise, playFor(exercise, seed)));
    case 'observe':
      return observation(exercise, seed);
    default:
      return solutionAttempt(exercise, seed);
  }
}

export function pathsOf(exercise: Exercise, attempt: Attempt): Paths {
  const expert = expertAttempt(exercise, attempt.seed);
  return besideEachOther(pathOf(exercise, attempt), pathOf(exercise, expert));
}
