/** The right answers of an exercise, by running its room. */
import type { OutputId } from '../engine/types.ts';
import { benchScenario } from './edits.ts';
import { trueEdges } from './predict/truth.ts';
import { endTickOf, type Played, play } from './replay.ts';
import type { Edge, EdgesByOutput, Exercise } from './types.ts';

export function playFor(exercise: Exercise, seed: number): Played {
  return play(benchScenario(exercise, seed), [], endTickOf(exercise));
}

/** What the room did, said as a prediction. */
export function solutionEdges(exercise: Exercise, played: Played): EdgesByOutput {
  const { predict } = exercise;
  const said = (output: OutputId): Edge[] =>
    trueEdges(played.events, output, predict).map(({ atS, on }) => ({ atS, on }));
  return Object.fromEntries(predict.outputs.map((output) => [output, said(output)]));
}
