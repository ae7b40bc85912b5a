/** Two paths side by side: acts in the order they were done, with their minutes, and the first that differ. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../../src/engine/simulation.ts';
import { expertAttempt, pathsOf } from '../../../src/exercise/assessment/expertAttempt.ts';
import { besideEachOther, pathOf, settingsApart } from '../../../src/exercise/assessment/path.ts';
import { SWAP_MIN } from '../../../src/exercise/diagnose/tests.ts';
import type { DiagnoseAnswers } from '../../../src/exercise/diagnose/types.ts';
import { exerciseById } from '../../../src/exercise/load.ts';
import type { Attempt, Exercise } from '../../../src/exercise/types.ts';
import { pathLines } from '../../../src/report/path.ts';

const library = diskLibrary();

function exerciseOf(id: string): Exercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  return loaded.value;
}

describe('a diagnosis beside the expert of its bench', () => {
  const exercise = exerciseOf('the-fan-stays-off');
  const expert = expertAttempt(exercise, 1);
  const changed = (change: (answers: DiagnoseAnswers) => DiagnoseAnswers): Attempt => ({
    ...expert,
    answers: { diagnose: change(expert.answers.diagnose!) },
  });

  it('is the same path where nothing differs, and its minutes are those of the bench', () => {
    const { learner, partAt } = pathsOf(exercise, expert);
    expect(partAt).toBeNull();
    expect(learner[0]).toMatchObject({ act: { kind: 'test', test: { instrument: 'ask' } }, minutes: 0.5, free: true });
    const kinds = learner.map(({ act }) => act.kind);
    expect(kinds.indexOf('claim')).toBeLessThan(kinds.indexOf('input'));
    expect(kinds.lastIndexOf('test')).toBeGreaterThan(kinds.indexOf('input'));
  });

  it('parts where a part is replaced before anything was measured, not where the client was not asked', () => {
    const theirs = pathOf(exercise, expert);
    const silent = pathOf(
      exercise,
      changed((a) => ({ ...a, clips: a.clips.slice(1) })),
    );
    expect(silent).toHaveLength(theirs.length - 1);
    expect(besideEachOther(silent, theirs).partAt).toBeNull();
    const swap = { tick: 0, serial: 0, part: 'detector' } as const;
    const swapped = pathOf(
      exercise,
      changed((a) => ({ ...a, swaps: [swap] })),
    );
    expect(swapped[0]).toMatchObject({ act: { kind: 'swap' }, minutes: SWAP_MIN });
    expect(besideEachOther(swapped, theirs).partAt).toEqual({ learner: 0, expert: 1 });
  });

  it('that stops early parts at its end', () => {
    const theirs = pathOf(exercise, expert);
    const { partAt } = besideEachOther(theirs.slice(0, 3), theirs);
    expect(partAt).toEqual({ learner: 3, expert: 3 });
  });

  it('is told in words, each act with the clock of the run', () => {
    const lines = pathLines(exercise, 1, pathOf(exercise, expert));
    expect(lines[0]!.text).toMatch(/^Ask the client\. /);
    for (const { clock, text } of lines) {
      expect(clock).toMatch(/^\d\d:\d\d:\d\d$/);
      expect(text).toMatch(/\.$/);
    }
    expect(lines.some(({ text }) => text.startsWith('Cause named: '))).toBe(true);
  });
});

const bare = (exercise: Exercise, rest: Partial<Attempt>): Attempt => ({
  format: 1,
  exercise: exercise.id,
  seed: 1,
  engine: ENGINE_VERSION,
  names: [],
  aid: 'practice',
  inputs: [],
  headTick: 100,
  digests: [],
  answers: {},
  ...rest,
});

it('settings turned one after the other are one act; what comes between parts them; walking about is none', () => {
  const exercise = exerciseOf('quiet-reader-delay');
  const set = (tick: number, innerOffDelayS: number) => ({
    tick,
    input: { kind: 'setSettings' as const, change: { innerOffDelayS } },
  });
  const inputs = [
    set(10, 300),
    { tick: 15, input: { kind: 'removePerson' as const, personId: 'A' } },
    set(20, 600),
    { tick: 30, input: { kind: 'setSky' as const, sky: 'overcast' as const } },
    set(40, 900),
  ].map((timed, serial) => ({ ...timed, serial }));
  const path = pathOf(exercise, bare(exercise, { inputs }));
  expect(path.map(({ atS, act }) => [atS, act.kind === 'input' && act.input])).toEqual([
    [2, { kind: 'setSettings', change: { innerOffDelayS: 600 } }],
    [3, { kind: 'setSky', sky: 'overcast' }],
    [4, { kind: 'setSettings', change: { innerOffDelayS: 900 } }],
  ]);
  const other = bare(exercise, { inputs: [{ ...set(10, 500), serial: 0 }] });
  expect(settingsApart(besideEachOther(pathOf(exercise, other), path))).toEqual(['innerOffDelayS']);
});

it('a foretold switching is the same within the tolerance of its exercise, and another beyond', () => {
  const exercise = exerciseOf('after-the-meeting');
  if (exercise.kind !== 'predict') throw new Error('no prediction');
  const { toleranceS } = exercise.predict;
  const at = (atS: number) =>
    pathOf(exercise, bare(exercise, { answers: { predict: { edges: { innerRow: [{ atS, on: false }] } } } }));
  expect(besideEachOther(at(1000 + toleranceS), at(1000)).partAt).toBeNull();
  expect(besideEachOther(at(1001 + toleranceS), at(1000)).partAt).toEqual({ learner: 0, expert: 0 });
});

it('readings and ratios of a bench are said as the expert says them', () => {
  const exercise = exerciseOf('two-readings');
  const { learner, partAt } = pathsOf(exercise, bare(exercise, { seed: 2 }));
  expect(learner).toEqual([]);
  expect(partAt).toEqual({ learner: 0, expert: 0 });
  const lines = pathLines(exercise, 2, pathOf(exercise, expertAttempt(exercise, 2)));
  expect(lines.map(({ text }) => text)[0]).toMatch(/^Desks read: [1-9]/);
  expect(lines).toHaveLength(3);
});
