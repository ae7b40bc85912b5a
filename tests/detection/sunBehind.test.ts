import { describe, expect, it } from 'vitest';
import { movementAt, SURFACES_EVERY_TICKS, warmingSun } from '../../src/engine/background.ts';
import { weightM2 } from '../../src/engine/detection/angularMap.ts';
import { withSurfaces } from '../../src/engine/detection/background.ts';
import { stepChain } from '../../src/engine/detection/chain.ts';
import { bakedDepthM, bakedWarmth } from '../../src/engine/detection/scene.ts';
import { renewSurfaces } from '../../src/engine/detection/sense.ts';
import type { MovementTables } from '../../src/engine/detection/types.ts';
import { bandRadianceSlope } from '../../src/engine/heat/planck.ts';
import {
  createSimulation,
  digestOf,
  movementNow,
  type Simulation,
  stepSimulation,
} from '../../src/engine/simulation.ts';
import { stillSurfaces } from '../../src/engine/stillSurfaces.ts';
import type {
  FurnitureSpec,
  Input,
  PersonSpec,
  PlanStep,
  Scenario,
  Vector3,
  WarmThingSpec,
} from '../../src/engine/types.ts';
import { warmthOf } from '../../src/engine/warmth.ts';
import { smallStory } from '../support/smallStory.ts';
import { createStage, fillBuffer, MANIKIN, runStage } from './stage.ts';

const story = smallStory();
/** Sun through the back window on an empty floor, 4 x 4 m, the detector over its middle; no noise. */
const SUNNY: Scenario = {
  ...story,
  script: [],
  people: [],
  sky: 'clear',
  room: { ...story.room, furniture: [] },
  detectorModel: { ...story.detectorModel, noiseUv: 0 },
};

function at(localTime: string, change: Partial<Scenario> = {}): Scenario {
  return { ...SUNNY, start: { ...SUNNY.start, localTime }, ...change };
}

function person(atM: [number, number], plan: PlanStep[]): PersonSpec {
  return { ...story.people[0]!, id: 'B', atM, outsideAtStart: false, cameFromC: 21, headingDeg: 90, plan };
}

function toAndFro(y: number, from: number, to: number): PlanStep[] {
  return Array.from({ length: 6 }, (_, i) => ({ act: 'walk', toM: [i % 2 ? from : to, y], speedMps: 1 }));
}

const SHUT: Input = { kind: 'setBlind', windowId: 'window', closedShare: 1 };

/** Largest signal of a run, µV; `first`: what is done at its start. */
function peakOf(scenario: Scenario, ticks: number, first: Input[] = [], each: (sim: Simulation) => void = () => {}) {
  const sim = createSimulation(scenario);
  let peak = 0;
  for (let tick = 0; tick < ticks; tick++) {
    stepSimulation(sim, tick === 0 ? first.map((input, serial) => ({ tick, serial, input })) : []);
    for (const uv of sim.scratch.signalUv) peak = Math.max(peak, Math.abs(uv));
    each(sim);
  }
  return peak;
}

/** Direction from the detector to a point, in its own frame (it is not turned here). */
function toward(tables: MovementTables, p: readonly number[]): Vector3 {
  const d = p.map((x, k) => x - tables.surroundings.eyeM[k]!);
  const far = Math.hypot(...d);
  return d.map((x) => x / far) as Vector3;
}

