import { describe, expect, it } from 'vitest';
import type { Activity } from '../../src/engine/types.ts';
import { bodiesNow, distance, type PartName, part, runTo, type Stage, someone, stageOf, step } from './stage.ts';

/** Runs the next gesture and returns where a part went, from the pose before it. */
function pathOf(stage: Stage, name: PartName): { from: number[]; path: number[][] } {
  const person = stage.people[0]!;
  while (person.gesture === null) step(stage);
  const from = part(bodiesNow(stage), name).centre;
  const path: number[][] = [];
  while (person.gesture !== null) {
    for (let subStep = 0; subStep < 5; subStep++) path.push(part(bodiesNow(stage, subStep), name).centre);
    step(stage);
  }
  path.push(part(bodiesNow(stage), name).centre);
  return { from, path };
}

const acting = (act: Activity, gestureEveryS = 2): Stage => {
  const stage = stageOf([someone([{ act, gestureEveryS }], { atM: [0, 0] })], 7);
  runTo(stage, 25);
  return stage;
};

describe('gestures', () => {
  it('typing moves both hands five centimetres to either side and leaves the body alone', () => {
    for (const hand of ['leftHand', 'rightHand'] as const) {
      const { from, path } = pathOf(acting('type'), hand);
      const aside = path.map((p) => p[0]! - from[0]!);
      // The hand's middle lies past the wrist that is moved, so it goes a little further round the elbow.
      expect(Math.max(...aside)).toBeGreaterThan(0.045);
      expect(Math.max(...aside)).toBeLessThan(0.08);
      expect(Math.min(...aside)).toBeLessThan(-0.045);
      expect(Math.min(...aside)).toBeGreaterThan(-0.08);
    }
    const { from, path } = pathOf(acting('type'), 'chest');
    expect(Math.max(...path.map((p) => distance(p, from)))).toBe(0);
  });

  it('a reach sweeps the forearm by ninety degrees and back in two seconds', () => {
    const stage = acting('reach');
    const person = stage.people[0]!;
    while (person.gesture === null) step(stage);
    const side = person.gesture.side > 0 ? 'right' : 'left';
    const bearing = (subStep: number) => {
      const forearm = part(bodiesNow(stage, subStep), `${side}Forearm`).axes[0]!;
      return (Math.atan2(forearm[0]!, forearm[1]!) * 180) / Math.PI;
    };
    const first = bearing(0);
    let most = 0;
    const start = stage.tick;
    while (person.gesture !== null) {
      for (let subStep = 0; subStep < 5; subStep++) most = Math.max(most, Math.abs(bearing(subStep) - first));
      step(stage);
    }
    expect(stage.tick - start).toBe(20);
    expect(most).toBeGreaterThan(89.5);
    expect(most).toBeLessThan(90.5);
  });

  it('a lean takes the shoulders .18 m forward', () => {
    const stage = acting('lean');
    const person = stage.people[0]!;
    while (person.gesture === null) step(stage);
    // The upper arm hangs on the shoulder: its upper tip, .06 m beyond the joint.
    const shoulder = (subStep: number) => {
      const { centre, axes } = part(bodiesNow(stage, subStep), 'leftUpperArm');
      const sign = axes[0]![2]! > 0 ? 1 : -1;
      const long = Math.hypot(...axes[0]!);
      return centre[1]! + (sign * axes[0]![1]! * (long - 0.06)) / long;
    };
    const first = shoulder(0);
    let most = 0;
    while (person.gesture !== null) {
      for (let subStep = 0; subStep < 5; subStep++) most = Math.max(most, shoulder(subStep) - first);
      step(stage);
    }
    expect(most).toBeGreaterThan(0.175);
    expect(most).toBeLessThan(0.185);
  });

  it('a leaning head stays half as bent as the trunk', () => {
    const stage = acting('lean');
    const person = stage.people[0]!;
    const bend = (name: 'chest' | 'hair') => {
      const [, , up] = part(bodiesNow(stage), name).axes;
      return up![1]! / Math.hypot(...up!);
    };
    while (person.gesture === null) step(stage);
    runTo(stage, stage.tick + 15);
    expect(bend('chest')).toBeGreaterThan(0.3);
    expect(bend('hair')).toBeCloseTo(bend('chest') / 2, 9);
  });

  it('a stretch lifts both hands over the head', () => {
    const { path } = pathOf(acting('stretch'), 'rightHand');
    expect(Math.max(...path.map((p) => p[2]!))).toBeGreaterThan(1.9);
  });

  it.each(['type', 'read', 'reach', 'lean', 'stretch', 'sit'] as Activity[])(
    '%s ends in the pose it began in',
    (act) => {
      const stage = acting(act);
      const person = stage.people[0]!;
      while (person.gesture !== null) step(stage);
      const rest = bodiesNow(stage).parts;
      while (person.gesture === null) step(stage);
      step(stage);
      expect([...bodiesNow(stage).parts]).not.toEqual([...rest]);
      while (person.gesture !== null) step(stage);
      expect([...bodiesNow(stage).parts]).toEqual([...rest]);
    },
  );

  it('come at the pace asked for, in gaps that are exponential', () => {
    const stage = stageOf([someone([{ act: 'type', gestureEveryS: 5 }])], 3);
    const person = stage.people[0]!;
    const gaps: number[] = [];
    let endedAt: number | null = null;
    let moving = false;
    while (gaps.length < 1500) {
      step(stage);
      const now = person.gesture !== null;
      if (now && !moving && endedAt !== null) gaps.push((stage.tick - endedAt) / 10);
      if (!now && moving) endedAt = stage.tick;
      moving = now;
    }
    const mean = gaps.reduce((a, b) => a + b) / gaps.length;
    // Standard error of the mean of 1500 exponential gaps is 2.6 %; four of them.
    expect(Math.abs(mean / 5 - 1)).toBeLessThan(0.11);
    // Source: an exponential gap exceeds its mean with probability 1/e.
    const longer = gaps.filter((g) => g > 5).length / gaps.length;
    expect(Math.abs(longer - Math.exp(-1))).toBeLessThan(0.05);
  });
});
