import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placePerson, setPlan } from '../../src/engine/people/people.ts';
import type { Activity, PlanStep } from '../../src/engine/types.ts';
import { bodiesNow, PART_NAMES, part, runTo, type Stage, someone, stageOf, step } from './stage.ts';

const place = fc.tuple(fc.double({ min: 0, max: 9, noNaN: true }), fc.double({ min: 0, max: 7, noNaN: true }));
const activity = fc.constantFrom<Activity>(
  'stand',
  'sway',
  'stretch',
  'sit',
  'type',
  'read',
  'reach',
  'lean',
  'sitStill',
  'standStill',
  'ladder',
);
const anyStep: fc.Arbitrary<PlanStep> = fc.oneof(
  fc.record({ act: fc.constant('walk' as const), toM: place, speedMps: fc.double({ min: 0, max: 3, noNaN: true }) }),
  fc.record(
    {
      act: activity,
      forS: fc.double({ min: 0, max: 8, noNaN: true }),
      headingDeg: fc.integer({ min: -400, max: 800 }),
      gestureEveryS: fc.double({ min: 0, max: 3, noNaN: true }),
      fromS: fc.integer({ min: 0, max: 40 }),
    },
    { requiredKeys: ['act'] },
  ),
  fc.record({ act: fc.constant('leave' as const) }),
);
const plan = fc.array(anyStep, { maxLength: 6 });

/** The smallest number there is, west of the goal: its bearing was -0, and 0 once it had been saved. */
const dueNorthByAHair: PlanStep[] = [
  { act: 'walk', toM: [Number.MIN_VALUE, 0], speedMps: 0.23 },
  { act: 'walk', toM: [0, 2], speedMps: 0 },
];

const copy = (stage: Stage): Stage => JSON.parse(JSON.stringify(stage));

describe('any plan', () => {
  it('can be saved as text at any instant and goes on the same', () => {
    fc.assert(
      fc.property(plan, fc.integer({ min: 0, max: 300 }), fc.integer(), (steps, tick, seed) => {
        const stage = stageOf([someone(steps)], seed);
        runTo(stage, tick);
        const resumed = copy(stage);
        for (let n = 0; n < 120; n++) {
          step(stage);
          step(resumed);
          if (n % 8 === 0) expect([...bodiesNow(resumed, n % 5).parts]).toEqual([...bodiesNow(stage, n % 5).parts]);
        }
        expect(copy(resumed)).toEqual(copy(stage));
      }),
      { numRuns: 60, examples: [[dueNorthByAHair, 157, 0]] },
    );
  });

  it('gives finite bodies above the floor, of people’s size, and changes of mind at any instant do no harm', () => {
    fc.assert(
      fc.property(plan, plan, place, fc.integer({ min: 0, max: 120 }), (steps, others, spot, tick) => {
        const stage = stageOf([someone(steps)], 5);
        runTo(stage, tick);
        setPlan(stage.people, 'A', others, tick + 1);
        runTo(stage, tick + 60);
        placePerson(stage.people, 'A', spot, undefined, stage.tick + 1);
        setPlan(stage.people, 'A', steps, stage.tick + 1);
        for (let n = 0; n < 60; n++) {
          step(stage);
          const buffer = bodiesNow(stage, n % 5);
          if (buffer.count === 0) continue;
          const [x, y] = stage.people[0]!.atM;
          for (const name of PART_NAMES) {
            const { centre, axes } = part(buffer, name);
            expect(axes.flat().every(Number.isFinite)).toBe(true);
            expect(Math.hypot(centre[0]! - x, centre[1]! - y)).toBeLessThan(1.3);
            expect(centre[2]!).toBeGreaterThan(0.02);
            expect(centre[2]!).toBeLessThan(2.4);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('chance', () => {
  const gestureStarts = (seed: number): number[] => {
    const stage = stageOf([someone([{ act: 'type' }]), someone([{ act: 'reach' }], { id: 'B' })], seed);
    const starts: number[] = [];
    while (stage.tick < 3000) {
      step(stage);
      stage.people.forEach((p, i) => {
        if (p.gesture?.startTick === stage.tick) starts.push(i * 1e6 + stage.tick);
      });
    }
    return starts;
  };

  it('gives the same gestures for the same seed and others for another', () => {
    expect(gestureStarts(11)).toEqual(gestureStarts(11));
    expect(gestureStarts(11)).not.toEqual(gestureStarts(12));
    expect(gestureStarts(11).length).toBeGreaterThan(20);
  });

  it('is not asked by people who hold still or walk', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [8, 3], speedMps: 1 }, { act: 'standStill' }])]);
    runTo(stage, 5);
    const before = JSON.stringify(stage.dice.random);
    runTo(stage, 300);
    expect(JSON.stringify(stage.dice.random)).toBe(before);
  });
});
