/** prove: every exercise (or those named, by id or file) plays its own proofs. One line each; `N passed, N failed` at the end. */
import { proveExample } from '../exercise/example/proofs.ts';
import { exerciseIds } from '../exercise/load.ts';
import { PROOF_SEEDS, proveExercise } from '../exercise/proofs.ts';
import type { ProofResult } from '../exercise/types.ts';
import { readArgs } from './args.ts';
import { exerciseNamed } from './exercises.ts';
import { diskLibrary } from './files.ts';
import { complain } from './stories.ts';

/** Random attempts per exercise and seed unless told otherwise. Source: enough to notice a give-away, quick enough to run always. */
const RANDOMS = 20;

export function prove(words: string[]): number {
  const read = readArgs(words, ['random'], []);
  if (!read.ok) {
    complain([read.sentence]);
    return 1;
  }
  const { plain, values } = read.args;
  const randoms = Number(values.get('random') ?? RANDOMS);
  if (!Number.isInteger(randoms) || randoms < 0 || randoms > 100_000) {
    complain([`--random expects a whole number from 0 to 100000, but is "${values.get('random')}".`]);
    return 1;
  }
  const library = diskLibrary();
  let passed = 0;
  let failed = 0;
  for (const id of plain.length > 0 ? plain : exerciseIds(library)) {
    const exercise = exerciseNamed(id, library);
    if (!exercise.ok) {
      complain(exercise.sentences);
      failed++;
      continue;
    }
    const tell = ({ seed, proof, fault }: ProofResult): void => {
      process.stdout.write(
        `${fault === null ? 'proved' : 'FAILED'} ${id} seed ${seed}: ${proof}${fault ? `; ${fault}` : ''}\n`,
      );
      if (fault === null) passed++;
      else failed++;
    };
    for (const seed of PROOF_SEEDS) proveExercise(exercise.value.exercise, seed, randoms).forEach(tell);
    proveExample(exercise.value.exercise).forEach(tell);
  }
  process.stdout.write(`${passed} passed, ${failed} failed\n`);
  return failed === 0 ? 0 : 1;
}
