/** What the promises of stories have in common: loading, running without a screen, and reading the log. */
import { storyFrom } from '../../src/cli/stories.ts';
import { createSimulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { TraceEvent } from '../../src/engine/trace.ts';
import type { ControllerSettings, OutputId, Scenario } from '../../src/engine/types.ts';
import { secondsToTicks } from '../../src/engine/units.ts';
import { filesBelow } from '../house/files.ts';

export const STORIES = filesBelow('scenarios', /\.json$/).filter(
  (path) => path.split('/').length === 2 && !path.endsWith('/faults.json'),
);

export function story(id: string): Scenario {
  const scenario = storyFrom(`scenarios/${id}.json`);
  if (!scenario) throw new Error(`${id} does not load`);
  return scenario;
}

/** Events of the first `forS` seconds, with settings changed from the start. */
export function run(scenario: Scenario, forS: number, change: Partial<ControllerSettings> = {}): TraceEvent[] {
  const sim = createSimulation({ ...scenario, settings: { ...scenario.settings, ...change } });
  const events: TraceEvent[] = [];
  for (let tick = 0; tick < secondsToTicks(forS); tick++) events.push(...stepSimulation(sim, []).events);
  return events;
}

export interface Switching {
  atS: number;
  on: boolean;
  why: string;
}

export function switchings(events: readonly TraceEvent[], output: OutputId): Switching[] {
  return events.flatMap((e) =>
    e.kind === 'output' && e.output === output ? [{ atS: e.tick / 10, on: e.on, why: e.reason.code }] : [],
  );
}

/** When the controller took movement, s. */
export function seenAtS(events: readonly TraceEvent[]): number[] {
  return events.flatMap((e) => (e.kind === 'seen' ? [e.tick / 10] : []));
}
