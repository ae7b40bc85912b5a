/** Two causes at once: a candidate of two cards, of which finding and mending one is not enough. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { trueCard } from '../../src/exercise/diagnose/cards.ts';
import {
  act,
  attemptOf,
  claim,
  createWorker,
  proveRepair,
  repairOf,
  take,
} from '../../src/exercise/diagnose/expert.ts';
import { nextTest } from '../../src/exercise/diagnose/greedy.ts';
import { expertWorker } from '../../src/exercise/diagnose/proofs.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { exerciseById, loadExercise } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';

const library = diskLibrary();
const ID = 'one-cause-or-two';
const loaded = exerciseById(library, ID);
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const job = loaded.value as DiagnoseExercise;
const PAIR = 'fouled-light-windows-and-setpoint-too-high';
const seed = [1, 2, 3, 4, 5, 6, 7, 8].find((one) => trueCard(job, one) === PAIR)!;

describe('two causes at once', () => {
  it('are one candidate with the edits, repairs and remedies of both', () => {
    const cards = new Map(job.diagnose.candidates.map(({ card }) => [card.id, card]));
    const [dirt, high] = [cards.get('fouled-light-windows')!, cards.get('setpoint-too-high')!];
    expect(cards.get(PAIR)).toMatchObject({
      title: 'Dirt on the light windows and setpoint too high',
      edit: { ...dirt.edit, ...high.edit },
      repair: [...dirt.repair, ...high.repair],
      remedy: [[...dirt.remedy[0]!, ...high.remedy[0]!]],
    });
  });

  it('are both found by the expert, whose mark is a pass', () => {
    const mark = markAttempt(job, attemptOf(expertWorker(job, seed)));
    expect(mark.diagnosis).toMatchObject({ named: PAIR, trueCard: PAIR, complaintGone: true });
    expect(mark.diagnosis!.posterior).toBeGreaterThanOrEqual(0.9);
    expect(mark.pass).toBe(true);
  });

  it.each(['fouled-light-windows', 'setpoint-too-high'])('do not pass with %s named and mended alone', (one) => {
    const worker = createWorker(job, seed);
    for (let test = nextTest(worker); test; test = nextTest(worker)) take(worker, test);
    claim(worker, one);
    act(worker, repairOf(worker, one));
    proveRepair(worker, one);
    const repeated = worker.answers.clips.filter(({ test }) => test.instrument === 'repeat').at(-1)!;
    expect(repeated.values.holds).toBe(true);
    const mark = markAttempt(job, attemptOf(worker));
    expect(mark.pass).toBe(false);
    expect(mark.parts.find(({ id }) => id === 'repair')!.points).toBe(0);
  });

  it('are refused in a sentence when the second is no card', () => {
    const text = library.texts.get(`exercises/${ID}.json`)!.replace('"and": "setpoint-too-high"', '"and": "no-such"');
    const read = loadExercise(text, 'x.json', library);
    expect(read.ok).toBe(false);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(/candidates\[4\]\.and must be a card/);
  });
});