describe('the background of sensing', () => {
  it('is what the Warmth Map shows: the same kelvins on sunny floor, sunny desk and cold glass', () => {
    const scenario = at('10:40', { room: story.room, site: { ...story.site, outsideAirC: -5 } });
    const sim = createSimulation(scenario);
    for (let k = 0; k < 3; k++) stepSimulation(sim, []);
    const { patches, backgroundC } = warmthOf(sim);
    expect(patches.map((p) => p.kind).sort()).toEqual(['sunFloor', 'sunTop', 'window']);
    const tables = movementNow(sim);
    for (const patch of patches) {
      // Its own middle may lie in the shade of the desk: of points over the face those that the eye sees tell it.
      const [x, y, z] = patch.facesM[0]!;
      const spots = [0.05, 0.2, 0.4].map((share) => patch.middleM.map((m, k) => m + ([x, y, z][k]! - m) * share));
      const seen = spots.filter((p) => {
        const far = Math.hypot(...p.map((q, k) => q - tables.surroundings.eyeM[k]!));
        return bakedDepthM(tables.scene, toward(tables, p)) > far - 0.05;
      });
      expect(seen.length).toBeGreaterThan(0);
      for (const p of seen) {
        const kelvin = bakedWarmth(tables.scene, toward(tables, p)) / bandRadianceSlope(backgroundC);
        expect(kelvin).toBeCloseTo(patch.contrastK, 4);
      }
    }
  });

  it('lies where rays say: of 4,000 directions each that ends on a surface has its radiance, all others none', () => {
    const screen: FurnitureSpec = {
      ...{ id: 'screen', kind: 'screen', atM: [2.4, 1.4], turnDeg: 0, widthM: 1.4, depthM: 0.05, heightM: 1.4 },
      reflectance: 0.5,
    };
    const scenario = at('10:40', {
      room: { ...story.room, furniture: [...story.room.furniture, screen] },
      site: { ...story.site, outsideAirC: -5 },
      mount: { atM: [1.7, 2.2], heightM: 2.8, turnDeg: 37 },
    });
    const sim = createSimulation(scenario);
    const tables = movementNow(sim);
    const surfaces = stillSurfaces(
      scenario,
      sim.state.setup,
      warmingSun(scenario, sim.state.setup, 7, 0, sim.tables.light),
    );
    expect(surfaces).toHaveLength(3);
    let checked = 0;
    let found = 0;
    for (let k = 0; k < 4000; k++) {
      const nadir = Math.acos(1 - ((k + 0.5) / 4000) * 0.9);
      const bearing = k * 2.399963;
      const d: Vector3 = [Math.sin(nadir) * Math.sin(bearing), Math.sin(nadir) * Math.cos(bearing), -Math.cos(nadir)];
      const near = [0.03, -0.03].flatMap((e) => [
        expectedAt(tables, surfaces, [d[0] + e, d[1], d[2]]),
        expectedAt(tables, surfaces, [d[0], d[1] + e, d[2]]),
      ]);
      const here = expectedAt(tables, surfaces, d);
      // Within a degree or two of an edge the pixel may belong to either side.
      if (near.some((excess) => excess !== here)) continue;
      checked++;
      if (here !== 0) found++;
      expect(bakedWarmth(tables.scene, d)).toBe(Math.fround(here));
    }
    expect(checked).toBeGreaterThan(2500);
    expect(found).toBeGreaterThan(300);
  });
});

/** By brute force: the point where the ray ends, and whether it lies inside one of the outlines. */
function expectedAt(tables: MovementTables, surfaces: ReturnType<typeof stillSurfaces>, lens: Vector3): number {
  const n = Math.hypot(...lens);
  const d = lens.map((x) => x / n) as Vector3;
  const { turnSin: s, turnCos: c } = tables;
  const room = [d[0] * c + d[1] * s, d[1] * c - d[0] * s, d[2]];
  const far = bakedDepthM(tables.scene, d);
  const p = room.map((x, k) => tables.surroundings.eyeM[k]! + x * far);
  let excess = 0;
  for (const surface of surfaces) {
    const f = surface.faceM;
    const flatAxis = [0, 1, 2].find((a) => f.every((x, k) => k % 3 !== a || Math.abs(x - f[a]!) < 1e-9))!;
    if (Math.abs(p[flatAxis]! - f[flatAxis]!) > 0.04) continue;
    const [a, b] = [0, 1, 2].filter((axis) => axis !== flatAxis) as [number, number];
    const sides = Array.from({ length: f.length / 3 }, (_, k) => {
      const [i, j] = [3 * k, (3 * k + 3) % f.length];
      return (f[j + a]! - f[i + a]!) * (p[b]! - f[i + b]!) - (f[j + b]! - f[i + b]!) * (p[a]! - f[i + a]!);
    });
    if (sides.every((x) => x >= 0) || sides.every((x) => x <= 0)) excess = surface.excess;
  }
  return excess;
}

