/** Mending by the ordinary controls: the room as it is left is judged, whichever acts led to it, and evidence ends with it. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import type { Input, SimState } from '../../src/engine/types.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { judgeByRoom } from '../../src/exercise/diagnose/byEffect.ts';
import { candidateOf, cardScenario, trueCard } from '../../src/exercise/diagnose/cards.ts';
import {
  act,
  attemptOf,
  claim,
  createWorker,
  proveRepair,
  take,
  type Worker,
} from '../../src/exercise/diagnose/expert.ts';
import { nextTest } from '../../src/exercise/diagnose/greedy.ts';
import { judgeRepair } from '../../src/exercise/diagnose/repair.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { advance, plainWorld, tickOf } from '../../src/exercise/diagnose/world.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import type { Attempt, Mark } from '../../src/exercise/types.ts';

const library = diskLibrary();

function exercise(id: string): DiagnoseExercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error(`${id} is no diagnosis`);
  return loaded.value;
}

function benchWith(job: DiagnoseExercise, card: string): number {
  const seed = [1, 2, 3, 4, 5, 6, 7, 8].find((one) => trueCard(job, one) === card);
  if (seed === undefined) throw new Error(`no bench has ${card}`);
  return seed;
}

function gather(worker: Worker): void {
  take(worker, { instrument: 'ask' });
  for (let test = nextTest(worker); test; test = nextTest(worker)) take(worker, test);
}

function openForMending({ answers, bench, serial }: Worker): void {
  answers.mending = { tick: tickOf(bench.trueWorld), serial };
}

/** One press after the other, as steppers give them. */
function byHand(worker: Worker, inputs: readonly Input[]): void {
  for (const input of inputs) act(worker, [input]);
}

const set = (change: Extract<Input, { kind: 'setSettings' }>['change']): Input => ({ kind: 'setSettings', change });
const points = (mark: Mark, id: string): number => mark.parts.find((part) => part.id === id)!.points;

