/** What the learner is given to predict with: pulses and daylight estimates to come, never what the outputs will do. */
import { rowLight } from '../../engine/control/control.ts';
import { createSimulation, stepSimulation } from '../../engine/simulation.ts';
import type { OutputId, Tick } from '../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S } from '../../engine/units.ts';
import { benchScenario } from '../edits.ts';
import type { PredictExercise } from '../types.ts';

export interface Given {
  /** Instants at which the controller takes movement, s. */
  seenS: number[];
  /** Daylight estimates, lx, one a second from second 0. */
  innerLx: Float32Array;
  windowLx: Float32Array;
  /** Outputs that are on when the window begins. */
  onAtStart: OutputId[];
}

/** Works the room of a bench from its start to the end of the window; some seconds for an hour with people in it. */
export function givenFor(exercise: PredictExercise, seed: number): Given {
  const { fromS, toS, outputs } = exercise.predict;
  const sim = createSimulation(benchScenario(exercise, seed));
  const endTick: Tick = secondsToTicks(toS);
  const given: Given = {
    seenS: [],
    innerLx: new Float32Array(Math.floor(toS) + 1),
    windowLx: new Float32Array(Math.floor(toS) + 1),
    onAtStart: [],
  };
  const on = new Set<OutputId>();
  for (let tick = 0; tick <= endTick; tick++) {
    for (const event of stepSimulation(sim, []).events) {
      if (event.kind === 'seen') given.seenS.push(tick / TICKS_PER_S);
      if (event.kind !== 'output' || tick >= fromS * TICKS_PER_S) continue;
      if (event.on) on.add(event.output);
      else on.delete(event.output);
    }
    if (tick % TICKS_PER_S !== 0) continue;
    given.innerLx[tick / TICKS_PER_S] = rowLight(sim.state.control, 'inner').daylightEstimateLx;
    given.windowLx[tick / TICKS_PER_S] = rowLight(sim.state.control, 'window').daylightEstimateLx;
  }
  given.onAtStart = outputs.filter((output) => on.has(output));
  return given;
}
