/** Two walks compared: what the room does with them, what notes earn, and the proofs of every bench. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { exerciseById, loadExercise } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import type { ObserveAnswers } from '../../src/exercise/observe/types.ts';
import { earlierOf, judgeWalks, SEEN_WITHIN_TICKS } from '../../src/exercise/observe/walkMarks.ts';
import { directionOf, isWalks, notedWalk, walkOffers, walkPaces, walkTruth } from '../../src/exercise/observe/walks.ts';
import { walkSolution } from '../../src/exercise/observe/walkWays.ts';
import { PROOF_SEEDS, proveExercise } from '../../src/exercise/proofs.ts';
import type { Attempt } from '../../src/exercise/types.ts';
import { walkBelief, walkLineText } from '../../src/report/text/walks.ts';

const library = diskLibrary();
const loaded = exerciseById(library, 'two-walks');
if (!loaded.ok || loaded.value.kind !== 'observe' || !isWalks(loaded.value)) throw new Error('no two walks');
const job = loaded.value;
const SEED = 3;
const right = walkSolution(job, SEED);
/** On this bench whoever walks toward the detector is never seen. */
const UNSEEN_SEED = 2;

const pointsOf = (answers: ObserveAnswers, seed = SEED): number[] =>
  judgeWalks(job, seed, answers).lines.map(({ points }) => points);
const FULL = [20, 15, 15, 10, 10, 15, 15];

describe('Two walks', () => {
  it.each(PROOF_SEEDS)('prove themselves on bench %i: solution, nothing, mistakes by name, random ones', (seed) => {
    const results = proveExercise(job, seed, 20);
    expect(results).toHaveLength(9);
    expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
  });

  it('differ between benches in bearing, paces, temperature and the order of the lines', () => {
    const benches = Array.from({ length: 8 }, (_, i) => i + 1);
    const paces = benches.map((seed) => walkPaces(job, seed).join());
    const begins = benches.map((seed) => walkOffers(job, seed)[0]!.fromM.join());
    const toward = benches.map((seed) =>
      String(walkOffers(job, seed).findIndex((o) => directionOf(o, job.observe) === 'toward')),
    );
    for (const list of [paces, begins, toward]) expect(new Set(list).size).toBeGreaterThan(1);
  });

  it('have one line across and one toward among lines of one beginning', () => {
    const ways = walkOffers(job, SEED).map((offer) => directionOf(offer, job.observe));
    expect([...ways].sort()).toEqual(['across', 'between', 'between', 'toward']);
    expect(new Set(walkOffers(job, SEED).map(({ fromM }) => fromM.join())).size).toBe(1);
  });

  it('show the crossing walk earlier, with more pulses in each metre, at either pace', () => {
    for (const paceMps of walkPaces(job, SEED)) {
      const [across, toward] = right.walks!.map(({ line }) => walkTruth(job, SEED, { line, paceMps }));
      expect(earlierOf([across!, toward!])).toBe(0);
      expect(across!.pulsesPerM / toward!.pulsesPerM).toBeGreaterThan(1.5);
    }
  });

  it('can end without anybody being seen, and saying so is right', () => {
    const unseen = walkSolution(job, UNSEEN_SEED);
    expect(unseen.walks![1]!.unseen).toBe(true);
    expect(pointsOf(unseen, UNSEEN_SEED)).toEqual(FULL);
    const [across, toward] = right.walks!;
    const { seen: _seen, ...rest } = toward!;
    expect(pointsOf({ ...right, walks: [across!, { ...rest, unseen: true }] })[2]).toBe(0);
  });
});

