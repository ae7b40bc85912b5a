/** Cover cloth and torch: what they do to the detector, who may hold them, and which causes they part. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { createSimulation, stepSimulation } from '../../src/engine/simulation.ts';
import type { Input } from '../../src/engine/types.ts';
import { frameOf } from '../../src/engine/view.ts';
import { binOf, rivalBin } from '../../src/exercise/diagnose/bench.ts';
import { trueCard } from '../../src/exercise/diagnose/cards.ts';
import { act, createWorker, take, type Worker } from '../../src/exercise/diagnose/expert.ts';
import { heldAct } from '../../src/exercise/diagnose/heldBefore.ts';
import { AT_ONCE, planOf } from '../../src/exercise/diagnose/plan.ts';
import { repairsAmong } from '../../src/exercise/diagnose/repair.ts';
import type { DiagnoseExercise, Test } from '../../src/exercise/diagnose/types.ts';
import { tickOf } from '../../src/exercise/diagnose/world.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { heldSentences } from '../../src/report/text/held.ts';
import { smallStory } from '../support/smallStory.ts';

const library = diskLibrary();
const CLOTH = { instrument: 'cloth', forMin: 1 } as const;
const TORCH = { instrument: 'torch', side: 'window', forMin: 1 } as const;

function exercise(id: string): DiagnoseExercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error(`${id} is no diagnosis`);
  return loaded.value;
}

/** Readings of ticks 0-29 of a small room with an act at tick 10 (none: as it is). */
function readings(input: Input | null, turnDeg = 0): { innerLx: number; windowLx: number }[] {
  const story = smallStory();
  const sim = createSimulation({ ...story, mount: { ...story.mount, turnDeg } });
  return Array.from({ length: 30 }, (_, tick) => {
    const due = input && tick === 10 ? [{ tick, serial: 0, input }] : [];
    return stepSimulation(sim, due).light.readings;
  });
}

describe('before the photometers', () => {
  it('a cloth shuts out all light for its time and leaves nothing behind', () => {
    const plain = readings(null);
    const covered = readings({ kind: 'coverDetector', forS: 1 });
    expect(plain[15]!.windowLx).toBeGreaterThan(0);
    expect(covered.slice(10, 20)).toEqual(Array.from({ length: 10 }, () => ({ innerLx: 0, windowLx: 0 })));
    expect([...covered.slice(0, 10), ...covered.slice(20)]).toEqual([...plain.slice(0, 10), ...plain.slice(20)]);
  });

  it('a torch from the window side reaches the window photometer, and the inner one of a detector turned round', () => {
    const gain = (turnDeg: number) => {
      const [plain, lit] = [
        readings(null, turnDeg)[15]!,
        readings({ kind: 'holdTorch', side: 'window', forS: 1 }, turnDeg)[15]!,
      ];
      return [lit.innerLx - plain.innerLx, lit.windowLx - plain.windowLx];
    };
    // 500 lx from 45 degrees on an axis of 35 degrees in a cone of 30 degrees: 500 cos 10 / sin^2 30, by hand.
    expect(gain(0)[0]).toBe(0);
    expect(gain(0)[1]).toBeCloseTo(1969.6, 1);
    expect(gain(180)[0]).toBeCloseTo(1969.6, 1);
    expect(gain(180)[1]).toBe(0);
  });
});

/** Causes that the reading of a test just taken leaves standing. */
function leaves(worker: Worker, test: Test): string[] {
  const reading = take(worker, test);
  expect(reading).toHaveProperty('bin');
  const tick = tickOf(worker.bench.trueWorld);
  return worker.exercise.diagnose.candidates
    .map(({ card }) => card.id)
    .filter((id) => id === worker.bench.truth || rivalBin(worker.bench, id, test, tick) === binOf(reading));
}

describe('what a view knows of it', () => {
  it('is there from the act to its end, and gone at once with the act that takes it away', () => {
    const sim = createSimulation(smallStory());
    const acts: Record<number, Input> = {
      10: { kind: 'coverDetector', forS: 1 },
      12: { kind: 'holdTorch', side: 'inner', forS: 60 },
      25: { kind: 'holdTorch', side: 'inner', forS: 0 },
    };
    const held = Array.from({ length: 30 }, (_, tick) => {
      const input = acts[tick];
      const step = stepSimulation(sim, input ? [{ tick, serial: tick, input }] : []);
      return frameOf(sim, step).held;
    });
    const ticks = (is: (one: (typeof held)[number]) => boolean) => held.flatMap((one, tick) => (is(one) ? [tick] : []));
    expect(ticks(({ cloth }) => cloth !== null)).toEqual([10, 11, 12, 13, 14, 15, 16, 17, 18, 19]);
    expect(ticks(({ torch }) => torch?.side === 'inner')).toEqual([12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24]);
    expect(heldSentences(held[12]!, 12)).toEqual([
      'A cloth covers the detector for another 1 second.',
      'A torch shines at it from the inner side for another 1 minute.',
    ]);
  });
});

describe('as an instrument', () => {
  it('is refused without You up the ladder, and before its time has passed', () => {
    const worker = createWorker(exercise('no-lamp-when-i-come-in'), 1);
    act(worker, [heldAct(CLOTH)]);
    expect(take(worker, CLOTH, AT_ONCE)).toEqual({ refused: 'youAreNotThere' });
    const plan = planOf(worker.exercise, CLOTH, worker.bench.trueWorld.sim.state);
    expect(take(worker, CLOTH, { ...plan, readAfterS: 20 })).toEqual({ refused: 'notHeldSoLong' });
  });

  it('counts as a test and not as a repair', () => {
    const inputs = [CLOTH, TORCH].map((test, i) => ({ tick: i, serial: i, input: heldAct(test) }));
    expect(repairsAmong(inputs)).toEqual([]);
  });

  it('the cloth parts a room that is bright enough from rows that wait for their buttons', () => {
    const worker = createWorker(exercise('no-lamp-when-i-come-in'), 1);
    expect(worker.bench.truth).toBe('bright-enough');
    expect(leaves(worker, CLOTH)).not.toContain('manual-on');
    expect(worker.taken[0]!.clip.values).toMatchObject({ window: 'came on', windowLx: 0, seen: 0 });
  });

  it('the torch parts a detector turned round from every other cause', () => {
    const job = exercise('dark-at-noon');
    const seed = [1, 2, 3, 4, 5, 6].find((one) => trueCard(job, one) === 'detector-turned')!;
    expect(leaves(createWorker(job, seed), TORCH)).toEqual(['detector-turned']);
  });
});
