/** The right answers of a prediction, by running its room. */
import type { OutputId } from '../../engine/types.ts';
import { benchScenario } from '../edits.ts';
import { endTickOf, type Played, play } from '../replay.ts';
import type { Edge, EdgesByOutput, PredictExercise } from '../types.ts';
import { trueEdges } from './truth.ts';

export function playFor(exercise: PredictExercise, seed: number): Played {
  return play(benchScenario(exercise, seed), [], endTickOf(exercise));
}

/** What the room did, said as a prediction. */
export function solutionEdges(exercise: PredictExercise, played: Played): EdgesByOutput {
  const { predict } = exercise;
  const said = (output: OutputId): Edge[] =>
    trueEdges(played.events, output, predict).map(({ atS, on }) => ({ atS, on }));
  return Object.fromEntries(predict.outputs.map((output) => [output, said(output)]));
}
