/** Every bundled story gives one run, however one moves about in it. */
import { describe, expect, it } from 'vitest';
import { storyFrom } from '../../src/cli/stories.ts';
import { createSimulation, digestOf, restoreState, stepSimulation } from '../../src/engine/simulation.ts';
import type { Scenario, SimState } from '../../src/engine/types.ts';
import { advance, createSession, seek } from '../../src/host/session.ts';
import { STORIES } from './support.ts';

/** Eight minutes: nine checkpoints. */
const TICKS = 4900;
const HALF = 2700;

function uninterrupted(scenario: Scenario) {
  const session = createSession(scenario);
  advance(session, TICKS);
  return session.line;
}

describe.each(STORIES)('%s', (path) => {
  const scenario = storyFrom(path)!;
  const whole = uninterrupted(scenario);

  it('is the same at every checkpoint when somebody goes back and on again in the middle', () => {
    const session = createSession(scenario);
    advance(session, HALF);
    seek(session, 700);
    advance(session, 900);
    seek(session, HALF - 1);
    advance(session, TICKS - session.sim.state.tick);
    expect(session.line.digests).toEqual(whole.digests);
    expect(session.line.events).toEqual(whole.events);
  });

  it('is the same at every checkpoint when it is saved as JSON in the middle and resumed', () => {
    const first = createSimulation(scenario);
    while (first.state.tick < HALF) stepSimulation(first, []);
    const second = createSimulation(scenario);
    restoreState(second, JSON.parse(JSON.stringify(first.state)) as SimState);
    const digests: { tick: number; digest: string }[] = [];
    while (second.state.tick < TICKS) {
      if (second.state.tick % 600 === 0) digests.push({ tick: second.state.tick, digest: digestOf(second.state) });
      stepSimulation(second, []);
    }
    expect(digests.length).toBeGreaterThanOrEqual(4);
    expect(digests).toEqual(whole.digests.filter(({ tick }) => tick >= HALF));
  });
});
