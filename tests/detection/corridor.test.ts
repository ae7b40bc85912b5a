/**
 * People in the corridor: the lens sees them through an open door and through nothing else. What is compared is the room
 * with itself, door open and shut, so that no number of the model is taken for truth.
 */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { createSimulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { PersonSpec, PointM, Scenario, TimedInput } from '../../src/engine/types.ts';
import { loadStory } from '../../src/scenario/load.ts';

const loaded = loadStory(diskLibrary(), 'hunting');
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const STORY = loaded.scenario;

const passerBy = (fromM: PointM, toM: PointM): PersonSpec => ({
  id: 'P',
  heightM: 1.75,
  clothingClo: 0.9,
  cameFromC: 21,
  atM: fromM,
  headingDeg: 180,
  outsideAtStart: false,
  plan: [{ act: 'walk', toM, speedMps: 1.2, fromS: 1 }],
});

/** The drawing office, its one door in the left wall from 0.6 to 1.6 m, with somebody in its corridor and nobody else. */
function office(open: boolean, person: PersonSpec, change: Partial<Scenario> = {}): Scenario {
  const doors = STORY.room.doors.map((door) => ({ ...door, openAtStart: open }));
  return { ...STORY, room: { ...STORY.room, doors }, people: [person], script: [], ...change };
}

/** Places where pulses arose in the first ten seconds. */
function pulsesIn(scenario: Scenario, inputs: TimedInput[] = []): PointM[] {
  const sim = createSimulation(scenario);
  const places: PointM[] = [];
  for (let tick = 0; tick < 100; tick++) {
    const due = inputs.filter((input) => input.tick === tick);
    for (const pulse of stepSimulation(sim, due).pulses) if (pulse.atM) places.push(pulse.atM);
  }
  return places;
}

const ALONG = passerBy([-1, 6.6], [-1, 0.4]);
const MOUNTS: PointM[] = [
  [4.5, 3.5],
  [2, 1.1],
];
const hung = (atM: PointM): Partial<Scenario> => ({ mount: { ...STORY.mount, atM } });

describe.each(MOUNTS)('somebody who walks past in the corridor, the detector at %f, %f m', (...atM) => {
  it('is seen through the open door', () => {
    const places = pulsesIn(office(true, ALONG, hung(atM)));
    expect(places.length).toBeGreaterThan(3);
    // They arise where he walks: beyond the wall, and not before its solid part, a shoulder and the slant apart.
    for (const [x, y] of places) {
      expect(x).toBeLessThan(0);
      expect(y).toBeLessThan(2.2);
    }
  });

  it('is not seen through the closed door', () => {
    expect(pulsesIn(office(false, ALONG, hung(atM)))).toEqual([]);
  });

  it('is not seen through the wall beside the open door', () => {
    expect(pulsesIn(office(true, passerBy([-1, 6.6], [-1, 3.4]), hung(atM)))).toEqual([]);
  });
});

describe('the door', () => {
  it('shut while he walks ends it, and opened lets him be seen', () => {
    const shut = (open: boolean): TimedInput => ({
      tick: 5,
      serial: 0,
      input: { kind: 'setDoor', doorId: 'door', open },
    });
    expect(pulsesIn(office(true, ALONG), [shut(false)])).toEqual([]);
    expect(pulsesIn(office(false, ALONG), [shut(true)]).length).toBeGreaterThan(3);
  });
});

describe('clips', () => {
  it('over the sectors towards the door hide the corridor and leave the room', () => {
    const settings = { ...STORY.settings, maskedSectors: [7, 8] };
    expect(pulsesIn(office(true, ALONG, { settings }))).toEqual([]);
    const inside = passerBy([6.2, 5.5], [6.2, 1.2]);
    expect(pulsesIn(office(true, inside, { settings })).length).toBeGreaterThan(3);
  });
});
