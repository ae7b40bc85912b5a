import { describe, expect, it } from 'vitest';
import { createWeightMemo, type WeightMemo } from '../../src/engine/detection/weightMemo.ts';
import { createSimulation, digestOf, stepSimulation } from '../../src/engine/simulation.ts';
import type { Scenario } from '../../src/engine/types.ts';
import { smallStory } from '../support/smallStory.ts';

/** Somebody walks in and sits down among things that never rest, one above the other: they hide and are hidden. */
function restlessRoom(change: Partial<Scenario> = {}): Scenario {
  return {
    ...smallStory(),
    warmThings: [
      { id: 'curtain', kind: 'curtain', atM: [2, 3.5], heightM: 2.4, excessK: 6, on: true },
      { id: 'sheet', kind: 'warmAirOutlet', atM: [2.1, 2.9], heightM: 2.6, excessK: 15, on: true },
      {
        id: 'robot',
        kind: 'cleaningRobot',
        atM: [1, 1.5],
        heightM: 0.1,
        excessK: 8,
        on: true,
        pathM: [
          [1, 1.5],
          [3.2, 3.4],
        ],
        speedMps: 0.4,
      },
    ],
    ...change,
  };
}

/** Signals of every tick, to the last bit, and the digest at the end. */
function run(scenario: Scenario, memo: WeightMemo | null): string[] {
  const sim = createSimulation(scenario);
  sim.scratch.weightMemo = memo;
  const signals = Array.from({ length: 80 }, () => stepSimulation(sim, []).signalUv.join(' '));
  return [...signals, digestOf(sim.state)];
}

const kept = ({ prints }: WeightMemo): number =>
  prints.reduce((count, word, i) => count + (i % 2 === 0 && word !== 0 ? 1 : 0), 0);

describe('weights from memory', () => {
  const memo = createWeightMemo();
  const room = restlessRoom();
  const weighed = run(room, null);

  it('are those of weighing, while they are gathered and when all are known', () => {
    expect(run(room, memo)).toEqual(weighed);
    const known = kept(memo);
    expect(known).toBeGreaterThan(400);
    expect(run(room, memo)).toEqual(weighed);
    expect(kept(memo)).toBe(known);
  });

  it.each([
    ['turned', { mount: { ...room.mount, turnDeg: 40 } }],
    ['with clips on', { settings: { ...room.settings, maskedSectors: [0, 1, 5] } }],
    ['with one thing stopped', { warmThings: room.warmThings.map((thing, i) => ({ ...thing, on: i !== 1 })) }],
  ])('of one room are not taken for those of the room %s', (_what, change) => {
    const other = restlessRoom(change);
    const alone = run(other, null);
    expect(alone).not.toEqual(weighed);
    expect(run(other, memo)).toEqual(alone);
  });
});
