/** Benchmark of marking again: a class of attempts at one diagnosis, each with its rivals, for `bench.ts`. */
import { diskLibrary } from '../../src/cli/files.ts';
import { attemptOf } from '../../src/exercise/diagnose/expert.ts';
import { expertWorker } from '../../src/exercise/diagnose/proofs.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { duration, type Figure } from './measure.ts';

const ATTEMPTS = 30;

function load(id: string): DiagnoseExercise {
  const loaded = exerciseById(diskLibrary(), id);
  if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error(`${id} is no diagnosis`);
  return loaded.value;
}

/** Each attempt on a seed of its own, so that nothing but tables is shared. */
export function gradingFigures(yardstickMs: number): Figure[] {
  const id = 'goes-out-on-us';
  const made = Array.from({ length: ATTEMPTS }, (_, seed) => attemptOf(expertWorker(load(id), seed + 1)));
  // Loaded anew: what was remembered while the attempts were made must not help.
  const job = load(id);
  const start = performance.now();
  for (const attempt of made) markAttempt(job, attempt);
  const ms = performance.now() - start;
  const rivals = job.diagnose.candidates.length - 1;
  const minutes = made.reduce((sum, { headTick }) => sum + headTick / 600, 0) / ATTEMPTS;
  const name = `marking ${ATTEMPTS} attempts of ${minutes.toFixed(0)} min with ${rivals} rivals, each`;
  return [duration(name, ms / ATTEMPTS, yardstickMs)];
}
