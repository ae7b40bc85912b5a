/** Ticks per second of the whole room, with nobody, one and six people on their feet. */
import { createSimulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { PersonSpec, PlanStep, Scenario } from '../../src/engine/types.ts';
import { duration, type Figure, rate } from './measure.ts';

/** Back and forth across the room for as long as the benchmark lasts. */
function pacing(scenario: Scenario, lane: number): PersonSpec {
  const { widthM, depthM } = scenario.room;
  const y = (depthM * (lane + 1)) / 7;
  const plan: PlanStep[] = Array.from({ length: 200 }, (_, i) => ({
    act: 'walk',
    toM: [i % 2 === 0 ? widthM - 0.6 : 0.6, y],
    speedMps: 1,
  }));
  return {
    id: String.fromCharCode(65 + lane),
    heightM: 1.74,
    clothingClo: 1,
    cameFromC: scenario.room.airTemperatureC,
    atM: [0.6, y],
    headingDeg: 90,
    outsideAtStart: false,
    plan,
  };
}

function msFor(scenario: Scenario, ticks: number): number {
  const sim = createSimulation(scenario);
  for (let i = 0; i < 300; i++) stepSimulation(sim, []);
  const start = performance.now();
  for (let i = 0; i < ticks; i++) stepSimulation(sim, []);
  return performance.now() - start;
}

/** The story with so many people, all of them walking. */
export function withWalkers(scenario: Scenario, count: number): Scenario {
  return { ...scenario, people: Array.from({ length: count }, (_, lane) => pacing(scenario, lane)) };
}

export function engineFigures(scenario: Scenario, yardstickMs: number): Figure[] {
  const withPeople = (count: number): Scenario => withWalkers(scenario, count);
  const median = (count: number, ticks: number) =>
    [1, 2, 3].map(() => msFor(withPeople(count), ticks)).sort((a, b) => a - b)[1]!;
  return [
    rate('whole room, nobody in it', 'ticks/s', 36_000, median(0, 36_000), yardstickMs),
    rate('whole room, one person walking', 'ticks/s', 3_000, median(1, 3_000), yardstickMs),
    rate('whole room, six people walking', 'ticks/s', 1_000, median(6, 1_000), yardstickMs),
    duration('a day with nobody in it', median(0, 36_000) * 24, yardstickMs),
  ];
}
