/** The people stage: what `simulation.ts` calls. Bodies are people present, in order, then warm things with a body. */
import type { RandomStream } from '../random.ts';
import {
  type BodyBuffer,
  PARTS_PER_BODY,
  type PersonSpec,
  type Tick,
  type UprightBody,
  type WarmThingSpec,
} from '../types.ts';
import { PERSON_KINDS } from './girth.ts';
import { createPerson } from './inputs.ts';
import { advancePerson } from './plan.ts';
import { isAtRest, posePerson, riseAtM } from './pose.ts';
import { BODY_STRIDE, poseKeyOf, writeRig } from './rig.ts';
import { POSE_NUMBERS } from './slots.ts';
import { bodyOfThing, poseThing } from './things.ts';
import type { PersonState } from './types.ts';

export { addPerson, personView, placePerson, removePerson, setPlan } from './inputs.ts';
export { staticWarmPatches, type WarmPatch } from './things.ts';
export { adaptPerson, radianceOfBodies, radiateBodies } from './warmth.ts';
export { bodyOfThing };

/** Index of the kind `thing` in BodyBuffer.partKind. */
const THING_KIND = 4;

export function createPeople(specs: PersonSpec[]): PersonState[] {
  return specs.map((spec) => createPerson(spec, 0));
}

/** Moves plans, walks and gesture draws to the start of `tick`. */
export function advancePeople(people: PersonState[], tick: Tick, stream: RandomStream): void {
  for (let i = 0; i < people.length; i++) advancePerson(people[i]!, tick, stream);
}

const NOBODY: readonly UprightBody[] = [];

/** Everybody on the ladder at `tick`. */
export function raisedBodies(people: PersonState[], tick: Tick): readonly UprightBody[] {
  // Asked every tick and hardly ever true: nothing is made for the usual answer.
  if (!people.some(({ present, perch }) => present && perch === 'ladder')) return NOBODY;
  return people.flatMap((person) => {
    const riseM = person.present ? riseAtM(person, tick) : 0;
    return riseM > 0 ? [{ atM: person.atM, fromM: riseM, toM: riseM + person.spec.heightM }] : [];
  });
}

/** Scratch of one call. */
const pose = new Float64Array(POSE_NUMBERS);

/** Copies a person's body from a buffer that holds it at the same place. */
function copyPerson(from: BodyBuffer, body: number, out: BodyBuffer): void {
  for (let k = body * BODY_STRIDE; k < (body + 1) * BODY_STRIDE; k++) out.parts[k] = from.parts[k]!;
}

/**
 * Writes every present body as of sub-step 0-4 of the tick people were last advanced to. No allocation. Bodies beyond
 * the buffer are left out. `first`: the buffer of sub-step 0 of this very tick, from which those at rest are taken.
 */
export function poseBodies(
  people: PersonState[],
  things: WarmThingSpec[],
  tick: Tick,
  subStep: number,
  out: BodyBuffer,
  first: BodyBuffer | null = null,
): void {
  const capacity = out.owner.length;
  let body = 0;
  for (let i = 0; i < people.length && body < capacity; i++) {
    const person = people[i]!;
    if (!person.present) continue;
    const same = first !== null && isAtRest(person, tick);
    if (!same) posePerson(person, tick, subStep, pose);
    const key = same ? first.poseKey[body]! : poseKeyOf(pose, person.spec.heightM);
    // A buffer that already holds this very pose of this body needs no writing.
    if (out.owner[body] !== i || out.poseKey[body] !== key) {
      if (same) copyPerson(first, body, out);
      else writeRig(pose, person.spec.heightM, out.parts, body * BODY_STRIDE);
      out.partKind.set(PERSON_KINDS, body * PARTS_PER_BODY);
      out.owner[body] = i;
      out.poseKey[body] = key;
    }
    body++;
  }
  for (let i = 0; i < things.length && body < capacity; i++) {
    const thing = things[i]!;
    if (!bodyOfThing(thing)) continue;
    out.poseKey[body] = poseThing(thing, tick, subStep, out.parts, body * BODY_STRIDE);
    out.partKind.fill(THING_KIND, body * PARTS_PER_BODY, (body + 1) * PARTS_PER_BODY);
    out.owner[body] = -1 - i;
    body++;
  }
  out.count = body;
}

/** Every sub-step of a tick, one buffer each. */
export function poseTick(people: PersonState[], things: WarmThingSpec[], tick: Tick, out: BodyBuffer[]): void {
  const first = out[0]!;
  for (let s = 0; s < out.length; s++) poseBodies(people, things, tick, s, out[s]!, s === 0 ? null : first);
}
