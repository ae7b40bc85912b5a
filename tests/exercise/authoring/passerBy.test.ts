/** A room of somebody's own, with its door left open and its corridor used. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { createSimulation, stepSimulation } from '../../../src/engine/simulation.ts';
import type { Scenario } from '../../../src/engine/types.ts';
import { passedBy, sectorsToDoor } from '../../../src/exercise/authoring/passerBy.ts';
import { editOf } from '../../../src/exercise/editFile.ts';
import { edited } from '../../../src/exercise/edits.ts';
import { checkStory } from '../../../src/scenario/checks.ts';
import { loadStory } from '../../../src/scenario/load.ts';

const library = diskLibrary();

/** The story's room without its people: whatever is seen is outside. */
function emptyRoom(id: string): Scenario {
  const loaded = loadStory(library, id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  return { ...loaded.scenario, people: [], script: [] };
}

function pulsesIn(scenario: Scenario, forS: number): number {
  const sim = createSimulation(scenario);
  let pulses = 0;
  for (let tick = 0; tick < forS * 10; tick++) pulses += stepSimulation(sim, []).pulses.length;
  return pulses;
}

describe('sectors towards a door', () => {
  const office = emptyRoom('hunting');
  const [door] = office.room.doors;

  /** By hand: the door's ends at (0, 0.6) and (0, 1.6) m lie 237.2 and 247.1 degrees from (4.5, 3.5) m. */
  it('are those that its ends lie in', () => {
    expect(sectorsToDoor(office, door!)).toEqual([7, 8]);
  });

  it('turn with the detector', () => {
    const turned = { ...office, mount: { ...office.mount, turnDeg: 60 } };
    expect(sectorsToDoor(turned, door!)).toEqual([5, 6]);
  });

  it('go on over the bearing where counting begins anew', () => {
    const { room, mount } = office;
    const behind = { room, mount: { ...mount, atM: [4.5, 3.5] as [number, number], turnDeg: 242 } };
    expect(sectorsToDoor(behind, door!)).toEqual([0, 11]);
  });
});

describe.each(['hunting', 'winter-walk-in', 'quiet-reader'])('the room of %s, passed by', (id) => {
  const room = emptyRoom(id);
  const change = passedBy(room);
  const passed = edited(room, editOf(change!.edit!));
  const forS = 20;

  it('is a room that can be', () => {
    expect(checkStory('room.json', passed)).toEqual([]);
  });

  it('sees who passes, and with the clips of the repair nobody', () => {
    const [input] = change!.repair!;
    const clips = input!.kind === 'setSettings' ? input!.change : {};
    expect(pulsesIn(passed, forS)).toBeGreaterThan(3);
    expect(pulsesIn({ ...passed, settings: { ...passed.settings, ...clips } }, forS)).toBe(0);
  });
});

it('a full room is left as it is: You need a place too', () => {
  const loaded = loadStory(library, 'winter-walk-in');
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  const [one] = loaded.scenario.people;
  const people = [...'ABCDEFG'].map((id) => ({ ...one!, id }));
  expect(passedBy({ ...loaded.scenario, people })).toBeNull();
});
