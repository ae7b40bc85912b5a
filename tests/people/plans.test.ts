import { describe, expect, it } from 'vitest';
import { addPerson, personView, placePerson, removePerson, setPlan } from '../../src/engine/people/people.ts';
import type { PlanStep } from '../../src/engine/types.ts';
import { bodiesNow, distance, part, runTo, someone, stageOf, step, topM } from './stage.ts';

describe('a plan', () => {
  it('waits for the time of a step, then does it', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [2, 5], speedMps: 1, fromS: 4 }])]);
    runTo(stage, 40);
    expect(stage.people[0]!.atM).toEqual([2, 3]);
    runTo(stage, 60);
    expect(stage.people[0]!.atM).toEqual([2, 5]);
  });

  it('lets an activity without an end last until the next step’s time', () => {
    const stage = stageOf([
      someone([{ act: 'type' }, { act: 'walk', toM: [2, 5], speedMps: 1, fromS: 30 }, { act: 'standStill' }]),
    ]);
    runTo(stage, 299);
    expect(stage.people[0]!.act).toBe('type');
    runTo(stage, 300);
    // First up from the chair, 1.5 s, then two metres.
    expect(stage.people[0]!.atM).toEqual([2, 3]);
    runTo(stage, 314);
    expect(stage.people[0]!.atM).toEqual([2, 3]);
    runTo(stage, 335);
    expect(stage.people[0]!.atM).toEqual([2, 5]);
    expect(stage.people[0]!.act).toBe('standStill');
  });

  it('sits still between an activity that has ended and a step that is not due', () => {
    const stage = stageOf([
      someone([
        { act: 'type', forS: 10, gestureEveryS: 0.5 },
        { act: 'walk', toM: [2, 5], speedMps: 1, fromS: 60 },
      ]),
    ]);
    runTo(stage, 130);
    expect(stage.people[0]!.act).toBe('sitStill');
    const before = bodiesNow(stage).poseKey[0];
    runTo(stage, 599);
    expect(bodiesNow(stage).poseKey[0]).toBe(before);
    runTo(stage, 601);
    expect(bodiesNow(stage).poseKey[0]).not.toBe(before);
  });

  it('brings somebody in at their first walk, and takes them out when they leave', () => {
    const stage = stageOf([
      someone(
        [
          { act: 'standStill', forS: 2 },
          { act: 'walk', toM: [2, 5], speedMps: 1, fromS: 5 },
          { act: 'leave' },
          { act: 'walk', toM: [2, 3], speedMps: 1, fromS: 20 },
        ],
        { outsideAtStart: true },
      ),
    ]);
    const presence: boolean[] = [];
    for (let tick = 0; tick <= 230; tick++) {
      step(stage);
      presence.push(stage.people[0]!.present);
      expect(bodiesNow(stage).count).toBe(stage.people[0]!.present ? 1 : 0);
    }
    expect(presence.indexOf(true)).toBe(50);
    expect(presence.indexOf(false, 50)).toBe(70);
    expect(presence.indexOf(true, 70)).toBe(200);
    expect(personView(stage.people[0]!, 230).act).toBe('standStill');
  });

  it('sits down in a second and a half', () => {
    const stage = stageOf([someone([{ act: 'sitStill' }])]);
    step(stage);
    const heights = [topM(bodiesNow(stage))];
    for (let tick = 1; tick <= 20; tick++) {
      step(stage);
      heights.push(topM(bodiesNow(stage)));
    }
    expect(heights[0]).toBeCloseTo(1.78, 2);
    for (let i = 1; i <= 20; i++) expect(heights[i]!).toBeLessThanOrEqual(heights[i - 1]! + 0.02);
    expect(heights[15]).toBe(heights[20]);
    expect(heights[14]).not.toBe(heights[20]);
  });

  it('turns to the bearing of an activity by the shorter way before it begins', () => {
    const stage = stageOf([someone([{ act: 'standStill', headingDeg: 300 }], { headingDeg: 20 })]);
    const seen: number[] = [];
    for (let tick = 0; tick <= 15; tick++) {
      step(stage);
      seen.push(stage.people[0]!.headingDeg);
    }
    expect(seen.at(-1)).toBe(300);
    expect(seen.every((deg) => deg <= 20.001 || deg >= 299.999)).toBe(true);
  });
});

