import { describe, expect, it } from 'vitest';
import { PERSON_KINDS } from '../../src/engine/people/girth.ts';
import { type Activity, PART_KINDS, PARTS_PER_BODY, type PlanStep } from '../../src/engine/types.ts';
import { bodiesNow, distance, halfExtent, PART_NAMES, part, runTo, someone, stageOf, topM } from './stage.ts';

const POSES: [string, PlanStep[], number][] = [
  ['standing', [{ act: 'standStill' }], 5],
  ['walking', [{ act: 'walk', toM: [9, 7], speedMps: 1.2 }], 23],
  ['sitting down', [{ act: 'sit' }], 8],
  ['typing', [{ act: 'type', gestureEveryS: 0.5 }], 60],
  ['reaching', [{ act: 'reach', gestureEveryS: 0.5 }], 60],
  ['leaning', [{ act: 'lean', gestureEveryS: 0.5 }], 60],
  ['stretching', [{ act: 'stretch', gestureEveryS: 0.5 }], 40],
  ['swaying', [{ act: 'sway' }], 77],
  ['climbing', [{ act: 'ladder' }], 22],
];

describe('the figure', () => {
  it.each(POSES)('has sixteen ellipsoids with axes square to each other while %s', (_name, plan, tick) => {
    const stage = stageOf([someone(plan)]);
    runTo(stage, tick);
    const buffer = bodiesNow(stage, 3);
    for (let slot = 0; slot < PARTS_PER_BODY; slot++) {
      const { centre, axes } = part(buffer, slot);
      expect(centre.every(Number.isFinite)).toBe(true);
      for (let a = 0; a < 3; a++) {
        expect(Math.hypot(...axes[a]!)).toBeGreaterThan(0.01);
        const next = axes[(a + 1) % 3]!;
        const dot = axes[a]!.reduce((sum, x, i) => sum + x * next[i]!, 0);
        expect(Math.abs(dot)).toBeLessThan(1e-12);
      }
    }
  });

  it.each([1.5, 1.6, 1.78, 1.95])('stands %d m tall with its soles on the floor', (heightM) => {
    const buffer = bodiesNow(stageOf([someone([], { heightM })]));
    expect(topM(buffer)).toBeCloseTo(heightM, 2);
    for (const name of ['leftFoot', 'rightFoot'] as const) {
      const foot = part(buffer, name);
      expect(Math.abs(foot.centre[2]! - halfExtent(foot, 2))).toBeLessThan(0.005);
    }
  });

  it('is its own mirror image standing still', () => {
    const buffer = bodiesNow(stageOf([someone([], { atM: [0, 0] })]));
    for (const name of PART_NAMES.filter((n) => n.startsWith('left'))) {
      const left = part(buffer, name);
      const right = part(buffer, name.replace('left', 'right') as typeof name);
      expect(left.centre[0]!).toBeCloseTo(-right.centre[0]!, 12);
      expect(left.centre[1]!).toBeCloseTo(right.centre[1]!, 12);
      expect(left.centre[2]!).toBeCloseTo(right.centre[2]!, 12);
      for (const axis of [0, 1, 2] as const) expect(halfExtent(left, axis)).toBeCloseTo(halfExtent(right, axis), 12);
    }
  });

  it('has the build of a broad clothed adult: half a metre at the shoulders, limbs that meet at their joints', () => {
    const buffer = bodiesNow(stageOf([someone([])]));
    const xs = PART_NAMES.map((n) => part(buffer, n)).map((e) => e.centre[0]! + halfExtent(e, 0));
    const breadth = 2 * (Math.max(...xs) - 2);
    expect(breadth).toBeGreaterThan(0.45);
    expect(breadth).toBeLessThan(0.62);
    // Every part overlaps the one it hangs on: centres are nearer than the sum of the long half axes.
    const joints = [
      ['face', 'chest'],
      ['hair', 'face'],
      ['chest', 'pelvis'],
      ['leftUpperArm', 'chest'],
      ['leftForearm', 'leftUpperArm'],
      ['leftHand', 'leftForearm'],
      ['leftThigh', 'pelvis'],
      ['leftShank', 'leftThigh'],
      ['leftFoot', 'leftShank'],
    ] as const;
    for (const [a, b] of joints) {
      const long = [a, b].map((n) => Math.max(...part(buffer, n).axes.map((v) => Math.hypot(...v))));
      expect(distance(part(buffer, a).centre, part(buffer, b).centre), `${a}-${b}`).toBeLessThan(long[0]! + long[1]!);
    }
  });

  it('says of every part what it is made of', () => {
    const buffer = bodiesNow(stageOf([someone([])]));
    const kinds = [...buffer.partKind.subarray(0, PARTS_PER_BODY)].map((k) => PART_KINDS[k]);
    expect(kinds).toEqual([...PERSON_KINDS].map((k) => PART_KINDS[k]));
    expect(kinds.filter((k) => k === 'hand')).toHaveLength(2);
    expect(kinds[0]).toBe('hair');
    expect(kinds[1]).toBe('face');
  });

  it('turns as a whole: facing east is facing north turned a quarter clockwise', () => {
    const north = bodiesNow(stageOf([someone([], { atM: [0, 0], headingDeg: 0 })]));
    const east = bodiesNow(stageOf([someone([], { atM: [0, 0], headingDeg: 90 })]));
    for (const name of PART_NAMES) {
      const [x, y, z] = part(north, name).centre;
      const turned = part(east, name).centre;
      expect(turned[0]!).toBeCloseTo(y!, 12);
      expect(turned[1]!).toBeCloseTo(-x!, 12);
      expect(turned[2]!).toBeCloseTo(z!, 12);
    }
    expect(part(east, 'leftFoot').centre[1]!).toBeGreaterThan(0.05);
  });

  it('sits on a seat .46 m high with thighs level, knees ahead and feet down', () => {
    const stage = stageOf([someone([{ act: 'sitStill' }], { atM: [0, 0] })]);
    runTo(stage, 40);
    const buffer = bodiesNow(stage);
    const pelvis = part(buffer, 'pelvis');
    expect(pelvis.centre[2]! - halfExtent(pelvis, 2)).toBeGreaterThan(0.36);
    expect(pelvis.centre[2]! - halfExtent(pelvis, 2)).toBeLessThan(0.47);
    const thigh = part(buffer, 'leftThigh');
    expect(thigh.centre[1]!).toBeGreaterThan(0.1);
    expect(Math.abs(thigh.centre[2]! - 0.54)).toBeLessThan(0.05);
    const foot = part(buffer, 'leftFoot');
    expect(Math.abs(foot.centre[2]! - halfExtent(foot, 2))).toBeLessThan(0.02);
    // Sitting height of adults is a little over half of stature, here on top of the seat.
    expect(topM(buffer)).toBeGreaterThan(1.25);
    expect(topM(buffer)).toBeLessThan(1.45);
  });
});