describe('a note', () => {
  const [across, toward] = right.walks!;
  const seenAt = (byTicks: number): number =>
    pointsOf({
      ...right,
      walks: [{ ...across!, seen: { ...across!.seen!, tick: across!.seen!.tick + byTicks } }, toward!],
    })[1]!;

  it('of the first sight counts up to half a second from it, and not beyond', () => {
    expect([-SEEN_WITHIN_TICKS, SEEN_WITHIN_TICKS].map(seenAt)).toEqual([15, 15]);
    expect([-SEEN_WITHIN_TICKS - 1, SEEN_WITHIN_TICKS + 1].map(seenAt)).toEqual([0, 0]);
  });

  it('is measured anew: figures written into the attempt by hand change nothing', () => {
    const forged = { ...across!, signal: { tick: 0, wayM: 3, signalUv: 900 } };
    expect(pointsOf({ ...right, walks: [forged, toward!] })).toEqual([20, 15, 15, 0, 10, 15, 15]);
    const honest = { ...across!, signal: { ...across!.signal!, signalUv: 0 } };
    expect(pointsOf({ ...right, walks: [honest, toward!] })).toEqual(FULL);
  });

  it('of a line or a pace that this bench has not is no walk', () => {
    expect(pointsOf({ ...right, walks: [{ ...across!, paceMps: 0.2 }, toward!] })).toEqual([0, 0, 15, 0, 10, 0, 0]);
    expect(pointsOf({ ...right, walks: [{ ...across!, line: 8 }, toward!] })).toEqual([0, 0, 15, 0, 10, 0, 0]);
  });
});

describe('a conclusion', () => {
  it('follows from the measured walks, whichever is called the first', () => {
    const { walks, ...said } = right;
    const turned = [walks![1]!, walks![0]!];
    expect(pointsOf({ ...said, walks: turned, earlier: 1 })).toEqual(FULL);
    expect(pointsOf({ ...said, walks: turned, earlier: 0 })[5]).toBe(0);
  });

  it('needs two walks that differ in direction alone', () => {
    const [, briskMps] = walkPaces(job, SEED);
    const brisk = notedWalk(job, SEED, { line: right.walks![1]!.line, paceMps: briskMps });
    expect(pointsOf({ ...right, walks: [right.walks![0]!, brisk] })).toEqual([0, 15, 15, 10, 10, 0, 0]);
  });
});

describe('an attempt with two walks', () => {
  const attempt: Attempt = {
    format: 1,
    exercise: job.id,
    seed: SEED,
    engine: 'any',
    names: [],
    aid: job.aid,
    inputs: [],
    headTick: 0,
    digests: [],
    answers: { observe: right },
  };

  it('has the same mark after writing and reading', () => {
    const read = readAttempt(attemptText(attempt), 'a.json');
    expect(read.ok && markAttempt(job, read.value)).toEqual(markAttempt(job, attempt));
    expect(markAttempt(job, attempt)).toMatchObject({ total: 100, pass: true, firstMismatchTick: null });
  });
});

describe('an exercise file of two walks', () => {
  const text = library.texts.get('exercises/two-walks.json')!;
  const faults = (change: (text: string) => string): string => {
    const read = loadExercise(change(text), 'x.json', library);
    return read.ok ? '' : read.sentences.join(' ');
  };

  it('whose lines leave the room, or whose walks are not over in time, is refused in a sentence', () => {
    expect(faults((t) => t.replace('"lengthM": 3.4', '"lengthM": 9'))).toMatch(/^x\.json.*lines that lie in the room/);
    expect(faults((t) => t.replace('[0.8, 1.2]', '[0.3, 1.2]'))).toMatch(/later than the slowest walk/);
  });
});

describe('what is said about two walks', () => {
  it('keeps each belief to sixty words, with what comes next', () => {
    for (const id of ['twoPaces', 'oneDirection', 'alreadyOn', 'towardIsSooner', 'nearerIsStronger'] as const) {
      const text = walkBelief({ id, walk: 1, atS: 11 });
      expect(text.split(/\s+/).length).toBeLessThanOrEqual(60);
      expect(text).toContain('Next:');
      expect(text).not.toMatch(/wrong|well done|good/i);
    }
  });

  it('tells of a walk without notes that nothing was noted, not that nobody was seen', () => {
    const { lines } = judgeWalks(job, SEED, {});
    expect(walkLineText(lines[1]!.say as Parameters<typeof walkLineText>[0])).toBe(
      'First walk: nothing was noted of it.',
    );
  });
});
