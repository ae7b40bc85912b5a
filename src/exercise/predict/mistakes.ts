/** Classic mistakes of predicting, made from what the room did: what somebody with that belief would have said. */
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { Played } from '../replay.ts';
import type { Edge, EdgesByOutput, PredictExercise, PredictSignatureId } from '../types.ts';
import { toleranceS } from './match.ts';
import { enteredS } from './signatures.ts';
import { type TrueEdge, trueEdges } from './truth.ts';

interface Mistake {
  id: PredictSignatureId;
  edges: EdgesByOutput;
}

function withEdge(right: EdgesByOutput, output: OutputId, i: number, edge: Edge | null): EdgesByOutput {
  const list = [...(right[output] ?? [])];
  if (edge) list[i] = edge;
  else list.splice(i, 1);
  return { ...right, [output]: list };
}

/** Each mistake that this run gives the occasion for, once, at its first occasion. */
export function classicMistakes(exercise: PredictExercise, played: Played, right: EdgesByOutput): Mistake[] {
  const { predict } = exercise;
  const { events } = played;
  const seenS = events.filter((e) => e.kind === 'seen').map((e) => e.tick / TICKS_PER_S);
  const truths = predict.outputs.flatMap((output) =>
    trueEdges(events, output, predict).map((truth, i) => ({ truth, i })),
  );
  const found: Mistake[] = [];
  const add = (id: PredictSignatureId, edges: EdgesByOutput | null): void => {
    if (edges && !found.some((mistake) => mistake.id === id)) found.push({ id, edges });
  };
  for (const { truth, i } of truths) {
    const { output, delayS } = truth;
    // Nobody says that an output goes off again before it came on.
    const earliestS = right[output]?.[i - 1]?.atS ?? predict.fromS;
    const far = (atS: number): boolean =>
      Math.abs(atS - truth.atS) > toleranceS(delayS, predict.toleranceS) && atS >= earliestS;
    const said = (atS: number) => (far(atS) ? withEdge(right, output, i, { atS, on: truth.on }) : null);
    if (truth.cause === 'delayFromLastPulse' || truth.cause === 'presenceOnly') {
      const entered = enteredS(seenS, truth);
      if (entered !== null) add('delayFromEntering', said(entered + delayS));
      const seenLater = seenS.some((s) => s > truth.atS);
      if (truth.cause === 'delayFromLastPulse' && seenLater) add('peopleNotMovement', withEdge(right, output, i, null));
    }
    if (truth.cause === 'brightForDwell') add('brightAtOnce', said(truth.atS - delayS));
  }
  const released = truths.find(({ truth }) => truth.cause === 'brightForDwell')?.truth;
  if (released && predict.outputs.includes('airContact')) add('daylightStopsFan', fanStopped(right, released));
  return found;
}

/** The fan said to stop together with a released row. */
function fanStopped(right: EdgesByOutput, released: TrueEdge): EdgesByOutput {
  return { ...right, airContact: [...(right.airContact ?? []), { atS: released.atS, on: false }] };
}
