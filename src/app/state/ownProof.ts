/** A job of one's own is kept among the jobs and plays its proofs, bench by bench, as the command line does. */
import { create } from 'zustand';
import { loadExercise } from '../../exercise/load.ts';
import { PROOF_SEEDS } from '../../exercise/proofs.ts';
import type { ProofResult } from '../../exercise/types.ts';
import { takeExercise } from './exercises.ts';
import { ask } from './job/worker.ts';
import { library } from './stories.ts';

/** Random answers tried on each bench. Assumed: as many as the command line tries. */
const RANDOMS = 20;

export interface OwnJob {
  id: string;
  text: string;
}

interface OwnProof {
  /** What is wrong with the draft, in sentences. */
  sentences: string[];
  results: ProofResult[];
  /** Bench being proved, counting from 0; null: none. */
  provingBench: number | null;
  /** The draft as it stands has been kept and proved. */
  settled: boolean;
}

const FRESH: OwnProof = { sentences: [], results: [], provingBench: null, settled: false };
export const useOwnProof = create<OwnProof>()(() => FRESH);

/** Called when the draft changes: what was proved was another one. */
export function freshProof(): void {
  useOwnProof.setState(FRESH);
}

/** `stands`: whether the draft is still the one that is being proved. */
export async function keepAndProveJob({ id, text }: OwnJob, stands: () => boolean): Promise<void> {
  const kept = takeExercise(text, `${id}.json`);
  const read = loadExercise(text, `${id}.json`, library);
  if (!kept.ok || !read.ok) return;
  try {
    for (const [i, seed] of PROOF_SEEDS.entries()) {
      useOwnProof.setState({ provingBench: i, sentences: [] });
      const answer = await ask({ type: 'selfProof', exercise: read.value, seed, randoms: RANDOMS });
      if (!stands() || answer.type !== 'selfProved') return;
      useOwnProof.setState((s) => ({ results: i === 0 ? answer.results : [...s.results, ...answer.results] }));
    }
    useOwnProof.setState({ provingBench: null, settled: true });
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    if (stands()) useOwnProof.setState({ ...FRESH, sentences: [said] });
  }
}
