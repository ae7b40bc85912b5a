/** Proofs of a prediction: the solution, nothing at all, each classic mistake by its name, and random answers. */
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import type { OutputId } from '../../engine/types.ts';
import { type Dice, diceOf } from '../dice.ts';
import { markAttempt } from '../mark.ts';
import type { Played } from '../replay.ts';
import type { Attempt, Edge, EdgesByOutput, Mark, PredictExercise, ProofResult } from '../types.ts';
import { classicMistakes } from './mistakes.ts';
import { playFor, solutionEdges } from './solution.ts';
import { onAtStart } from './truth.ts';

export function attemptWith(exercise: PredictExercise, seed: number, edges: EdgesByOutput): Attempt {
  return {
    format: 1,
    exercise: exercise.id,
    seed,
    engine: ENGINE_VERSION,
    names: [],
    aid: exercise.aid,
    inputs: [],
    headTick: 0,
    digests: [],
    answers: { predict: { edges } },
  };
}

/** Edges without thought: up to six per output, at whole steps of five seconds, on and off in turn. */
export function randomEdges(exercise: PredictExercise, played: Played, dice: Dice): EdgesByOutput {
  const { predict } = exercise;
  const steps = Math.floor((predict.toS - predict.fromS) / 5);
  const said = (output: OutputId): Edge[] => {
    const count = dice(7);
    const times = Array.from({ length: count }, () => predict.fromS + 5 * dice(steps));
    const startsOn = onAtStart(played.events, output, predict);
    return [...new Set(times)].sort((a, b) => a - b).map((atS, i) => ({ atS, on: (i % 2 === 0) !== startsOn }));
  };
  return Object.fromEntries(predict.outputs.map((output) => [output, said(output)]));
}

/** `randoms`: how many random predictions are tried. */
export function provePrediction(exercise: PredictExercise, seed: number, randoms: number): ProofResult[] {
  const played = playFor(exercise, seed);
  const markOf = (edges: EdgesByOutput): Mark => markAttempt(exercise, attemptWith(exercise, seed, edges), played);
  const result = (proof: string, fault: string | null): ProofResult => ({ exercise: exercise.id, seed, proof, fault });
  const right = solutionEdges(exercise, played);
  const solution = markOf(right);
  const nothing = markOf({});
  const results = [
    result('the solution passes', solution.total === 100 ? null : `the solution has ${solution.total} of 100`),
    result('doing nothing fails', nothing.pass ? `nothing at all has ${nothing.total} of 100` : null),
  ];
  for (const { id, edges } of classicMistakes(exercise, played, right)) {
    const mark = markOf(edges);
    const named = mark.signatures.some((signature) => signature.id === id);
    const lost = mark.parts
      .flatMap(({ lines }) => lines)
      .filter(({ points, of, say }) => points < of || say.code === 'edgeExtra');
    const fault = lost.length !== 1 ? `loses ${lost.length} switchings` : named ? null : 'is not called by its name';
    results.push(result(`the mistake ${id} loses one switching and is named`, fault));
  }
  const passed: number[] = [];
  for (let i = 0; i < randoms; i++) {
    if (markOf(randomEdges(exercise, played, diceOf(exercise.id, seed, i))).pass) passed.push(i);
  }
  const fault = passed.length === 0 ? null : `random answers ${passed.join(', ')} pass`;
  results.push(result(`${randoms} random answers fail`, fault));
  return results;
}