describe('the sun and the cold behind bodies', () => {
  const robot: WarmThingSpec = {
    ...{ id: 'robot', kind: 'cleaningRobot', atM: [3, 1.2], heightM: 0.1, excessK: 9.2, on: true },
    pathM: [
      [2.6, 1.2],
      [3.2, 1.2],
    ],
  };

  it('hide a robot that is as warm as the sunny floor it cleans; with the blind down it is plain to see', () => {
    // At ten the patch is some 9 K above the room, as the robot is.
    const scenario = at('10:00', { warmThings: [robot] });
    const [sun, blind] = [peakOf(scenario, 60), peakOf(scenario, 60, [SHUT])];
    expect(blind).toBeGreaterThan(25);
    expect(sun).toBeLessThan(0.2 * blind);
  });

  it('leave less contrast to a walker before a warm patch: a smaller signal, fewer kelvins', () => {
    const scenario = at('08:40', { people: [person([2.8, 2.2], toAndFro(1.9, 2.9, 3.6))] });
    const kelvins = (first: Input[]) => {
      let least = Number.POSITIVE_INFINITY;
      peakOf(scenario, 40, first, (sim) => {
        if (sim.state.tick % 5 === 0) least = Math.min(least, warmthOf(sim).bodies[0]!.contrastK);
      });
      return least;
    };
    expect(kelvins([])).toBeLessThan(kelvins([SHUT]) - 0.3);
    expect(peakOf(scenario, 130)).toBeLessThan(peakOf(scenario, 130, [SHUT]));
  });

  it('make a walker in a warm room stand out as cold before a patch that is hotter than people are', () => {
    const room = { ...SUNNY.room, airTemperatureC: 29, radiantTemperatureC: 29 };
    const walker = { ...person([0.7, 2.2], toAndFro(2.2, 0.7, 3.3)), cameFromC: 29 };
    const scenario = at('11:30', { room, people: [walker] });
    expect(peakOf(scenario, 130)).toBeGreaterThan(1.5 * peakOf(scenario, 130, [SHUT]));
  });

  it('add to the signal of who walks before cold glass', () => {
    const scenario = at('10:40', { sky: 'overcast', people: [person([1, 3.4], toAndFro(3.4, 1, 3))] });
    const cold = peakOf({ ...scenario, site: { ...scenario.site, outsideAirC: -15 } }, 130);
    expect(cold).toBeGreaterThan(1.2 * peakOf(scenario, 130));
  });

  it('start no pulse by themselves: somebody stands rigid for three hours while the patch goes over the floor', () => {
    const scenario = at('09:30', { people: [person([2.6, 2.6], [{ act: 'standStill' }])] });
    const behind = new Set<string>();
    const peak = peakOf(scenario, 3 * 36_000, [], (sim) => {
      if (sim.state.tick % 6000 === 1) behind.add(sim.state.movement.tracks[0]!.weights.join());
    });
    // What the body hides has changed all the time, by more than a pulse were it told as signal.
    expect(behind.size).toBeGreaterThan(12);
    expect(peak).toBeLessThan(0.1);
  });

  it('start no pulse in an empty room all day, whatever the clouds do', () => {
    for (const sky of ['clear', 'passingClouds'] as const) {
      let pulses = 0;
      const sim = createSimulation(at('08:00', { sky, detectorModel: { ...SUNNY.detectorModel, noiseUv: 5 } }));
      for (let tick = 0; tick < 36_000; tick++) pulses += stepSimulation(sim, []).pulses.length;
      expect(pulses).toBe(0);
    }
  });
});

