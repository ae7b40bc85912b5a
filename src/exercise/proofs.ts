/**
 * An exercise proves itself: the right way passes, doing nothing fails, each classic mistake fails as it should and is
 * called by its name, and clicking about at random does not pass.
 */
import { proveCommission } from './commission/proofs.ts';
import { proveDiagnosis } from './diagnose/proofs.ts';
import { proveObservation } from './observe/proofs.ts';
import { provePrediction } from './predict/proofs.ts';
import type { Exercise, ProofResult } from './types.ts';

/** Seeds that every exercise is proved with. Assumed: three benches show whether the draws work. */
export const PROOF_SEEDS: readonly number[] = [1, 2, 3];

/** `randoms`: how many random attempts are tried. */
export function proveExercise(exercise: Exercise, seed: number, randoms: number): ProofResult[] {
  if (exercise.kind === 'diagnose') return proveDiagnosis(exercise, seed, randoms);
  if (exercise.kind === 'observe') return proveObservation(exercise, seed, randoms);
  if (exercise.kind !== 'predict') return proveCommission(exercise, seed, randoms);
  return provePrediction(exercise, seed, randoms);
}
