import type { RandomStream } from '../random.ts';
import type { BodyBuffer, PersonSpec, Setup, Tick, WarmThingSpec } from '../types.ts';
import type { PersonState } from './types.ts';

export function createPeople(specs: PersonSpec[]): PersonState[] {
  return specs.map((spec) => ({
    spec,
    present: !spec.outsideAtStart,
    atM: spec.atM,
    headingDeg: spec.headingDeg,
    plan: spec.plan,
    stepIndex: 0,
    stepStartTick: 0,
    fromM: spec.atM,
  }));
}

/** Moves plans, walks and gesture draws to the start of `tick`. */
export function advancePeople(_people: PersonState[], _tick: Tick, _stream: RandomStream): void {}

/** Writes every present body as of sub-step 0-4 of the tick. No allocation. */
export function poseBodies(
  _people: PersonState[],
  _things: WarmThingSpec[],
  _tick: Tick,
  _subStep: number,
  out: BodyBuffer,
): void {
  out.count = 0;
}

/** Radiance excess over the room, W m-2 sr-1, per body and part kind [body * 5 + kind]; slow surfaces advance by a tick. */
export function radiateBodies(
  _people: PersonState[],
  _things: WarmThingSpec[],
  _setup: Setup,
  _tick: Tick,
  _out: Float64Array,
): void {}
