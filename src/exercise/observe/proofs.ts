/** Proofs of an observation: what the record holds, nothing at all, each classic mistake by its name, random tags. */
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import { OUTPUTS } from '../../engine/view.ts';
import { drawn } from '../edits.ts';
import { markAttempt } from '../mark.ts';
import { SKILL_OF } from '../predict/mark.ts';
import { playFor } from '../predict/solution.ts';
import type { Attempt, CauseId, Mark, ProofResult } from '../types.ts';
import { classicTagMistakes, momentsOf, solutionTags } from './tags.ts';
import type { ObserveExercise, Tag } from './types.ts';

const CAUSES = Object.keys(SKILL_OF) as CauseId[];

function attemptWith(exercise: ObserveExercise, seed: number, tags: Tag[]): Attempt {
  const { id, aid } = exercise;
  const answers = { observe: { tags } };
  return {
    format: 1,
    exercise: id,
    seed,
    engine: ENGINE_VERSION,
    names: [],
    aid,
    inputs: [],
    headTick: 0,
    digests: [],
    answers,
  };
}

/** Tags without thought: as many as there are moments, each on any output, at any whole second, with any cause. */
export function randomTags({ observe }: ObserveExercise, seed: number): Tag[] {
  return Array.from({ length: observe.moments }, (_, i) => ({
    atS: drawn(seed, 100 + i, observe.toS),
    output: OUTPUTS[drawn(seed, 200 + i, OUTPUTS.length)]!,
    cause: CAUSES[drawn(seed, 300 + i, CAUSES.length)]!,
  }));
}

/** `randoms`: how many random readings of the record are tried. */
export function proveObservation(exercise: ObserveExercise, seed: number, randoms: number): ProofResult[] {
  const played = playFor(exercise, seed);
  const truths = momentsOf(exercise.observe, played.events);
  const right = solutionTags(truths);
  const markOf = (tags: Tag[]): Mark => markAttempt(exercise, attemptWith(exercise, seed, tags), played);
  const result = (proof: string, fault: string | null): ProofResult => ({ exercise: exercise.id, seed, proof, fault });
  const { moments } = exercise.observe;
  const solution = markOf(right);
  const allSeen = markOf(right.map((tag) => ({ ...tag, cause: 'seen' })));
  const results = [
    result(
      'the record holds the moments asked for',
      truths.length === moments ? null : `it holds ${truths.length}, not ${moments}`,
    ),
    result('the solution passes', solution.total === 100 ? null : `the solution has ${solution.total} of 100`),
    result('doing nothing fails', markOf([]).pass ? 'nothing at all passes' : null),
    result('one cause for every moment fails', allSeen.pass ? `it has ${allSeen.total} of 100` : null),
  ];
  for (const { id, tags } of classicTagMistakes(truths, played.events)) {
    const mark = markOf(tags);
    const named = mark.signatures.filter((signature) => signature.id === id).length === 1;
    const lost = mark.parts[0]!.lines.filter(({ points, of }) => points < of);
    const fault = lost.length !== 1 ? `loses ${lost.length} moments` : named ? null : 'is not called by its name';
    results.push(result(`the mistake ${id} loses one moment and is named`, fault));
  }
  const passed: number[] = [];
  for (let i = 0; i < randoms; i++) {
    if (markOf(randomTags(exercise, seed * 100_003 + i)).pass) passed.push(i);
  }
  const fault = passed.length === 0 ? null : `random tags ${passed.join(', ')} pass`;
  results.push(result(`${randoms} random readings fail`, fault));
  return results;
}
