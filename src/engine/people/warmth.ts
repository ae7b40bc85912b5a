/** Surface temperatures of people over time, and what bodies radiate beyond the room. */

import { bandRadianceFast } from '../heat/planck.ts';
import {
  CLOTHING_EMISSIVITY,
  clothedC,
  faceC,
  HAIR_EMISSIVITY,
  hairC,
  handC,
  relativeAirMps,
  SKIN_EMISSIVITY,
  THING_EMISSIVITY,
} from '../heat/surfaces.ts';
import { PART_KINDS, type PersonSpec, type Setup, type Tick, type WarmThingSpec } from '../types.ts';
import { TICK_S } from '../units.ts';
import { bodyOfThing } from './things.ts';
import type { PersonState } from './types.ts';

/** Surfaces follow a change of climate or of work with this time constant, s. Assumed: middle of 5-10 min for ordinary
 *  clothing. Longer keeps people from outside cold, and visible, for longer. */
export const SURFACE_TIME_S = 420;
/** Share of the way made in one tick: 1 - e^(-x) to second order (next term 1e-12). */
const TICK_SHARE = TICK_S / SURFACE_TIME_S - (TICK_S / SURFACE_TIME_S) ** 2 / 2;
/** Nearer than this to its balance a surface has arrived, K. Assumed: the last jump gives under .2 µV, below noise;
 *  it makes a body at rest exactly constant. */
const ARRIVED_K = 0.002;
/** Work of walking, met. Source: ISO 7730:2005 tables, from memory: 2.0 at 3 km/h on the level. */
export const WALKING_MET = 2;
/** Work of sitting and standing about, met. Source: ISO 7730:2005 tables, from memory: 1.2 in an office. */
export const RESTING_MET = 1.2;
function balance(airC: number, radiantC: number, met: number, clothingClo: number): number[] {
  const clothing = clothedC({ airC, radiantC, airSpeedMps: relativeAirMps(met) }, clothingClo);
  return [hairC(airC), faceC(airC), clothing, handC(airC)];
}

/** Adapted to where the person came from. */
export function surfacesFor(spec: PersonSpec): Pick<PersonState, 'surfaceC' | 'balanceC' | 'balanceFor'> {
  const surfaceC = balance(spec.cameFromC, spec.cameFromC, RESTING_MET, spec.clothingClo);
  return { surfaceC, balanceC: [...surfaceC], balanceFor: [spec.cameFromC, spec.cameFromC, RESTING_MET] };
}

/** Relaxes surfaces by one tick towards the balance of where the person is: the room, or where they came from. */
export function adaptPerson(person: PersonState, setup: Pick<Setup, 'airTemperatureC' | 'radiantTemperatureC'>): void {
  const { spec, surfaceC, balanceFor } = person;
  const airC = person.present ? setup.airTemperatureC : spec.cameFromC;
  const radiantC = person.present ? setup.radiantTemperatureC : spec.cameFromC;
  const met = person.act === 'walk' ? WALKING_MET : RESTING_MET;
  if (balanceFor[0] !== airC || balanceFor[1] !== radiantC || balanceFor[2] !== met) {
    person.balanceFor = [airC, radiantC, met];
    person.balanceC = balance(airC, radiantC, met, spec.clothingClo);
  }
  for (let k = 0; k < 4; k++) {
    const gap = person.balanceC[k]! - surfaceC[k]!;
    if (gap !== 0) surfaceC[k] = Math.abs(gap) < ARRIVED_K ? person.balanceC[k]! : surfaceC[k]! + gap * TICK_SHARE;
  }
}

/**
 * Emission beyond what the room's walls send back, W m-2 sr-1, at [body * 5 + kind]: e (L(surface) - L(radiant)).
 * Bodies in the order of `poseBodies`: people present, then things with a body. Advances surfaces by a tick.
 */
export function radiateBodies(
  people: PersonState[],
  things: WarmThingSpec[],
  setup: Pick<Setup, 'airTemperatureC' | 'radiantTemperatureC'>,
  _tick: Tick,
  out: Float64Array,
): void {
  for (let i = 0; i < people.length; i++) adaptPerson(people[i]!, setup);
  radianceOfBodies(people, things, setup, out);
}

/** The same for surfaces as they are; reads only. */
export function radianceOfBodies(
  people: readonly PersonState[],
  things: readonly WarmThingSpec[],
  setup: Pick<Setup, 'radiantTemperatureC'>,
  out: Float64Array,
): void {
  const room = bandRadianceFast(setup.radiantTemperatureC);
  let o = 0;
  for (let i = 0; i < people.length; i++) {
    const person = people[i]!;
    if (!person.present) continue;
    const { surfaceC } = person;
    out[o] = HAIR_EMISSIVITY * (bandRadianceFast(surfaceC[0]!) - room);
    out[o + 1] = SKIN_EMISSIVITY * (bandRadianceFast(surfaceC[1]!) - room);
    out[o + 2] = CLOTHING_EMISSIVITY * (bandRadianceFast(surfaceC[2]!) - room);
    out[o + 3] = SKIN_EMISSIVITY * (bandRadianceFast(surfaceC[3]!) - room);
    out[o + 4] = 0;
    o += PART_KINDS.length;
  }
  for (let i = 0; i < things.length; i++) {
    const thing = things[i]!;
    if (!bodyOfThing(thing)) continue;
    out.fill(0, o, o + 4);
    out[o + 4] = THING_EMISSIVITY * (bandRadianceFast(setup.radiantTemperatureC + thing.excessK) - room);
    o += PART_KINDS.length;
  }
}
