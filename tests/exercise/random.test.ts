/** Clicking without thought, and what a pass asks for beside points: the dice are fair, and what is not played out fails. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { assessed, NO_ASSESSMENT } from '../../src/exercise/assessment/assessment.ts';
import { mayPass } from '../../src/exercise/commission/mark.ts';
import { randomAttempt, solutionAttempt } from '../../src/exercise/commission/proofs.ts';
import type { CommissionExercise } from '../../src/exercise/commission/types.ts';
import { trueCard } from '../../src/exercise/diagnose/cards.ts';
import { attemptOf, claim, createWorker, take } from '../../src/exercise/diagnose/expert.ts';
import { nextTest } from '../../src/exercise/diagnose/greedy.ts';
import { expertWorker, isHopeless, randomActs, randomWorker } from '../../src/exercise/diagnose/proofs.ts';
import type { DiagnoseExercise, ProofId } from '../../src/exercise/diagnose/types.ts';
import { diceOf } from '../../src/exercise/dice.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import type { Attempt, Exercise, Mark } from '../../src/exercise/types.ts';

const library = diskLibrary();

function exercise(id: string): Exercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  return loaded.value;
}

const diagnosis = (id: string): DiagnoseExercise => exercise(id) as DiagnoseExercise;

describe('dice', () => {
  it.each([2, 4, 5, 8])('of %i: what falls first says nothing of what falls next, round for round', (count) => {
    const rounds = 400 * count;
    const fell = new Map<string, number>();
    for (let round = 0; round < rounds; round++) {
      const dice = diceOf('any-job', 1, round);
      const pair = `${dice(count)} ${dice(count)}`;
      fell.set(pair, (fell.get(pair) ?? 0) + 1);
    }
    expect(fell.size).toBe(count * count);
    const fair = rounds / (count * count);
    // Six standard deviations of a count of rare hits.
    for (const times of fell.values()) expect(Math.abs(times - fair)).toBeLessThan(6 * Math.sqrt(fair));
  });

  it('fall alike for the same job, bench and round, and otherwise for another', () => {
    const falls = (job: string, seed: number, round: number) => {
      const dice = diceOf(job, seed, round);
      return Array.from({ length: 8 }, () => dice(1000));
    };
    expect(falls('a', 1, 1)).toEqual(falls('a', 1, 1));
    const others = [falls('a', 1, 2), falls('a', 2, 1), falls('b', 1, 1)];
    for (const other of others) expect(other).not.toEqual(falls('a', 1, 1));
  });
});

describe('what is not played out', () => {
  it('fails when it is: random diagnoses', () => {
    const job = diagnosis('stays-dark');
    const rounds = Array.from({ length: 14 }, (_, i) => randomActs(job, 1, 20 + i)).filter((a) =>
      isHopeless(job, 1, a),
    );
    expect(rounds.length).toBeGreaterThan(5);
    for (const acts of rounds) expect(markAttempt(job, attemptOf(randomWorker(job, 1, acts)!)).pass).toBe(false);
    // Named and mended rightly, and proved, but after readings that left other causes.
    const truth = job.diagnose.candidates.find(({ card }) => card.id === trueCard(job, 1))!.card;
    const after = job.diagnose.tests.filter(({ instrument }) => ['repeat', 'seenAt', 'button'].includes(instrument));
    const lucky = { before: [], named: truth, mended: truth, after };
    expect(randomWorker(job, 1, lucky, true)).toBeNull();
    expect(markAttempt(job, attemptOf(randomWorker(job, 1, lucky)!)).pass).toBe(false);
  });

  it('fails when it is: random set-ups; and the solution is not among them', () => {
    const whole = exercise('quiet-reader-delay') as CommissionExercise;
    // Short days: the rule is the same, and hours of somebody reading are sensed elsewhere.
    const days = whole.commission.days.map((day) => ({ ...day, forS: 400 }));
    const job = { ...whole, commission: { ...whole.commission, days } };
    const hopeless = Array.from({ length: 12 }, (_, i) => randomAttempt(job, 1, 20 + i)).filter(
      (a) => !mayPass(job, a),
    );
    expect(hopeless.length).toBeGreaterThan(5);
    for (const attempt of hopeless) expect(markAttempt(job, attempt).pass).toBe(false);
    expect(mayPass(job, solutionAttempt(job, 1))).toBe(true);
  });
});

describe('a pass in a diagnosis', () => {
  const job = diagnosis('goes-out-on-us');
  const expert = attemptOf(expertWorker(job, 1), ['Ada']);
  const { diagnose } = expert.answers;
  const namedTick = diagnose!.claims[0]!.tick;

  /** The expert's work with only these clips after the repair. */
  function shown(...instruments: string[]): Mark {
    const clips = diagnose!.clips.filter(
      ({ tick, test }) => tick <= namedTick || instruments.includes(test.instrument),
    );
    return markAttempt(job, { ...expert, answers: { diagnose: { ...diagnose!, clips } } });
  }
  const proofsOf = (mark: Mark): ProofId[] =>
    mark.parts.flatMap(({ lines }) => lines.flatMap(({ say }) => (say.code === 'proofDone' ? [say.proof] : [])));

  it('needs three proofs', () => {
    const two = shown('repeat', 'seenAt');
    expect(proofsOf(two)).toEqual(['complaint', 'movement']);
    expect(two.total).toBeGreaterThanOrEqual(70);
    expect(two.pass).toBe(false);
    expect(two.parts.flatMap(({ lines }) => lines.map(({ say }) => say.code))).toContain('proofShort');
    expect(shown('repeat', 'seenAt', 'button').pass).toBe(true);
  });

  it('needs the complaint played again, whatever else was shown', () => {
    const rest = shown('seenAt', 'button', 'stopwatch', 'settings');
    expect(proofsOf(rest).length).toBeGreaterThanOrEqual(3);
    expect(rest.pass).toBe(false);
  });

  it('is the same on the sheet of an assessor who rules nothing', () => {
    for (const mark of [
      shown('repeat', 'seenAt'),
      shown('repeat', 'seenAt', 'button'),
      shown('seenAt', 'button', 'stopwatch'),
    ]) {
      expect(assessed(mark, NO_ASSESSMENT).pass).toBe(mark.pass);
    }
  });

  it('of a healthy room counts what was shown before the verdict, as long as nothing was changed', () => {
    const bright = diagnosis('no-lamp-when-i-come-in');
    const worker = createWorker(bright, 1);
    for (const instrument of ['ask', 'repeat'] as const) take(worker, { instrument });
    for (let test = nextTest(worker); test; test = nextTest(worker)) take(worker, test);
    take(worker, { instrument: 'seenAt', place: 'entry' });
    take(worker, { instrument: 'luxMeter', place: 'desk-2' });
    claim(worker, 'bright-enough');
    const attempt: Attempt = attemptOf(worker, ['Ada']);
    expect(markAttempt(bright, attempt)).toMatchObject({ pass: true });
    const changed = {
      tick: attempt.headTick - 1,
      serial: 9999,
      input: { kind: 'setSettings' as const, change: { windowOffDelayS: 660 } },
    };
    expect(markAttempt(bright, { ...attempt, inputs: [...attempt.inputs, changed] })).toMatchObject({ pass: false });
  });
});
