import { describe, expect, it } from 'vitest';
import { createSimulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { Input, PersonSpec, Scenario, WarmThingSpec } from '../../src/engine/types.ts';
import { smallStory } from '../support/smallStory.ts';

const story = smallStory();

/** A curtain and a fan at work, and a robot at rest: three that a muddle of their numbers would exchange. */
const THINGS: WarmThingSpec[] = [
  { id: 'curtain', kind: 'curtain', atM: [2, 3.6], heightM: 2.4, excessK: 8, on: true },
  { id: 'robot', kind: 'cleaningRobot', atM: [3.4, 0.6], heightM: 0.1, excessK: 12, on: false },
  { id: 'fan', kind: 'fan', atM: [0.7, 2.6], heightM: 1.1, excessK: 4, on: true },
];

const ROOM: Scenario = {
  ...story,
  script: [],
  people: [],
  warmThings: THINGS,
  room: { ...story.room, furniture: [] },
  detectorModel: { ...story.detectorModel, noiseUv: 0 },
};

const STANDING: PersonSpec = {
  ...story.people[0]!,
  id: 'J',
  cameFromC: 21,
  atM: [1, 1],
  outsideAtStart: false,
  plan: [{ act: 'standStill' }],
};

/** Ten seconds, in the middle of which a Stand-in may join. */
function run(joins: PersonSpec | null) {
  const sim = createSimulation(ROOM);
  const signalUv: number[][] = [];
  for (let tick = 0; tick < 100; tick++) {
    const input: Input | null = tick === 50 && joins ? { kind: 'addPerson', person: joins } : null;
    stepSimulation(sim, input ? [{ tick, serial: 0, input }] : []);
    signalUv.push([...sim.scratch.signalUv]);
  }
  return { signalUv, tracks: sim.state.movement.tracks };
}

describe('a warm thing, when somebody joins', () => {
  const alone = run(null);

  it('has a signal of its own to speak of', () => {
    expect(Math.max(...alone.signalUv.slice(50).flat().map(Math.abs))).toBeGreaterThan(20);
  });

  it('keeps its signal to the last bit while who joined is outside', () => {
    expect(run({ ...STANDING, outsideAtStart: true })).toEqual(alone);
  });

  it('keeps its weight, its flux and its memory when somebody who stands still joins in the room', () => {
    const { signalUv, tracks } = run(STANDING);
    const things = tracks.slice(1);
    things.forEach((track, i) => {
      const before = alone.tracks[i]!;
      expect([track.owner, track.weights, track.fluxW]).toEqual([before.owner, before.weights, before.fluxW]);
    });
    const worst = Math.max(...signalUv.flat().map((uv, k) => Math.abs(uv - alone.signalUv.flat()[k]!)));
    // The newcomer's flux and what is taken off for it leave a rounding of 1e-16 W.
    expect(worst).toBeLessThan(0.001);
  });
});
