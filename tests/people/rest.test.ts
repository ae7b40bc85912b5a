import { describe, expect, it } from 'vitest';
import { poseTick } from '../../src/engine/people/people.ts';
import { isAtRest } from '../../src/engine/people/pose.ts';
import { createBodyBuffer, type PlanStep } from '../../src/engine/types.ts';
import { SUB_STEPS } from '../../src/engine/units.ts';
import { bodiesNow, someone, stageOf, step } from './stage.ts';

const PLANS: PlanStep[][] = [
  [
    { act: 'walk', toM: [4, 3], speedMps: 1 },
    { act: 'stand', forS: 5, headingDeg: 250 },
    { act: 'walk', toM: [4, 5], speedMps: 0.7 },
  ],
  [{ act: 'sitStill', forS: 6 }, { act: 'reach', forS: 20, gestureEveryS: 4 }, { act: 'stand' }],
  [
    { act: 'sway', forS: 8 },
    { act: 'sitStill', forS: 4 },
    { act: 'walk', toM: [1, 1], speedMps: 1.2 },
  ],
];

describe('whoever rests', () => {
  it('is posed once a tick, and stands in every sub-step as if posed there', () => {
    const stage = stageOf(PLANS.map((plan, i) => someone(plan, { id: 'ABC'[i]!, atM: [2 + i, 3] })));
    const buffers = Array.from({ length: SUB_STEPS }, () => createBodyBuffer(3));
    const resting = [0, 0, 0];
    for (let k = 0; k < 400; k++) {
      step(stage);
      poseTick(stage.people, [], stage.tick, buffers);
      stage.people.forEach((person, i) => {
        if (isAtRest(person, stage.tick)) resting[i]!++;
      });
      buffers.forEach((buffer, subStep) => {
        const alone = bodiesNow(stage, subStep, createBodyBuffer(3));
        expect(Buffer.compare(Buffer.from(buffer.parts.buffer), Buffer.from(alone.parts.buffer)), `tick ${k}`).toBe(0);
        expect(buffer.poseKey).toEqual(alone.poseKey);
      });
    }
    for (const ticks of resting) expect(ticks).toBeGreaterThan(20);
    for (const ticks of resting) expect(ticks).toBeLessThan(380);
  });
});
