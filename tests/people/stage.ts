/** A stage for tests: people run tick by tick with their own stream, and read off part by part. */
import { PART } from '../../src/engine/people/girth.ts';
import { advancePeople, createPeople, poseBodies } from '../../src/engine/people/people.ts';
import type { PersonState } from '../../src/engine/people/types.ts';
import { streamFor } from '../../src/engine/random.ts';
import {
  type BodyBuffer,
  createBodyBuffer,
  NUMBERS_PER_PART,
  PARTS_PER_BODY,
  type PersonSpec,
  type PlanStep,
  type SimState,
} from '../../src/engine/types.ts';

export function someone(plan: PlanStep[], change: Partial<PersonSpec> = {}): PersonSpec {
  return {
    id: 'A',
    heightM: 1.78,
    clothingClo: 0.7,
    cameFromC: 21,
    atM: [2, 3],
    headingDeg: 0,
    outsideAtStart: false,
    plan,
    ...change,
  };
}

export interface Stage {
  people: PersonState[];
  dice: Pick<SimState, 'random' | 'seed'>;
  /** Last tick advanced to; -1 before the first. */
  tick: number;
}

export function stageOf(specs: PersonSpec[], seed = 1): Stage {
  return { people: createPeople(specs), dice: { random: [], seed }, tick: -1 };
}

export function step(stage: Stage): void {
  stage.tick += 1;
  const stream = streamFor(stage.dice, 'gestures');
  advancePeople(stage.people, stage.tick, stream);
  stream.save();
}

export function runTo(stage: Stage, tick: number): void {
  while (stage.tick < tick) step(stage);
}

export function bodiesNow(stage: Stage, subStep = 0, into: BodyBuffer = createBodyBuffer(12)): BodyBuffer {
  poseBodies(stage.people, [], stage.tick, subStep, into);
  return into;
}

export type PartName = keyof typeof PART;
export const PART_NAMES = Object.keys(PART) as PartName[];

export interface Ellipsoid {
  centre: number[];
  axes: number[][];
}

export function part(buffer: BodyBuffer, name: PartName | number, body = 0): Ellipsoid {
  const slot = typeof name === 'number' ? name : PART[name];
  const o = (body * PARTS_PER_BODY + slot) * NUMBERS_PER_PART;
  const n = [...buffer.parts.subarray(o, o + NUMBERS_PER_PART)];
  return { centre: n.slice(0, 3), axes: [n.slice(3, 6), n.slice(6, 9), n.slice(9, 12)] };
}

/** Half extent of an ellipsoid along a room axis. */
export function halfExtent(e: Ellipsoid, axis: 0 | 1 | 2): number {
  return Math.hypot(...e.axes.map((a) => a[axis]!));
}

export function topM(buffer: BodyBuffer): number {
  return Math.max(...PART_NAMES.map((n) => part(buffer, n).centre[2]! + halfExtent(part(buffer, n), 2)));
}

export function distance(a: number[], b: number[]): number {
  return Math.hypot(...a.map((x, i) => x - b[i]!));
}
