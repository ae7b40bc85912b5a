import type { RandomStream } from '../random.ts';
import type { BodyBuffer, PersonSpec, PlanStep, PointM, Setup, Tick, WarmThingSpec } from '../types.ts';
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

/** Appends; the new person's index is people.length - 1 afterwards. */
export function addPerson(_people: PersonState[], _spec: PersonSpec, _tick: Tick): void {}

/** The entry stays in the list (present: false), so that nobody else's index changes. */
export function removePerson(_people: PersonState[], _personId: string): void {}

export function placePerson(
  _people: PersonState[], _personId: string, _atM: PointM, _headingDeg: number | undefined, _tick: Tick,
): void {}

export function setPlan(_people: PersonState[], _personId: string, _plan: PlanStep[], _tick: Tick): void {}
