/** Bringing a copy of the room to an instant of the run so far. */
import { restoreState, type Simulation, type StepResult, stepSimulation } from '../engine/simulation.ts';
import type { SimState, Tick } from '../engine/types.ts';
import { type Checkpoint, checkpointFor, inputsAt, type Line } from './line.ts';

export function restoreText(sim: Simulation, checkpoint: Checkpoint): void {
  restoreState(sim, JSON.parse(checkpoint.text) as SimState);
}

/** Brings a room to a state on known ground, from where it is or from the nearest clone before. */
export function reach(sim: Simulation, line: Line, stateTick: Tick, fromHere: boolean): StepResult | null {
  const checkpoint = checkpointFor(line, Math.max(0, stateTick - 1));
  const here = fromHere && sim.state.tick < stateTick && sim.state.tick >= (checkpoint?.tick ?? 0);
  if (!here && checkpoint) restoreText(sim, checkpoint);
  let step: StepResult | null = null;
  while (sim.state.tick < stateTick) step = stepSimulation(sim, inputsAt(line, sim.state.tick));
  return step;
}
