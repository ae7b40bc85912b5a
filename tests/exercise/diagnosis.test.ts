/** Diagnose exercises prove themselves, and a file that was tampered with is refused or marked by what the room shows. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { beliefAfter } from '../../src/exercise/diagnose/evidence.ts';
import { attemptOf, createWorker, take } from '../../src/exercise/diagnose/expert.ts';
import { isHintEarned } from '../../src/exercise/diagnose/hints.ts';
import { expertWorker } from '../../src/exercise/diagnose/proofs.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { exerciseById, exerciseIds } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { proveExercise } from '../../src/exercise/proofs.ts';
import type { Attempt } from '../../src/exercise/types.ts';

const library = diskLibrary();
const ids = exerciseIds(library).filter((id) =>
  library.texts.get(`exercises/${id}.json`)!.includes('"kind": "diagnose"'),
);

function exercise(id: string): DiagnoseExercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  if (loaded.value.kind !== 'diagnose') throw new Error(`${id} is no diagnosis`);
  return loaded.value;
}

describe.each(ids)('%s', (id) => {
  it('proves itself: expert, nothing, swap, guess, another cause, random acts, and every candidate fits', () => {
    const results = proveExercise(exercise(id), 1, 20);
    expect(results.length).toBeGreaterThanOrEqual(7);
    expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
  });
});

describe('an attempt at a diagnosis', () => {
  const job = exercise('goes-out-on-us');
  const expert = expertWorker(job, 1);
  const attempt = attemptOf(expert);
  const mark = markAttempt(job, attempt);

  it('gives the same mark after writing, reading and replaying, and every reading is as shown', () => {
    const read = readAttempt(attemptText(attempt), 'a.json');
    expect(read.ok).toBe(true);
    expect(markAttempt(job, (read as { value: Attempt }).value)).toEqual(mark);
    expect(mark.firstMismatchTick).toBeNull();
    expect(mark.diagnosis?.clipsNotAsShown).toBe(0);
    expect(mark.pass).toBe(true);
  });

  it('is marked by readings taken again: changed values change nothing but the remark', () => {
    const { diagnose } = attempt.answers;
    const clips = diagnose!.clips.map((clip) => ({ ...clip, values: { is: 1 } }));
    const other = markAttempt(job, { ...attempt, answers: { diagnose: { ...diagnose!, clips } } });
    expect(other.total).toBe(mark.total);
    expect(other.diagnosis?.clipsNotAsShown).toBeGreaterThan(0);
  });

  it('has parts that add up to its total', () => {
    const sum = mark.parts.reduce((total, { points }) => total + points, 0);
    expect(sum).toBeCloseTo(mark.total, 6);
  });

  it('earns a hint with a reading that ruled something out, and the next one only with another', () => {
    const { bench, taken } = expert;
    expect(beliefAfter(bench, taken.slice(0, 1)).tellingTicks).toEqual([]);
    const { tellingTicks } = beliefAfter(bench, taken);
    expect(tellingTicks.length).toBeGreaterThan(0);
    const [first] = tellingTicks;
    expect(isHintEarned([], [])).toBe(false);
    expect(isHintEarned([first!], [])).toBe(true);
    expect(isHintEarned([first!], [{ tick: first! + 1, rung: 1 }])).toBe(false);
    expect(isHintEarned([first!, first! + 40], [{ tick: first! + 1, rung: 1 }])).toBe(true);
  });

  it('pays two points of strategy for each hint in a test, read twice or not, and nothing in practice', () => {
    const hints = [1, 2, 2].map((rung) => ({ tick: attempt.headTick, rung }));
    const helped = { ...attempt, answers: { diagnose: { ...attempt.answers.diagnose!, hints } } };
    const strategy = (one: Attempt) => markAttempt(job, one).parts.find(({ id }) => id === 'strategy')!;
    const before = strategy(attempt).points;
    expect(strategy(helped).points).toBe(before);
    expect(strategy(helped).lines.at(-1)!.say).toEqual({ code: 'hintsUsed', count: 2, cost: 0 });
    expect(strategy({ ...helped, aid: 'test' }).points).toBeCloseTo(before - 4, 6);
  });

  it('needs You where You measure', () => {
    const worker = createWorker(job, 1);
    const nowhere = { acts: [], readAfterS: 0, until: null };
    expect(take(worker, { instrument: 'luxMeter', place: 'desk-2' }, nowhere)).toEqual({ refused: 'youAreNotThere' });
    expect(take(worker, { instrument: 'luxMeter', place: 'desk-2' })).toHaveProperty('values.deskLx');
  });

  const text = attemptText(attempt);
  it.each([
    ['with another cause', text.replace(/"card":"[a-z-]+"/, '"card":"other"'), /seal does not fit/],
    ['with a clip moved in time', text.replace(/"clips":\[\{"tick":(\d)/, '"clips":[{"tick":9$1'), /seal does not fit/],
    ['with a value changed', text.replace(/"values":\{\}/, '"values":{"is":1}'), /seal does not fit/],
    ['with an unknown instrument', text.replace('"instrument":"ask"', '"instrument":"oracle"'), /instrument is one of/],
    ['with clips that are no list', text.replace('"clips":[', '"clips":{},"x":['), /clips/],
    [
      'with a swap of an unknown part',
      text.replace('"swaps":[]', '"swaps":[{"tick":1,"serial":1,"part":"wall"}]'),
      /part/,
    ],
    ['with a fourth rung', text.replace('"hints":[]', '"hints":[{"tick":1,"rung":4}]'), /1 to 3/],
    ['with a claim without its card', text.replace(/,"card":"[a-z-]+"/, ''), /card is missing/],
    ['with points written in', text.replace('"hints":[]', '"hints":[],"points":100'), /points is not a known key/],
    ['without its record', text.replace(/,"record":\{"advice":""\}/, ''), /record is missing/],
  ])('%s is refused in a sentence that names the file', (_what, damaged, sentence) => {
    expect(damaged).not.toBe(text);
    const read = readAttempt(damaged, 'a.json');
    expect(read.ok).toBe(false);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(sentence);
  });
});