describe('an off-delay mended at the Set-up Sheet', () => {
  const job = exercise('goes-out-on-us');
  const seed = benchWith(job, 'off-delay-too-short');
  const steps = [120, 300, 900, 600].map((innerOffDelayS) => set({ innerOffDelayS }));
  const worked = (inputs: readonly Input[], openFirst: boolean): Attempt => {
    const worker = createWorker(job, seed);
    if (openFirst) openForMending(worker);
    gather(worker);
    claim(worker, 'off-delay-too-short');
    if (!openFirst) openForMending(worker);
    byHand(worker, inputs);
    proveRepair(worker, 'off-delay-too-short');
    return attemptOf(worker);
  };
  const attempt = worked([...steps, set({ windowOffDelayS: 600 })], false);
  const mark = markAttempt(job, attempt);

  it('passes with the whole repair, also read back from its file', () => {
    expect(mark).toMatchObject({ pass: true, firstMismatchTick: null });
    expect(points(mark, 'repair')).toBe(15);
    const read = readAttempt(attemptText(attempt), 'a.json');
    expect(markAttempt(job, (read as { value: Attempt }).value)).toEqual(mark);
  });

  it('by coupling the delays has the same effect and costs nothing', () => {
    const coupled = markAttempt(job, worked([...steps, set({ delaysCoupled: true })], false));
    expect(points(coupled, 'repair')).toBe(15);
  });

  it('with another setting left changed loses three points, and none once it is put back', () => {
    const with60 = [...steps, set({ windowOffDelayS: 600 }), set({ darkDwellS: 60 })];
    expect(points(markAttempt(job, worked(with60, false)), 'repair')).toBe(12);
    const { darkDwellS } = job.scenario.settings;
    expect(points(markAttempt(job, worked([...with60, set({ darkDwellS })], false)), 'repair')).toBe(15);
  });

  it('with only the inner row mended is no repair: the window row still has its fault', () => {
    expect(points(markAttempt(job, worked(steps, false)), 'repair')).toBeLessThan(15);
  });

  it('before the evidence fails: what is read in an open device tells nothing', () => {
    const lucky = markAttempt(job, worked([...steps, set({ windowOffDelayS: 600 })], true));
    expect(lucky.pass).toBe(false);
    expect(lucky.total).toBeLessThanOrEqual(60);
    expect(points(lucky, 'strategy')).toBe(0);
  });

  it('is refused with an opening that is no act', () => {
    const damaged = attemptText(attempt).replace(/"mending":\{"tick":\d+/, '"mending":{"tick":-1');
    expect(readAttempt(damaged, 'a.json')).toMatchObject({ ok: false });
  });
});

describe('a place mended by another place', () => {
  const job = exercise('types-in-the-dark');
  const judged = (card: string, change: (setup: SimState['setup']) => void) => {
    const scenario = cardScenario(job, 1, card);
    const world = plainWorld(scenario);
    advance(world, 1);
    const begin = world.sim.state;
    const end = structuredClone(begin);
    change(end.setup);
    const { remedy } = candidateOf(job, card).card;
    const { done, needless } = judgeByRoom({ remedy }, scenario, job.diagnose.complaint, begin, end);
    return { done, needless, listed: judgeRepair(remedy, begin, end).done };
  };
  const over = (setup: SimState['setup']): void => {
    setup.mount = { ...setup.mount, atM: [3.2, 2.2] };
  };
  const nudge = (setup: SimState['setup'], id: string): void => {
    setup.furniture = setup.furniture.map((piece) =>
      piece.id === id ? { ...piece, atM: [piece.atM[0] + 0.25, piece.atM[1]] } : piece,
    );
  };

  it('counts when the complaint is gone, though no card lists it', () => {
    expect(judged('screen-in-the-way', over)).toEqual({ done: true, needless: [], listed: false });
  });

  it('lists what it did not need', () => {
    const both = judged('screen-in-the-way', (setup) => {
      over(setup);
      nudge(setup, 'shelf');
    });
    expect(both).toEqual({ done: true, needless: ['furniture shelf'], listed: false });
  });

  it('is none while the complaint remains', () => {
    expect(judged('screen-in-the-way', (setup) => nudge(setup, 'shelf')).done).toBe(false);
    const farther = judged('detector-too-far', (setup) => {
      setup.mount = { ...setup.mount, atM: [8.7, 0.6] };
    });
    expect(farther).toMatchObject({ done: false, listed: true });
  });
});

describe('clips put on the lens', () => {
  const job = exercise('lights-at-night');
  /** The curtain is cured by these; the chair stands under them. */
  const OVER_THE_CURTAIN = [0, 1];
  const CHAIR = 'chair-2';
  const judged = (sectors: number[], { chair = false, stopped = false } = {}) => {
    const { room, ...story } = cardScenario(job, 1, 'curtain-in-the-draught');
    const scenario = {
      ...story,
      room: { ...room, furniture: room.furniture.filter(({ id }) => chair || id !== CHAIR) },
    };
    const world = plainWorld(scenario);
    advance(world, 1);
    const begin = world.sim.state;
    const end = structuredClone(begin);
    end.control.settings = { ...end.control.settings, maskedSectors: sectors };
    if (stopped) end.setup.warmThings = end.setup.warmThings.map((thing) => ({ ...thing, on: false }));
    const { remedy } = candidateOf(job, 'curtain-in-the-draught').card;
    return judgeByRoom({ remedy }, scenario, job.diagnose.complaint, begin, end);
  };

  it('over what disturbs, and over nobody, are a cure that no card lists', () => {
    expect(judged(OVER_THE_CURTAIN)).toMatchObject({ done: true, needless: [], scene: { holds: false } });
  });

  it('are none where the complaint remains', () => {
    expect(judged([0])).toMatchObject({ done: false, scene: { holds: true } });
  });

  it('are none where they blind the room to a seat or to the door', () => {
    const lost = { done: false, scene: { holds: false } };
    expect(judged(OVER_THE_CURTAIN, { chair: true })).toMatchObject(lost);
    expect(judged([...OVER_THE_CURTAIN, 8])).toMatchObject(lost);
  });

  it('beside the thing stopped are the ones that were not needed', () => {
    const both = judged(OVER_THE_CURTAIN, { stopped: true });
    expect(both.done).toBe(true);
    expect(both.needless).toContain('maskedSectors');
  });
});