describe('turning on the spot', () => {
  it('lifts one foot after the other', () => {
    const stage = stageOf([someone([{ act: 'standStill', headingDeg: 180 }])]);
    step(stage);
    const rest = part(bodiesNow(stage), 'leftFoot').centre[2]!;
    const lifted = { left: -1, right: -1 };
    for (let tick = 1; tick < 12; tick++) {
      step(stage);
      if (part(bodiesNow(stage), 'leftFoot').centre[2]! > rest + 0.03) lifted.left = tick;
      if (lifted.right < 0 && part(bodiesNow(stage), 'rightFoot').centre[2]! > rest + 0.03) lifted.right = tick;
    }
    expect(lifted.left).toBeGreaterThan(0);
    expect(lifted.right).toBeGreaterThan(lifted.left);
  });
});

describe('the stage manager', () => {
  it('stops a walk by an empty plan', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [9, 3], speedMps: 1 }])]);
    runTo(stage, 20);
    setPlan(stage.people, 'A', [], 21);
    runTo(stage, 60);
    expect(distance(stage.people[0]!.atM, [4.1, 3])).toBeLessThan(1e-9);
    expect(stage.people[0]!.act).toBe('standStill');
    const key = bodiesNow(stage).poseKey[0];
    step(stage);
    expect(bodiesNow(stage).poseKey[0]).toBe(key);
  });

  it('sets somebody down at once, standing, with no plan left', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [9, 3], speedMps: 1 }])]);
    runTo(stage, 20);
    expect(placePerson(stage.people, 'A', [5, 6], 45, 21)).toBe(true);
    runTo(stage, 60);
    expect(personView(stage.people[0]!, 60)).toEqual({
      id: 'A',
      atM: [5, 6],
      headingDeg: 45,
      act: 'standStill',
      present: true,
    });
    expect(placePerson(stage.people, 'Z', [5, 6], 45, 61)).toBe(false);
  });

  it('brings somebody from outside in by placing them', () => {
    const stage = stageOf([someone([], { outsideAtStart: true })]);
    runTo(stage, 3);
    placePerson(stage.people, 'A', [1, 1], undefined, 4);
    expect(bodiesNow(stage).count).toBe(1);
  });

  it('changes a plan in mid-walk without a jump, and goes on from there', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [9, 3], speedMps: 1 }])]);
    runTo(stage, 20);
    const before = bodiesNow(stage, 4);
    const next: PlanStep[] = [{ act: 'sitStill' }];
    setPlan(stage.people, 'A', next, 21);
    step(stage);
    const after = bodiesNow(stage, 0);
    for (let slot = 0; slot < 16; slot++) {
      expect(distance(part(before, slot).centre, part(after, slot).centre)).toBeLessThan(0.09);
    }
    expect(distance(stage.people[0]!.atM, [4.1, 3])).toBeLessThan(1e-9);
    runTo(stage, 60);
    expect(stage.people[0]!.act).toBe('sitStill');
    expect(distance(stage.people[0]!.atM, [4.1, 3])).toBeLessThan(1e-9);
  });

  it('changes its mind half way into a chair without a jump', () => {
    const stage = stageOf([someone([{ act: 'sitStill' }])]);
    runTo(stage, 7);
    setPlan(stage.people, 'A', [{ act: 'walk', toM: [5, 3], speedMps: 1 }], 8);
    let before = bodiesNow(stage, 4);
    for (let n = 0; n < 20; n++) {
      step(stage);
      for (let subStep = 0; subStep < 5; subStep++) {
        const now = bodiesNow(stage, subStep);
        for (let slot = 0; slot < 16; slot++) {
          expect(distance(part(before, slot).centre, part(now, slot).centre)).toBeLessThan(0.1);
        }
        before = now;
      }
    }
  });

  it('keeps everybody’s number when one is taken out, and gives the place back to the same id', () => {
    const stage = stageOf([someone([]), someone([], { id: 'B' }), someone([], { id: 'C' })]);
    runTo(stage, 2);
    expect(removePerson(stage.people, 'B')).toBe(true);
    expect(removePerson(stage.people, 'B')).toBe(false);
    runTo(stage, 3);
    const buffer = bodiesNow(stage);
    expect([...buffer.owner.subarray(0, buffer.count)]).toEqual([0, 2]);
    expect(addPerson(stage.people, someone([], { id: 'A' }), 4)).toBe(-1);
    expect(addPerson(stage.people, someone([], { id: 'B' }), 4)).toBe(1);
    expect(addPerson(stage.people, someone([], { id: 'D' }), 4)).toBe(3);
    expect(bodiesNow(stage).count).toBe(4);
  });
});
