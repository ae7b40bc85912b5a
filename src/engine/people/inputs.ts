/** What the stage manager may do to people between ticks. Each changes `people` in place. */

import type { PersonView } from '../frame.ts';
import type { PersonSpec, PlanStep, PointM, Tick } from '../types.ts';
import { wrapDeg } from '../units.ts';
import { HANG_M, REFERENCE_HEIGHT_M } from './anatomy.ts';
import { restingAct, stopWalk } from './plan.ts';
import { headingAtDeg } from './timing.ts';
import type { PersonState } from './types.ts';
import { surfacesFor } from './warmth.ts';

/** A standing person as the file describes them. `tick`: when they come into the story. */
export function createPerson(spec: PersonSpec, tick: Tick): PersonState {
  const scale = spec.heightM / REFERENCE_HEIGHT_M;
  const [x, y, z] = HANG_M;
  const headingDeg = wrapDeg(spec.headingDeg);
  return {
    spec,
    present: !spec.outsideAtStart,
    removed: false,
    atM: [spec.atM[0], spec.atM[1]],
    headingDeg,
    act: spec.outsideAtStart ? 'outside' : 'standStill',
    plan: spec.plan,
    stepIndex: 0,
    stepPhase: 'waiting',
    stepStartTick: tick,
    readyTick: tick,
    fromM: [spec.atM[0], spec.atM[1]],
    toM: [spec.atM[0], spec.atM[1]],
    walkStartTick: tick,
    walkTicks: 0,
    walkLagTicks: 0,
    turnFromDeg: headingDeg,
    turnToDeg: headingDeg,
    turnStartTick: tick,
    turnTicks: 0,
    seatFrom: 0,
    seatTo: 0,
    seatStartTick: tick,
    seatTicks: 0,
    handsFromM: [-x * scale, y * scale, z * scale, x * scale, y * scale, z * scale],
    armRest: 'hang',
    armsStartTick: tick,
    strideFromM: 0,
    strideToM: 0,
    strideStartTick: tick,
    strideEndTick: null,
    gaitPhase: 0,
    gaitHz: 0,
    gesture: null,
    nextGestureTick: null,
    ...surfacesFor(spec),
  };
}

function indexOf(people: PersonState[], personId: string): number {
  return people.findIndex((p) => p.spec.id === personId && !p.removed);
}

/** Adds a person at the end, or in the place of a removed one of the same id. Returns the place; -1: the id is in use. */
export function addPerson(people: PersonState[], spec: PersonSpec, tick: Tick): number {
  const known = people.findIndex((p) => p.spec.id === spec.id);
  if (known >= 0 && !people[known]!.removed) return -1;
  const place = known >= 0 ? known : people.length;
  people[place] = createPerson(spec, tick);
  return place;
}

/** Takes a person out of the story; the place in the list stays. False when nobody has this id. */
export function removePerson(people: PersonState[], personId: string): boolean {
  const person = people[indexOf(people, personId)];
  if (person === undefined) return false;
  Object.assign(person, { removed: true, present: false, act: 'outside', plan: [], stepIndex: 0, gesture: null });
  person.walkTicks = 0;
  return true;
}

/**
 * Sets a person down, standing still, at once. What was left of the plan is cancelled: whoever places somebody in a chair
 * gives the plan `sitStill` next. Surfaces keep their temperatures. False when nobody has this id.
 */
export function placePerson(
  people: PersonState[],
  personId: string,
  atM: PointM,
  headingDeg: number | undefined,
  tick: Tick,
): boolean {
  const i = indexOf(people, personId);
  const person = people[i];
  if (person === undefined) return false;
  const { surfaceC, balanceC, balanceFor } = person;
  const spec = person.spec;
  const facingDeg = headingDeg ?? headingAtDeg(person, tick);
  const fresh = createPerson({ ...spec, atM, headingDeg: facingDeg, outsideAtStart: false, plan: [] }, tick);
  people[i] = { ...fresh, spec, surfaceC, balanceC, balanceFor };
  return true;
}

/** Replaces what is left of the plan. A walk stops where it is; a gesture under way is finished. */
export function setPlan(people: PersonState[], personId: string, plan: PlanStep[], tick: Tick): boolean {
  const person = people[indexOf(people, personId)];
  if (person === undefined) return false;
  stopWalk(person, tick);
  person.plan = plan;
  person.stepIndex = 0;
  person.stepPhase = 'waiting';
  person.stepStartTick = tick;
  person.nextGestureTick = null;
  if (person.present) person.act = restingAct(person);
  return true;
}

/** What a view may know of a person at `tick`, the one they were last advanced to. */
export function personView(person: PersonState, tick: Tick): PersonView {
  return {
    id: person.spec.id,
    atM: [person.atM[0], person.atM[1]],
    headingDeg: wrapDeg(headingAtDeg(person, tick)),
    act: person.act,
    present: person.present,
  };
}
