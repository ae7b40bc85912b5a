/** Whom the controller saw, and when. */
import type { PersonState } from '../engine/people/types.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { PointM, Tick } from '../engine/types.ts';

export interface Sighting {
  tick: Tick;
  personId: string;
}

/** A pulse farther than this from everybody is nobody's, m. Assumed: arms reach this far from where a person stands. */
const REACH_M = 1;

function nearestTo(atM: PointM, people: readonly PersonState[]): string | null {
  let id: string | null = null;
  let nearestM = REACH_M;
  for (const person of people) {
    const farM = Math.sqrt((person.atM[0] - atM[0]) ** 2 + (person.atM[1] - atM[1]) ** 2);
    if (!person.present || farM > nearestM) continue;
    nearestM = farM;
    id = person.spec.id;
  }
  return id;
}

/**
 * Adds who was seen by the events of one tick: a pulse that the controller took is his who stands nearest to where it
 * arose. Noise and warm things farther than an arm from everybody count for nobody.
 */
export function noteSightings(
  sightings: Sighting[],
  people: readonly PersonState[],
  events: readonly TraceEvent[],
): void {
  for (const event of events) {
    if (event.kind !== 'pulse' || !event.counted || !event.pulse.atM) continue;
    const personId = nearestTo(event.pulse.atM, people);
    if (personId === null) continue;
    const last = sightings.at(-1);
    if (last?.tick === event.tick && last.personId === personId) continue;
    sightings.push({ tick: event.tick, personId });
  }
}

/** When each Stand-in was last seen, at or before `tick`, by letter; absent: not yet. */
export function lastSightings(sightings: readonly Sighting[], tick: Tick): Record<string, Tick> {
  const last: Record<string, Tick> = {};
  for (const sighting of sightings) {
    if (sighting.tick > tick) break;
    last[sighting.personId] = sighting.tick;
  }
  return last;
}
