import { describe, expect, it } from 'vitest';
import { reachOf, viewOfBody } from '../../src/engine/detection/bodyView.ts';
import { maskBitsOf } from '../../src/engine/detection/sense.ts';
import { createSightWatch, type PersonSight, sightsNow, watchTick } from '../../src/engine/personSight.ts';
import { createSimulation, type Simulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { FurnitureSpec, Input, PersonSpec, PlanStep, Scenario } from '../../src/engine/types.ts';
import { smallStory } from '../support/smallStory.ts';

const story = smallStory();

function person(id: string, atM: [number, number], plan: PlanStep[]): PersonSpec {
  return { ...story.people[0]!, id, atM, outsideAtStart: false, cameFromC: 21, headingDeg: 90, plan };
}

function roomWith(people: PersonSpec[], change: Partial<Scenario> = {}): Scenario {
  return { ...story, script: [], people, ...change };
}

function watched(
  scenario: Scenario,
  ticks: number,
  each: (sim: Simulation, shares: Float64Array[]) => void = () => {},
) {
  const sim = createSimulation(scenario);
  const watch = createSightWatch(sim);
  for (let i = 0; i < ticks; i++) {
    stepSimulation(sim, []);
    watchTick(watch, sim);
    each(
      sim,
      watch.shares.map((share) => share.signalUv),
    );
  }
  return { sim, sights: sightsNow(watch, sim) };
}

function one(scenario: Scenario, ticks = 400): PersonSight {
  return watched(scenario, ticks).sights[0]!;
}

const ACROSS: PlanStep[] = Array.from({ length: 20 }, (_, i) => ({
  act: 'walk',
  toM: i % 2 === 0 ? [3.5, 0.6] : [0.5, 0.6],
  speedMps: 1,
}));

/** Assumed standing room: thin, from floor to above the sight line, between the detector and the front wall. */
function pane(kind: 'glassScreen' | 'screen'): FurnitureSpec {
  return { id: 'pane', kind, atM: [2, 1.2], turnDeg: 0, widthM: 4, depthM: 0.05, heightM: 2.7, reflectance: 0.5 };
}

function walled(kind: 'glassScreen' | 'screen'): Scenario {
  return roomWith([person('B', [0.5, 0.6], ACROSS)], { room: { ...story.room, furniture: [pane(kind)] } });
}

describe("one body's share of the signal", () => {
  it('adds up, over all bodies, to the signal that the comparators saw when there is no noise', () => {
    const quiet = roomWith(
      [person('A', [0.5, 0.6], ACROSS), person('B', [3.4, 3.2], [{ act: 'stretch' }]), person('C', [1.2, 0.6], ACROSS)],
      { detectorModel: { ...story.detectorModel, noiseUv: 0 } },
    );
    let largest = 0;
    let worst = 0;
    watched(quiet, 200, (sim, shares) => {
      for (let k = 0; k < 20; k++) {
        const sum = shares.reduce((uv, share) => uv + share[k]!, 0);
        largest = Math.max(largest, Math.abs(sum));
        worst = Math.max(worst, Math.abs(sum - sim.scratch.signalUv[k]!));
      }
    });
    expect(largest).toBeGreaterThan(100);
    // The shown signal has 24 bits: half a step at 512 µV is 3e-5.
    expect(worst).toBeLessThan(1e-4);
  });

  it('is nothing for who is set down by hand', () => {
    const sim = createSimulation(roomWith([person('A', [0.6, 3], [{ act: 'standStill' }])]));
    const watch = createSightWatch(sim);
    for (let tick = 0; tick < 120; tick++) {
      const placed: Input = { kind: 'placePerson', personId: 'A', atM: [2.5, 1.5] };
      stepSimulation(sim, tick === 60 ? [{ tick, serial: 0, input: placed }] : []);
      watchTick(watch, sim);
    }
    const [sight] = sightsNow(watch, sim);
    expect(Math.abs(sight!.largest?.uv ?? 0)).toBeLessThan(0.5);
    expect(sight!.cause).toBe('still');
  });
});

describe('why somebody is not seen', () => {
  it('is stillness for who has not moved', () => {
    expect(one(roomWith([person('B', [1, 1], [{ act: 'standStill' }])]))).toMatchObject({ cause: 'still' });
  });

  it('is the glass for who walks behind it, all of the body and no signal; without it the walker is strong enough', () => {
    const behind = one(walled('glassScreen'));
    expect(behind).toMatchObject({ cause: 'hidden', hider: 'glassScreen' });
    expect(behind.view!.behindThings).toBeGreaterThan(0.99);
    expect(Math.abs(behind.largest?.uv ?? 0)).toBeLessThan(1);
    const open = one(roomWith([person('B', [0.5, 0.6], ACROSS)], { room: { ...story.room, furniture: [] } }));
    expect(open.cause).toBe('strongEnough');
  });

  it('is the clips for who walks in masked sectors', () => {
    const settings = { ...story.settings, maskedSectors: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] };
    const sight = one(roomWith([person('B', [0.5, 0.6], ACROSS)], { settings }));
    expect(sight).toMatchObject({ cause: 'masked' });
    expect(sight.view!.masked).toBeGreaterThan(0.9);
  });

  it('is contrast in a room as warm as the walker, and the same walk is strong enough at 21 degrees', () => {
    const hot = { ...story.room, airTemperatureC: 35, radiantTemperatureC: 35 };
    const walker = { ...person('B', [0.5, 0.6], ACROSS), cameFromC: 35 };
    const sight = one(roomWith([walker], { room: hot }));
    expect(sight.cause).toBe('littleContrast');
    expect(Math.abs(sight.contrastK!)).toBeLessThan(1);
    expect(Math.abs(sight.largest!.uv)).toBeLessThan(sight.needed.uv);
  });

  it('is the reach of the lens for who walks beyond its outermost ring, 21 m away at 2.6 m, and no longer at 8 m', () => {
    const across = (x: number): PlanStep[] =>
      Array.from({ length: 20 }, (_, i) => ({ act: 'walk', toM: [x, i % 2 === 0 ? 3.4 : 0.6], speedMps: 1 }));
    const hall = (x: number) =>
      one(
        roomWith([person('B', [x, 0.6], across(x))], {
          room: { ...story.room, widthM: 26, furniture: [] },
          mount: { atM: [1.5, 2], heightM: 2.6, turnDeg: 0 },
        }),
      );
    const far = hall(22.5);
    expect(far).toMatchObject({ cause: 'outOfReach', hider: null });
    // Outer edge of the lens: 80.7 degrees and its blur, 2.6 m x tan = 16 to 18 m on the floor; all of the body is above.
    expect(far.view!.outOfReach).toBeGreaterThan(0.99);
    expect(Math.abs(far.largest?.uv ?? 0)).toBeLessThan(1);
    const near = hall(9.5);
    expect(near.cause).toBe('strongEnough');
    expect(near.view!.outOfReach).toBeLessThan(0.5);
  });

  it('is the gap between two beams for a child under a detector 5 m up, and not for one a metre aside', () => {
    const bearing = Math.PI / 6;
    const hall = (outM: number) =>
      one(
        roomWith(
          [
            {
              ...person('B', [2 + outM * Math.sin(bearing), 2 + outM * Math.cos(bearing)], [{ act: 'sway', forS: 60 }]),
              heightM: 1.05,
            },
          ],
          {
            room: { ...story.room, heightM: 5, furniture: [] },
            mount: { atM: [2, 2], heightM: 5, turnDeg: 0 },
          },
        ),
      );
    const child = hall(0.6);
    expect(child.cause).toBe('betweenBeams');
    expect(child.view!.betweenBeams).toBeGreaterThan(0.98);
    expect(child.movedTick).not.toBeNull();
    expect(hall(1.6).view!.inBeams).toBeGreaterThan(0.1);
  });

  it('is that a step was seen only once in an empty room; a second step at once is strong enough and switches on', () => {
    const step = (toM: [number, number], fromS?: number): PlanStep => ({
      act: 'walk',
      toM,
      speedMps: 1,
      ...(fromS === undefined ? {} : { fromS }),
    });
    const room = { ...story.room, furniture: [] };
    const once = watched(roomWith([person('B', [2, 0.9], [step([2, 1.1], 40)])], { room }), 500);
    const [sight] = once.sights;
    expect(sight).toMatchObject({ cause: 'onlyOnce', needed: { rule: 'switchOn' } });
    expect(Math.abs(sight!.largest!.uv)).toBeGreaterThan(1.5 * story.detectorModel.switchOnUv);
    expect(once.sim.state.control.occupiedAtEnd).toBe(false);
    const twice = watched(roomWith([person('B', [2, 0.9], [step([2, 1.1], 40), step([2, 0.9])])], { room }), 500);
    expect(twice.sights[0]!.cause).toBe('strongEnough');
    expect(twice.sim.state.control.occupiedAtEnd).toBe(true);
  });

  it('is named with the threshold in force: switch on in an empty room, hold once somebody was seen', () => {
    const still = person('B', [1, 1], [{ act: 'standStill' }]);
    const { holdUv, switchOnUv, reducedFactor } = story.detectorModel;
    expect(one(roomWith([still]), 60).needed).toEqual({ rule: 'switchOn', uv: switchOnUv, reduced: false });
    expect(one(roomWith([person('B', [0.5, 0.6], ACROSS)])).needed).toEqual({
      rule: 'hold',
      uv: holdUv,
      reduced: false,
    });
    const settings = { ...story.settings, reducedSensitivity: true };
    const reduced = one(roomWith([still], { settings }), 60).needed;
    expect(reduced).toEqual({ rule: 'switchOn', uv: switchOnUv * reducedFactor, reduced: true });
  });
});

