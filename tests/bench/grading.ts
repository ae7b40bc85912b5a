/** Benchmark of marking again: a class of attempts of half an hour at one diagnosis, each with twelve rivals, for `bench.ts`. */
import { diskLibrary } from '../../src/cli/files.ts';
import { attemptOf } from '../../src/exercise/diagnose/expert.ts';
import { expertWorker } from '../../src/exercise/diagnose/proofs.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { advance } from '../../src/exercise/diagnose/world.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { duration, type Figure } from './measure.ts';

const ATTEMPTS = 30;
const HALF_AN_HOUR_TICKS = 18_000;
const CANDIDATES = 13;
/** An ordinary room, and the one whose things never rest: there each rival must be sensed by itself. */
const EXERCISES = ['goes-out-on-us', 'lights-at-night'];
/** Rooms of the same story whose causes fill the list up, those that the detector sees otherwise among them. */
const MORE_CAUSES = ['types-in-the-dark', 'dark-at-noon', 'goes-out-on-us', 'burns-in-the-sun'];

function load(id: string): DiagnoseExercise {
  const loaded = exerciseById(diskLibrary(), id);
  if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error(`${id} is no diagnosis`);
  return loaded.value;
}

function withMoreCauses(id: string): DiagnoseExercise {
  const job = load(id);
  const byCard = new Map(job.diagnose.candidates.map((candidate) => [candidate.card.id, candidate]));
  for (const candidate of MORE_CAUSES.flatMap((other) => load(other).diagnose.candidates)) {
    if (!byCard.has(candidate.card.id)) byCard.set(candidate.card.id, candidate);
  }
  return { ...job, diagnose: { ...job.diagnose, candidates: [...byCard.values()].slice(0, CANDIDATES) } };
}

/** Each attempt on a seed of its own, so that nothing but tables is shared. */
function classOf(job: DiagnoseExercise) {
  return Array.from({ length: ATTEMPTS }, (_, seed) => {
    const worker = expertWorker(job, seed + 1);
    advance(worker.bench.trueWorld, HALF_AN_HOUR_TICKS);
    return attemptOf(worker);
  });
}

export function gradingFigures(yardstickMs: number): Figure[] {
  return EXERCISES.map((id) => {
    const made = classOf(withMoreCauses(id));
    // Loaded anew: rooms and outcomes remembered while the attempts were made must not help.
    const job = withMoreCauses(id);
    const start = performance.now();
    for (const attempt of made) markAttempt(job, attempt);
    const ms = performance.now() - start;
    const minutes = made.reduce((sum, { headTick }) => sum + headTick / 600, 0) / ATTEMPTS;
    const rivals = job.diagnose.candidates.length - 1;
    const name = `marking ${ATTEMPTS} attempts of ${minutes.toFixed(0)} min with ${rivals} rivals, each: ${id}`;
    return duration(name, ms / ATTEMPTS, yardstickMs);
  });
}
