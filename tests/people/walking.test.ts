import { describe, expect, it } from 'vitest';
import { gaitOf, STANCE_SHARE } from '../../src/engine/people/gait.ts';
import type { PlanStep } from '../../src/engine/types.ts';
import { bodiesNow, distance, halfExtent, PART_NAMES, part, runTo, someone, stageOf, step } from './stage.ts';

describe('a walk', () => {
  it.each([
    [3, 1, 30],
    [6, 1.2, 50],
    [2.5, 0.3, 83],
    [0.25, 1, 3],
  ])('of %d m at %d m/s arrives after %d ticks, not before', (distanceM, speedMps, ticks) => {
    const stage = stageOf([someone([{ act: 'walk', toM: [2, 3 + distanceM], speedMps }])]);
    runTo(stage, ticks - 1);
    expect(distance(stage.people[0]!.atM, [2, 3])).toBeLessThan(distanceM - 1e-9);
    expect(stage.people[0]!.act).toBe('walk');
    runTo(stage, ticks);
    expect(stage.people[0]!.atM).toEqual([2, 3 + distanceM]);
    expect(stage.people[0]!.act).toBe('standStill');
  });

  it('through many short legs is late by less than half a tick in all', () => {
    const plan: PlanStep[] = [];
    for (let i = 1; i <= 40; i++) plan.push({ act: 'walk', toM: [2 + 0.37 * i, 3], speedMps: 1.1 });
    const stage = stageOf([someone(plan, { headingDeg: 90 })]);
    while (stage.people[0]!.stepIndex < plan.length) step(stage);
    expect(Math.abs(stage.tick - ((40 * 0.37) / 1.1) * 10)).toBeLessThanOrEqual(0.51);
  });

  it('goes straight and evenly, and faces where it goes', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [6, 6], speedMps: 1 }])]);
    for (let tick = 0; tick <= 50; tick++) {
      step(stage);
      const [x, y] = stage.people[0]!.atM;
      const away = distance([x, y], [2, 3]);
      expect(away).toBeCloseTo(tick * 0.1, 9);
      expect((x - 2) * 3 - (y - 3) * 4).toBeCloseTo(0, 9);
    }
    expect(stage.people[0]!.headingDeg).toBeCloseTo((Math.atan2(4, 3) * 180) / Math.PI, 9);
  });

  it.each([0.5, 1, 1.5])('at %d m/s keeps the standing foot where it is', (speedMps) => {
    const stage = stageOf([someone([{ act: 'walk', toM: [2, 15], speedMps }], { atM: [2, 0] })]);
    runTo(stage, 19);
    let slid = 0;
    let stood = 0;
    let last: number[] | null = null;
    for (let tick = 20; tick < 60; tick++) {
      step(stage);
      for (let subStep = 0; subStep < 5; subStep++) {
        const buffer = bodiesNow(stage, subStep);
        const foot = part(buffer, 'leftFoot');
        const flat = foot.centre[2]! < 0.052;
        if (flat && last) {
          slid += Math.abs(foot.centre[1]! - last[1]!);
          stood++;
        }
        last = flat ? foot.centre : null;
      }
    }
    expect(stood).toBeGreaterThan(20);
    // Less than a tenth of the body's own pace.
    expect(slid / (stood * 0.02)).toBeLessThan(0.1 * speedMps);
  });

  it('swings the right arm with the left leg', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [0, 15], speedMps: 1.2 }], { atM: [0, 0] })]);
    runTo(stage, 20);
    let together = 0;
    for (let n = 0; n < 30; n++) {
      step(stage);
      const buffer = bodiesNow(stage);
      const ahead = (name: 'leftFoot' | 'rightFoot' | 'leftHand' | 'rightHand') => part(buffer, name).centre[1]!;
      together += (ahead('leftFoot') - ahead('rightFoot')) * (ahead('rightHand') - ahead('leftHand'));
    }
    expect(together / 30).toBeGreaterThan(0.05);
  });

  it('turns the shoulders with the arms, a little', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [0, 15], speedMps: 1.2 }], { atM: [0, 0] })]);
    runTo(stage, 20);
    let together = 0;
    let most = 0;
    for (let n = 0; n < 30; n++) {
      step(stage);
      const buffer = bodiesNow(stage);
      const [across] = part(buffer, 'chest').axes;
      const turn = across![1]! / Math.hypot(...across!);
      together += turn * (part(buffer, 'rightHand').centre[1]! - part(buffer, 'leftHand').centre[1]!);
      most = Math.max(most, Math.abs(turn));
    }
    expect(together / 30).toBeGreaterThan(0.005);
    expect(most).toBeLessThan(0.25);
  });

  it('arrives with both feet together', () => {
    const stage = stageOf([someone([{ act: 'walk', toM: [2, 6], speedMps: 1 }])]);
    runTo(stage, 29);
    runTo(stage, 30);
    const buffer = bodiesNow(stage);
    expect(part(buffer, 'leftFoot').centre[1]!).toBeCloseTo(part(buffer, 'rightFoot').centre[1]!, 9);
  });

  it.each([0.4, 1.2, 2])(
    'at %d m/s keeps soles and toes on or above the floor, and one foot always near it',
    (speedMps) => {
      const stage = stageOf([someone([{ act: 'walk', toM: [2, 30], speedMps }])]);
      runTo(stage, 10);
      for (let n = 0; n < 40; n++) {
        step(stage);
        for (let subStep = 0; subStep < 5; subStep++) {
          const buffer = bodiesNow(stage, subStep);
          const soles = (['leftFoot', 'rightFoot'] as const).map((name) => {
            const foot = part(buffer, name);
            return foot.centre[2]! - halfExtent(foot, 2);
          });
          expect(Math.min(...soles)).toBeGreaterThan(-0.02);
          expect(Math.min(...soles)).toBeLessThan(0.025);
          expect(Math.max(...soles)).toBeLessThan(0.2);
        }
      }
    },
  );

  it('takes the step rate that adults take', () => {
    // Source: about 110 steps a minute at 1.3 m/s for adults, gait textbooks, from memory; ±10 %.
    const { cycleHz } = gaitOf(1.3, 1.78);
    expect(cycleHz * 120).toBeGreaterThan(99);
    expect(cycleHz * 120).toBeLessThan(121);
    // Ground covered in stance plus swing is the pace.
    const { cycleHz: slow, strideM } = gaitOf(0.6, 1.78);
    expect((2 * strideM * slow) / STANCE_SHARE).toBeCloseTo(0.6, 9);
    // Nobody’s legs reach further than about their own length.
    expect(gaitOf(3, 1.78).strideM).toBeLessThanOrEqual(0.5);
    // Shorter people step faster.
    expect(gaitOf(1, 1.5).cycleHz).toBeGreaterThan(gaitOf(1, 1.9).cycleHz);
  });
});

