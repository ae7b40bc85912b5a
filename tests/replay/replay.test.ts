import { beforeAll, describe, expect, it } from 'vitest';
import {
  createSimulation,
  digestOf,
  restoreState,
  type Simulation,
  stepSimulation,
} from '../../src/engine/simulation.ts';
import type { SimState, TimedInput } from '../../src/engine/types.ts';
import { firstMismatchTick, replayRecording } from '../../src/host/replay.ts';
import { act, advance, createSession, recordingOf, type Session } from '../../src/host/session.ts';
import { smallStory, timedActs } from '../support/smallStory.ts';

/** Two minutes: entry, sitting, a press, the sun moved, leaving. */
const TICKS = 1260;
const CHECK_EVERY = 30;
const scenario = smallStory();
const acts = timedActs();

function dueAt(tick: number): TimedInput[] {
  return acts.filter((act) => act.tick === tick);
}

/** Digests at every checkpoint from the simulation's tick on. */
function digestsOf(sim: Simulation, toTick: number): string[] {
  const digests: string[] = [];
  while (sim.state.tick < toTick) {
    if (sim.state.tick % CHECK_EVERY === 0) digests.push(digestOf(sim.state));
    stepSimulation(sim, dueAt(sim.state.tick));
  }
  return digests;
}

function recorded(): Session {
  const session = createSession(scenario);
  session.line.inputs = timedActs();
  advance(session, TICKS);
  return session;
}

describe('a run', () => {
  let first: string[] = [];
  beforeAll(() => {
    first = digestsOf(createSimulation(scenario), TICKS);
  });

  it('does something worth comparing', () => {
    const { events } = recorded().line;
    const kinds = new Set(events.map((event) => event.kind));
    for (const kind of ['pulse', 'seen', 'output', 'row', 'air', 'press', 'input']) expect(kinds).toContain(kind);
    expect(new Set(first).size).toBe(first.length);
  });

  it('is the same twice, at every checkpoint', () => {
    expect(digestsOf(createSimulation(scenario), TICKS)).toEqual(first);
  });

  it('is another with another seed', () => {
    const other = digestsOf(createSimulation(scenario, scenario.seed + 1), 300);
    expect(other).not.toEqual(first.slice(0, other.length));
  });

  for (const savedAt of [0, 37, 300, 421, 650, 901]) {
    it(`saved as JSON at tick ${savedAt} goes on as if nothing had been, at every checkpoint`, () => {
      const before = createSimulation(scenario);
      while (before.state.tick < savedAt) stepSimulation(before, dueAt(before.state.tick));
      const text = JSON.stringify(before.state);
      const after = createSimulation(scenario);
      restoreState(after, JSON.parse(text) as SimState);
      expect(digestsOf(after, TICKS)).toEqual(first.slice(Math.ceil(savedAt / CHECK_EVERY)));
    });
  }
});

describe('a recording', () => {
  it('replays to the same digests and events', () => {
    const session = recorded();
    const recording = JSON.parse(JSON.stringify(recordingOf(session))) as ReturnType<typeof recordingOf>;
    const replayed = replayRecording(scenario, recording);
    expect(replayed.firstMismatchTick).toBeNull();
    expect(replayed.engineDiffers).toBe(false);
    expect(replayed.session.line.digests).toEqual(recording.digests);
    expect(replayed.session.line.events).toEqual(session.line.events);
  });

  it('names the first minute at which it went another way', () => {
    const recording = recordingOf(recorded());
    const tampered = { ...recording, inputs: recording.inputs.filter((timed) => timed.tick !== 777) };
    expect(replayRecording(scenario, tampered).firstMismatchTick).toBe(1200);
  });

  it('goes on with serials of its own after those recorded', () => {
    const { session } = replayRecording(scenario, recordingOf(recorded()));
    act(session, { kind: 'press', input: 'air' });
    const serials = session.line.inputs.map(({ serial }) => serial);
    expect(new Set(serials).size).toBe(serials.length);
    expect(Math.max(...serials)).toBe(serials.at(-1));
  });

  it('names the first of several wrong digests', () => {
    const session = recorded();
    const recording = recordingOf(session);
    const digests = recording.digests.map((d, i) => (i >= 1 ? { ...d, digest: '0000000000000000' } : d));
    expect(firstMismatchTick(session, { ...recording, digests })).toBe(600);
  });
});