describe('stillness', () => {
  it.each(['standStill', 'stand', 'sitStill'] as Activity[])(
    '%s is rigid: one key, one body, sub-step after sub-step',
    (act) => {
      const stage = stageOf([someone([{ act }])]);
      runTo(stage, 30);
      const first = bodiesNow(stage);
      for (let n = 0; n < 200; n++) {
        runTo(stage, stage.tick + 1);
        const later = bodiesNow(stage, n % 5);
        expect(later.poseKey[0]).toBe(first.poseKey[0]);
        expect([...later.parts]).toEqual([...first.parts]);
      }
    },
  );

  it.each(POSES.slice(1))('%s changes the key whenever a part has moved', (_name, plan, tick) => {
    const stage = stageOf([someone(plan)]);
    runTo(stage, tick - 20);
    let before = bodiesNow(stage);
    let moved = 0;
    while (stage.tick < tick + 20) {
      for (let subStep = 1; subStep <= 5; subStep++) {
        if (subStep === 5) runTo(stage, stage.tick + 1);
        const now = bodiesNow(stage, subStep % 5);
        const same = now.parts.every((x, i) => x === before.parts[i]);
        expect(now.poseKey[0] === before.poseKey[0]).toBe(same);
        if (!same) moved++;
        before = now;
      }
    }
    expect(moved).toBeGreaterThan(10);
  });
});