describe('no part ever jumps', () => {
  /** Fastest any part may turn, rad/s: the shank of a swinging leg does 6-8 in ordinary walking. */
  const TURN_LIMIT = 12;
  /** Fastest any part may go, m/s: a swinging foot goes at three to four times the pace (gait textbooks, from memory),
   *  here 1.6 m/s and a turn about at once; hands and heads of people who stay go at 2 m/s at most. */
  const LIMIT = { still: 2.6, walking: 4.2 * 1.6 };
  const plan: PlanStep[] = [
    { act: 'walk', toM: [5, 3], speedMps: 1.3 },
    { act: 'walk', toM: [5, 6], speedMps: 0.8 },
    { act: 'type', forS: 12, headingDeg: 180, gestureEveryS: 1 },
    { act: 'reach', forS: 8, gestureEveryS: 1 },
    { act: 'read', forS: 8, gestureEveryS: 1 },
    { act: 'lean', forS: 8, gestureEveryS: 1 },
    { act: 'sit', forS: 8, gestureEveryS: 1 },
    { act: 'walk', toM: [1, 1], speedMps: 1 },
    { act: 'stretch', forS: 12, gestureEveryS: 1 },
    { act: 'sway', forS: 6 },
    { act: 'walk', toM: [4, 1], speedMps: 1.6 },
    { act: 'walk', toM: [1, 1], speedMps: 1.6 },
    { act: 'standStill', headingDeg: 90 },
  ];

  it('through walks, turns, seats and gestures, between sub-steps of 20 ms', () => {
    const stage = stageOf([someone(plan)]);
    step(stage);
    let before = bodiesNow(stage);
    const worst = { still: 0, walking: 0, turning: 0 };
    const seen = new Set<string>();
    while (stage.people[0]!.stepIndex < plan.length - 1 || stage.tick < 1150) {
      for (let subStep = 1; subStep <= 5; subStep++) {
        if (subStep === 5) step(stage);
        const now = bodiesNow(stage, subStep % 5);
        const state = stage.people[0]!;
        if (state.gesture) seen.add(state.gesture.kind);
        for (const name of PART_NAMES) {
          const a = part(before, name);
          const b = part(now, name);
          const speed = distance(a.centre, b.centre) / 0.02;
          const kind = state.act === 'walk' || state.strideFromM > 0 ? 'walking' : 'still';
          if (speed > worst[kind]) worst[kind] = speed;
          const long = Math.max(...a.axes.map((v) => Math.hypot(...v)));
          // Shape: entries of the sum of axis products, which do not mind how the axes are named.
          const allowed = long * long * TURN_LIMIT * 0.02;
          for (let i = 0; i < 9; i++) {
            const shape = (e: typeof a) => e.axes.reduce((sum, v) => sum + v[i % 3]! * v[Math.floor(i / 3)]!, 0);
            const change = Math.abs(shape(a) - shape(b)) / allowed;
            if (change > worst.turning) worst.turning = change;
          }
        }
        before = now;
      }
    }
    expect([...seen].sort()).toEqual(['lean', 'pageTurn', 'reach', 'shift', 'stretch', 'type']);
    expect(worst.turning).toBeLessThan(1);
    expect(worst.still).toBeLessThan(LIMIT.still);
    expect(worst.walking).toBeLessThan(LIMIT.walking);
  });
});
