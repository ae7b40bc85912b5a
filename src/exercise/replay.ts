/** An attempt played again: the events that the mark is made from, and whether they are those of the attempt. */
import { createSimulation, digestOf, type Simulation, type StepResult, stepSimulation } from '../engine/simulation.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { Scenario, Tick, TimedInput } from '../engine/types.ts';
import { secondsToTicks } from '../engine/units.ts';
import { windowEndS } from './edits.ts';
import type { Attempt, Exercise } from './types.ts';

/** Digests are this far apart, ticks. Source: the product's decision, each simulated minute. */
export const DIGEST_EVERY_TICKS = 600;

export interface Played {
  events: TraceEvent[];
  /** At the start of each minute, before its first tick. */
  digests: { tick: Tick; digest: string }[];
  sim: Simulation;
}

/** Last tick that an exercise needs, exclusive. */
export function endTickOf(exercise: Exercise): Tick {
  return secondsToTicks(windowEndS(exercise)) + 1;
}

/** Runs a room with inputs (ordered by tick and serial) up to `endTick`. `each` sees what every tick brought. */
export function play(
  scenario: Scenario,
  inputs: readonly TimedInput[],
  endTick: Tick,
  each?: (step: StepResult, sim: Simulation) => void,
): Played {
  const sim = createSimulation(scenario);
  const events: TraceEvent[] = [];
  const digests: Played['digests'] = [];
  let next = 0;
  for (let tick = 0; tick < endTick; tick++) {
    if (tick % DIGEST_EVERY_TICKS === 0) digests.push({ tick, digest: digestOf(sim.state) });
    const from = next;
    while (next < inputs.length && inputs[next]!.tick <= tick) next++;
    const step = stepSimulation(sim, inputs.slice(from, next));
    for (const event of step.events) events.push(event);
    each?.(step, sim);
  }
  return { events, digests, sim };
}

/** First minute at which the attempt's own digests differ from the run; null while they agree. */
export function firstMismatchTick(played: Pick<Played, 'digests'>, attempt: Attempt): Tick | null {
  const mine = new Map(played.digests.map(({ tick, digest }) => [tick, digest]));
  for (const { tick, digest } of attempt.digests) {
    const own = mine.get(tick);
    if (own !== undefined && own !== digest) return tick;
  }
  return null;
}