describe('taking surfaces anew', () => {
  it('takes nothing from a walker: told again in the middle of a step, the signal is the same', () => {
    const surface = { excess: 4, faceM: [18, 18, 0, 24, 18, 0, 24, 24, 0, 18, 24, 0] };
    const walk = (step: number) => [{ owner: 0, atM: [19 + 0.02 * step, 21.5] as [number, number], parts: MANIKIN }];
    const run = (renews: boolean) => {
      const stage = createStage();
      stage.tables = withSurfaces(stage.tables, [surface], 'once');
      const first = runStage(stage, 7, walk).signalUv;
      if (renews) {
        const next = withSurfaces(createStage().tables, [surface], 'again');
        fillBuffer(stage.bodies[4]!, [{ ...walk(34)[0]!, key: stage.bodies[4]!.poseKey[0]! }]);
        renewSurfaces(next, stage.state, stage.bodies[4]!, stage.radiance, null);
        stage.tables = next;
      }
      return [first, runStage(stage, 20, (step) => walk(step + 35)).signalUv].flat(2);
    };
    const [renewed, plain] = [run(true), run(false)];
    expect(Math.max(...plain.map(Math.abs))).toBeGreaterThan(100);
    renewed.forEach((uv, k) => {
      expect(Math.abs(uv - plain[k]!)).toBeLessThan(1e-3);
    });
  });

  it('is done as the minute ends, so that a run taken up at any minute goes on alike', () => {
    const scenario = at('10:40', { people: [person([0.7, 2.2], toAndFro(2.2, 0.7, 3.3))] });
    const whole = createSimulation(scenario);
    while (whole.state.tick < SURFACES_EVERY_TICKS) stepSimulation(whole, []);
    const taken = createSimulation(scenario);
    taken.state = JSON.parse(JSON.stringify(whole.state));
    expect(whole.state.movement.backgroundKey).toBe(movementNow(whole).backgroundKey);
    for (let k = 0; k < SURFACES_EVERY_TICKS + 5; k++) for (const sim of [whole, taken]) stepSimulation(sim, []);
    expect(digestOf(taken.state)).toBe(digestOf(whole.state));
  });

  it('neglects what is far below noise: the sun going over open floor, as the chain would answer it', () => {
    for (const sky of ['clear', 'passingClouds'] as const) {
      const scenario = at('10:40', { sky });
      const sim = createSimulation(scenario);
      const flux = Array.from({ length: 8 }, (_, minute) =>
        openFlux(movementAt(sim.tables, scenario, sim.state.setup, 7, minute * SURFACES_EVERY_TICKS)),
      );
      expect(flux[0]!.some((watt, c) => Math.abs(watt - flux[7]![c]!) > 1e-12)).toBe(true);
      // A floor that follows within minutes goes straight from one minute to the next.
      const { chain } = sim.tables.movement;
      const filters = new Array<number>(4 * chain.count).fill(0);
      let peak = 0;
      for (let step = 0; step < 7 * 3000; step++) {
        const minute = Math.floor(step / 3000);
        for (let c = 0; c < 4; c++) {
          const from = flux[minute]![c]! - flux[0]![c]!;
          const to = flux[minute + 1]![c]! - flux[0]![c]!;
          const watt = from + ((to - from) * (step % 3000)) / 3000;
          peak = Math.max(peak, Math.abs(stepChain(chain, filters, c, watt * chain.uvPerW)));
        }
      }
      expect(peak).toBeGreaterThan(0);
      expect(peak).toBeLessThan(1);
    }
  });
});

/** Flux of the surfaces with nobody before them, W per channel. */
function openFlux(tables: MovementTables): number[] {
  const { map, scene } = tables;
  const flux = [0, 0, 0, 0];
  const side = scene.sidePx;
  for (let j = 0; j < side; j++) {
    for (let i = 0; i < side; i++) {
      const excess = scene.warmth?.[j * side + i] ?? 0;
      if (excess === 0) continue;
      const [u, v] = [((i + 0.5) * 2) / side - 1, ((j + 0.5) * 2) / side - 1];
      const k = 2 / (1 + u * u + v * v);
      const solidSr = (k * k * 4) / (side * side);
      for (let c = 0; c < 4; c++) flux[c]! += weightM2(map, c, [k * u, k * v, 1 - k]) * solidSr * excess;
    }
  }
  return flux;
}
