/** Every bundled exercise proves itself, and an attempt's mark comes out the same from its file. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { benchScenario } from '../../src/exercise/edits.ts';
import { exerciseById, exerciseIds, loadExercise } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { playFor, solutionEdges } from '../../src/exercise/predict/solution.ts';
import { PROOF_SEEDS, proveExercise } from '../../src/exercise/proofs.ts';
import type { Attempt, PredictExercise } from '../../src/exercise/types.ts';

const library = diskLibrary();

function exercise(id: string): PredictExercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  if (loaded.value.kind !== 'predict') throw new Error(`${id} is no prediction`);
  return loaded.value;
}

const isPrediction = (id: string): boolean => library.texts.get(`exercises/${id}.json`)!.includes('"kind": "predict"');

function attemptOf(id: string, seed: number, shiftS: number): Attempt {
  const job = exercise(id);
  const played = playFor(job, seed);
  const edges = solutionEdges(job, played);
  const shifted = Object.fromEntries(
    Object.entries(edges).map(([output, list]) => [output, list.map((e) => ({ ...e, atS: e.atS + shiftS }))]),
  );
  return {
    format: 1,
    exercise: id,
    seed,
    engine: ENGINE_VERSION,
    names: ['Bench 4'],
    aid: job.aid,
    inputs: [],
    headTick: job.predict.toS * 10,
    digests: played.digests,
    answers: { predict: { edges: shifted } },
  };
}

describe.each(exerciseIds(library).filter(isPrediction))('%s', (id) => {
  it.each(PROOF_SEEDS)('proves itself on bench %i: solution, nothing, mistakes by name, twenty random ones', (seed) => {
    const results = proveExercise(exercise(id), seed, 20);
    expect(results.length).toBeGreaterThanOrEqual(4);
    expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
  });
});

describe('benches', () => {
  it('of different seeds are different rooms, the same seed is the same room', () => {
    const job = exercise('after-the-meeting');
    const settings = [1, 2, 3, 4, 5, 6].map((seed) => JSON.stringify(benchScenario(job, seed).settings));
    expect(new Set(settings).size).toBeGreaterThan(2);
    expect(benchScenario(job, 4)).toEqual(benchScenario(job, 4));
  });
});

describe('an attempt file', () => {
  const attempt = attemptOf('after-the-meeting', 2, 20);

  it('gives the same mark after writing, reading and replaying', () => {
    const read = readAttempt(attemptText(attempt), 'a.json');
    expect(read.ok).toBe(true);
    const job = exercise(attempt.exercise);
    const mark = markAttempt(job, (read as { value: Attempt }).value);
    expect(mark).toEqual(markAttempt(job, attempt));
    expect(mark.firstMismatchTick).toBeNull();
    expect(mark.total).toBeGreaterThan(40);
    expect(mark.total).toBeLessThan(100);
  });

  it('of another room is noticed at replay', () => {
    const job = exercise(attempt.exercise);
    expect(markAttempt(job, { ...attempt, seed: 3 }).firstMismatchTick).toBe(0);
  });

  const text = attemptText(attempt);
  it.each([
    ['cut off', text.slice(0, 200), /breaks off/],
    ['empty', '', /expected JSON/],
    ['of a newer format', text.replace('"format":1', '"format":2'), /newer/],
    ['of another kind', text.replace('"kind":"attempt"', '"kind":"story"'), /must be "attempt"/],
    ['with an unknown key', text.replace('"format":1', '"format":1,"bonus":9'), /bonus is not a known key/],
    ['with a changed instant', text.replace(/"atS":(\d)/, '"atS":9$1'), /seal does not fit/],
    ['with another name', text.replace('Bench 4', 'Bench 5'), /seal does not fit/],
    ['without a seal', text.replace(/,"seal":"[0-9a-f]+"/, ''), /seal is missing/],
    ['with a list for its answers', text.replace('"answers":{', '"answers":[],"x":{'), /answers/],
    ['with a broken digest', text.replace(/"digest":"[0-9a-f]{4}/, '"digest":"zz'), /digest of 16/],
  ])('%s is refused in a sentence that names the file', (_what, damaged, sentence) => {
    const read = readAttempt(damaged, 'a.json');
    expect(read.ok).toBe(false);
    const { sentences } = read as { sentences: string[] };
    expect(sentences.join(' ')).toMatch(sentence);
    expect(sentences.every((s) => s.startsWith('a.json'))).toBe(true);
  });
});

describe('an exercise file', () => {
  const text = library.texts.get('exercises/after-the-meeting.json')!;
  it.each([
    ['of an unknown story', text.replace('"meeting-and-fan"', '"no-such"'), /story must be a story in scenarios/],
    ['whose end lies before its beginning', text.replace('"toS": 1800', '"toS": 100'), /toS must be later than fromS/],
    [
      'with a draw that is no room',
      text.replace('"airOffDelayS": 720', '"airOffDelay": 720'),
      /airOffDelay is not a known key/,
    ],
    ['with two hints', text.replace(/"Look for the very last pulse.",/, ''), /a list of 3 to 3 hints/],
  ])('%s is refused in a sentence', (_what, damaged, sentence) => {
    const read = loadExercise(damaged, 'x.json', library);
    expect(read.ok).toBe(false);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(sentence);
  });
});
