/** Who is in the corridor is not in the room: for complaints, for the instruments and for who is sent out. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { isInRoom } from '../../src/engine/room/corridor.ts';
import { cardScenario } from '../../src/exercise/diagnose/cards.ts';
import { judgeComplaint, repeatComplaint, setUpOf } from '../../src/exercise/diagnose/complaint.ts';
import { foundRoom } from '../../src/exercise/diagnose/found.ts';
import { everybodyLeaves, planOf } from '../../src/exercise/diagnose/plan.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { advance, createWorld, plainWorld, someoneAt } from '../../src/exercise/diagnose/world.ts';
import { exerciseById } from '../../src/exercise/load.ts';

const CARD = 'sees-the-corridor';
const SEED = 2;

function exercise(): DiagnoseExercise {
  const loaded = exerciseById(diskLibrary(), 'on-with-nobody-inside');
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  if (loaded.value.kind !== 'diagnose') throw new Error('no diagnosis');
  return loaded.value;
}
const job = exercise();
const scenario = cardScenario(job, SEED, CARD);

/** The first tick from `fromS` on in which somebody is in the corridor. */
function tickInCorridor(fromS: number) {
  const world = createWorld(scenario, [], null);
  for (let tick = fromS * 10; tick < fromS * 10 + 3000; tick++) {
    advance(world, tick + 1);
    const people = world.sim.state.people.filter(({ present }) => present);
    if (people.some(({ atM }) => !isInRoom(scenario.room, atM))) return { world, tick, people };
  }
  throw new Error('nobody came');
}

describe('somebody in the corridor', () => {
  it('is not somebody in the room', () => {
    const { world, tick, people } = tickInCorridor(300);
    expect(people).toHaveLength(1);
    expect(someoneAt(world, tick)).toBe(false);
    expect(judgeComplaint(plainWorld(scenario), job.diagnose.complaint)).toMatchObject({ holds: true, timeS: 210 });
  });

  it('is not sent out with those who are in the room', () => {
    const { people } = tickInCorridor(300);
    const acts = everybodyLeaves(job, people, 0).map(({ input }) => 'personId' in input && input.personId);
    expect(acts).toEqual(['Y']);
  });
});

describe('You, who try the corridor', () => {
  it('walk along its wall, and never through it', () => {
    const { sim } = foundRoom(job, SEED, CARD);
    const { acts } = planOf(job, { instrument: 'seenAt', place: 'corridor' }, sim.state);
    const plan = acts.flatMap(({ input }) => (input.kind === 'setPlan' ? input.plan : []));
    expect(plan.length).toBeGreaterThan(2);
    for (const step of plan) expect(step).toMatchObject({ act: 'walk', toM: [-1, expect.any(Number)] });
  });
});

describe('the complaint played again', () => {
  const found = setUpOf(foundRoom(job, SEED, CARD).sim.state);
  const holds = (change: Partial<typeof found>) =>
    repeatComplaint(scenario, { ...found, ...change }, job.diagnose.complaint).holds;

  it('is gone with clips towards the door, or with the detector back in the middle', () => {
    expect(holds({})).toBe(true);
    expect(holds({ settings: { ...found.settings, maskedSectors: [8, 9] } })).toBe(false);
    expect(holds({ mount: { ...found.mount, atM: [4.5, 3.5] } })).toBe(false);
  });

  it('is not gone with the door shut: the next who comes leaves it open again', () => {
    expect(holds({ doors: found.doors.map((door) => ({ ...door, open: false })) })).toBe(true);
  });
});
