/** The right answers of an exercise about switchings, by running its room. */
import type { OutputId } from '../../engine/types.ts';
import { OUTPUTS } from '../../engine/view.ts';
import { benchScenario } from '../edits.ts';
import { endTickOf, type Played, play } from '../replay.ts';
import type { Edge, EdgesByOutput, Keyed } from '../types.ts';
import { trueEdges } from './truth.ts';

export function playFor(exercise: Keyed, seed: number): Played {
  return play(benchScenario(exercise, seed), [], endTickOf(exercise));
}

/** What the room did, said as a prediction. */
export function solutionEdges(exercise: Keyed, played: Played): EdgesByOutput {
  const { outputs, fromS, toS } =
    exercise.kind === 'predict' ? exercise.predict : { outputs: OUTPUTS, fromS: 0, toS: exercise.observe.toS };
  const said = (output: OutputId): Edge[] =>
    trueEdges(played.events, output, { fromS, toS }).map(({ atS, on }) => ({ atS, on }));
  return Object.fromEntries(outputs.map((output) => [output, said(output)]));
}
