/** Somebody up the ladder takes light from the photometers: closed form, and what it does to a setting made from there. */
import { describe, expect, it } from 'vitest';
import type { SceneSensor } from '../../src/engine/light/scene.ts';
import { clearShare } from '../../src/engine/light/shade.ts';
import type { RoomLight } from '../../src/engine/light/types.ts';
import { createSimulation, type Simulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { Input, PlanStep, Scenario } from '../../src/engine/types.ts';
import { smallStory } from '../support/smallStory.ts';

const DOWN: SceneSensor = { id: 'p', positionM: [2, 2, 3], normal: [0, 0, -1], halfAngleDeg: 40 };
/** Radius of the body. Source: shade.ts, said there as an assumption. */
const RADIUS_M = 0.22;

describe('a body before a photometer', () => {
  it.each([0.3, 0.6, 1.2])('%s m straight below takes the share of its disc', (belowM) => {
    // Source: cosine-weighted share of a disc seen on the axis, sin^2 of its half-angle; the cone's own is sin^2 40.
    const sin2 = RADIUS_M ** 2 / (RADIUS_M ** 2 + belowM ** 2);
    const taken = sin2 / Math.sin((40 * Math.PI) / 180) ** 2;
    const body = { atM: [2, 2] as [number, number], fromM: 0.6, toM: 3 - belowM };
    expect(1 - clearShare(DOWN, [body])).toBeCloseTo(Math.min(1, taken), 2);
  });

  it('takes nothing outside the cone, and two bodies take no more than both', () => {
    const far = { atM: [2, 4.5] as [number, number], fromM: 0.6, toM: 2.4 };
    const near = { atM: [2.3, 2] as [number, number], fromM: 0.6, toM: 2.4 };
    expect(clearShare({ ...DOWN, halfAngleDeg: 20 }, [far])).toBe(1);
    const one = 1 - clearShare(DOWN, [near]);
    const both = 1 - clearShare(DOWN, [near, far]);
    expect(both).toBeGreaterThanOrEqual(one);
    expect(both).toBeLessThanOrEqual(one + (1 - clearShare(DOWN, [far])));
  });
});

function act(sim: Simulation, inputs: Input[], ticks: number) {
  const timed = inputs.map((input, i) => ({ tick: sim.state.tick, serial: i + 1, input }));
  let step = stepSimulation(sim, timed);
  for (let i = 1; i < ticks; i++) step = stepSimulation(sim, []);
  return step;
}

describe('You up the ladder', () => {
  const story: Scenario = { ...smallStory(), people: [], script: [], sky: 'overcast' };
  const { atM } = story.mount;
  const plan = (steps: PlanStep[]): Input => ({ kind: 'setPlan', personId: 'Y', plan: steps });
  const you: Input = {
    kind: 'addPerson',
    person: {
      id: 'Y',
      heightM: 1.74,
      clothingClo: 1,
      cameFromC: 21,
      // On the room's side of the detector, before the inner photometer.
      atM: [atM[0], atM[1] - 0.3],
      headingDeg: 0,
      outsideAtStart: false,
      plan: [],
    },
  };

  it('shade the photometer before which they stand more than the other, no desk, and neither once down again', () => {
    // Without supply no lamp comes on, and daylight hardly changes in these seconds.
    const sim = createSimulation({ ...story, supplyAtStart: false });
    const before = act(sim, [you], 20).light;
    const up = act(sim, [plan([{ act: 'ladder' }])], 60).light;
    const down = act(sim, [plan([{ act: 'standStill' }])], 60).light;
    const left = (light: RoomLight, key: 'innerLx' | 'windowLx') => light.readings[key] / before.readings[key];
    expect(left(up, 'innerLx')).toBeLessThan(0.8);
    expect(left(up, 'windowLx')).toBeGreaterThan(left(up, 'innerLx'));
    for (const key of ['innerLx', 'windowLx'] as const) expect(left(down, key)).toBeCloseTo(1, 1);
    expect(up.deskLx.map((lx, i) => lx / before.deskLx[i]!)).toEqual(up.deskLx.map(() => expect.closeTo(1, 1)));
  });

  it('are seen climbing, and stay up until told otherwise', () => {
    const sim = createSimulation(story);
    act(sim, [you], 700);
    let seen = 0;
    for (let i = 0; i < 60; i++) {
      const inputs = i === 0 ? [{ tick: sim.state.tick, serial: 9, input: plan([{ act: 'ladder' }]) }] : [];
      seen += stepSimulation(sim, inputs).events.filter(({ kind }) => kind === 'seen').length;
    }
    expect(seen).toBeGreaterThan(0);
    act(sim, [], 100);
    expect(sim.state.people[0]!.act).toBe('ladder');
  });

  it('come down before they walk away', () => {
    const sim = createSimulation(story);
    act(sim, [you, plan([{ act: 'ladder' }])], 60);
    act(sim, [plan([{ act: 'walk', toM: [atM[0] + 1.5, atM[1]], speedMps: 1 }])], 20);
    expect(sim.state.people[0]!.walkTicks).toBe(0);
    act(sim, [], 60);
    expect(sim.state.people[0]!.atM[0]).toBeCloseTo(atM[0] + 1.5, 2);
  });
});