describe('what the detector has of a body', () => {
  it('is shares of its silhouette that add up to one, whatever stands before it', () => {
    const { sights } = watched(
      roomWith([
        person('A', [2.8, 0.9], ACROSS),
        person('B', [3.2, 3.4], [{ act: 'type' }]),
        person('C', [3, 3.1], ACROSS),
      ]),
      37,
    );
    for (const { view } of sights) {
      const { inBeams, betweenBeams, masked, behindThings, behindPeople, outOfReach } = view!;
      // A cell at a rim that another body shares may count for a little more than itself.
      expect(inBeams + betweenBeams + masked + behindThings + behindPeople + outOfReach).toBeCloseTo(1, 1);
      expect(inBeams).toBeGreaterThan(0);
    }
  });

  it('has the solid angle of a ball, 2 pi (1 - cos of its half-angle), where the body is one', () => {
    const sim = createSimulation(roomWith([person('A', [0.8, 0.8], [{ act: 'standStill' }])]));
    for (let i = 0; i < 3; i++) stepSimulation(sim, []);
    const buffer = sim.scratch.bodies[4]!;
    const [radiusM, farM] = [0.3, 1.8];
    buffer.parts.fill(0);
    buffer.parts.set([2 + 1, 2, 2.8 - Math.sqrt(farM * farM - 1), radiusM, 0, 0, 0, radiusM, 0, 0, 0, radiusM]);
    const track = { ...sim.state.movement.tracks[0]!, sphereM: [buffer.parts[0]!, 2, buffer.parts[2]!, radiusM] };
    const { movement } = sim.tables;
    const view = viewOfBody(movement, reachOf(movement.map), buffer, 0, track, maskBitsOf([]), [1, 1, 1, 1, 1]);
    const exact = 2 * Math.PI * (1 - Math.sqrt(1 - (radiusM / farM) ** 2));
    // Rows of the grid are sampled in their middle: 1 % of a disc some thirty rows high.
    expect(Math.abs(view.silhouetteSr / exact - 1)).toBeLessThan(0.01);
    expect(view.contrast).toBeCloseTo(1, 6);
  });
});
