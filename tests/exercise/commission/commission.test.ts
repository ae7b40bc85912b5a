/** Commissioning jobs prove themselves, and marks come from what the room does. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { attemptText, readAttempt } from '../../../src/exercise/attempt.ts';
import { mistakeAttempt, proveCommission, solutionAttempt } from '../../../src/exercise/commission/proofs.ts';
import { ratioAt } from '../../../src/exercise/commission/ratio.ts';
import type { CommissionExercise } from '../../../src/exercise/commission/types.ts';
import { benchScenario } from '../../../src/exercise/edits.ts';
import { exerciseById, loadExercise } from '../../../src/exercise/load.ts';
import { markAttempt } from '../../../src/exercise/mark.ts';
import type { Attempt } from '../../../src/exercise/types.ts';

const library = diskLibrary();

function job(id: string): CommissionExercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok || loaded.value.kind !== 'commission') throw new Error(`${id} is no commissioning`);
  return loaded.value;
}

describe('set the delay', () => {
  it('proves itself: the shortest delay that works passes, shorter and longer ones fail and are named', () => {
    const results = proveCommission(job('quiet-reader-delay'), 2, 1);
    expect(results).toHaveLength(7);
    expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
  });

  it('gives the same mark from the file that was written', () => {
    const exercise = job('quiet-reader-delay');
    const attempt = mistakeAttempt(exercise, 2, exercise.commission.mistakes[0]!);
    const read = readAttempt(attemptText(attempt), 'a.json');
    const mark = markAttempt(exercise, (read as { value: Attempt }).value);
    expect(mark).toEqual(markAttempt(exercise, attempt));
    expect(mark.firstMismatchTick).toBeNull();
    expect(mark.commission!.days[0]!.darkOnSomebody).toBeGreaterThan(0);
  });
});

describe('set the brightness', () => {
  it('passes by waiting for the light and taking it, without arithmetic', () => {
    const exercise = job('brightness-by-meter');
    const at = (localTime: string) => ({ sky: 'overcast' as const, localDate: '2026-03-18', localTime, lamps: false });
    const { deskLx } = ratioAt(benchScenario(exercise, 1), 'window', at('09:35'));
    expect(Math.abs(deskLx - 500)).toBeLessThan(10);
    const [openedS, overcastS, clearS] = [11 * 3600, 9.55 * 3600, 15.84 * 3600];
    const attempt = solutionAttempt(exercise, 1);
    attempt.inputs = [
      { tick: 10, input: { kind: 'setSky', sky: 'overcast' } },
      { tick: 10, input: { kind: 'moveSun', shiftS: overcastS - openedS, localDate: null } },
      { tick: 40, input: { kind: 'takePresentLight', row: 'window' } },
      { tick: 50, input: { kind: 'setSky', sky: 'clear' } },
      { tick: 50, input: { kind: 'moveSun', shiftS: clearS - openedS, localDate: null } },
      { tick: 80, input: { kind: 'takePresentLight', row: 'inner' } },
    ].map((timed, serial) => ({ ...timed, serial })) as Attempt['inputs'];
    attempt.answers.commission!.proved = [{ tick: 100, serial: 6 }];
    const mark = markAttempt(exercise, attempt);
    expect(mark.pass).toBe(true);
    expect(mark.total).toBe(100);
  });
});

describe('a commissioning file', () => {
  const text = library.texts.get('exercises/prove-the-fan.json')!;
  it.each([
    ['whose points are not a hundred', text.replace('"points": 12', '"points": 10'), /points add up to 100/],
    [
      'with an unknown criterion in a mistake',
      text.replace('["shows-daylight"]', '["shows-dusk"]'),
      /id of a criterion/,
    ],
    [
      'with a mistake in a locked setting',
      text.replace(/"airOnDelayS": 0(\s*\},\s*"fails")/, '"innerOffDelayS": 60$1'),
      /setting of this job/,
    ],
    ['with an unknown day', text.replace('"days": ["short"]', '"days": ["brief"]'), /id of a proving day/],
    [
      'of an unknown kind of criterion',
      text.replace('"kind": "respondsWithin"', '"kind": "soon"'),
      /criterion whose kind is one of/,
    ],
  ])('%s is refused in a sentence', (_what, damaged, sentence) => {
    expect(damaged).not.toBe(text);
    const read = loadExercise(damaged, 'x.json', library);
    expect(read.ok).toBe(false);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(sentence);
  });
});
