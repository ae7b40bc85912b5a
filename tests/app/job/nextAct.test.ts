/** What a paper puts first: handing in only when nothing that is asked is left. */
import { describe, expect, it } from 'vitest';
import { isReady } from '../../../src/app/state/job/commission.ts';
import { isObserved } from '../../../src/app/state/job/observe.ts';
import { live } from '../../../src/app/state/live.ts';
import { diskLibrary } from '../../../src/cli/files.ts';
import type { CommissionExercise, CommissionLine } from '../../../src/exercise/commission/types.ts';
import { exerciseById } from '../../../src/exercise/load.ts';
import type { ObserveExercise } from '../../../src/exercise/observe/types.ts';

function exerciseOf<T>(id: string): T {
  const read = exerciseById(diskLibrary(), id);
  if (!read.ok) throw new Error(read.sentences.join(' '));
  return read.value as T;
}

describe('an observation', () => {
  const nothing = { tags: [], readings: [], ratios: {}, earlier: null, why: null };
  const tag = (atS: number) => ({ atS, output: 'innerRow', cause: 'seen' }) as const;

  it('of a record is handed in when as many instants are tagged as there are', () => {
    const exercise = exerciseOf<ObserveExercise>('read-the-room');
    const tags = [1, 2, 3, 4, 5, 6].map(tag);
    expect(isObserved({ ...nothing, exercise })).toBe(false);
    expect(isObserved({ ...nothing, exercise, tags: tags.slice(1) })).toBe(false);
    expect(isObserved({ ...nothing, exercise, tags })).toBe(true);
  });

  it('of readings when both ratios are said and a desk was read', () => {
    const exercise = exerciseOf<ObserveExercise>('two-readings');
    const readings = [{ tick: 1, desk: 'a', deskLx: 1, ceilingLx: 1 }];
    expect(isObserved({ ...nothing, exercise, readings, ratios: { inner: 2 } })).toBe(false);
    expect(isObserved({ ...nothing, exercise, ratios: { inner: 2, window: 2 } })).toBe(false);
    expect(isObserved({ ...nothing, exercise, readings, ratios: { inner: 2, window: 2 } })).toBe(true);
  });

  it('of two walks when the earlier one is named with its reason', () => {
    const exercise = exerciseOf<ObserveExercise>('two-walks');
    expect(isObserved({ ...nothing, exercise, earlier: 0 })).toBe(false);
    expect(isObserved({ ...nothing, exercise, earlier: 0, why: 'crosses' as never })).toBe(true);
  });
});

describe('a commissioning', () => {
  const exercise = exerciseOf<CommissionExercise>('prove-the-fan');
  const clips = exercise.commission.criteria
    .filter(({ kind }) => kind === 'clip')
    .map(({ id }) => ({ criterion: id, tick: 1 }));
  const line = (verdict: 'met' | 'half') => ({ code: 'criterion', id: 'x', verdict }) as unknown as CommissionLine;
  const work = {
    exercise,
    clips,
    handover: '',
    proved: [{ tick: 1, serial: 1 }],
    result: { days: [], lines: [line('met')] },
    outdated: false,
  };

  it('is handed in when it is proved and good, and every clip is taken', () => {
    live.inputs = [];
    expect(clips.length).toBeGreaterThan(0);
    expect(isReady(work)).toBe(true);
    expect(isReady({ ...work, clips: clips.slice(1) })).toBe(false);
    expect(isReady({ ...work, proved: [] })).toBe(exercise.commission.days.length === 0);
    expect(isReady({ ...work, result: { days: [], lines: [line('half')] } })).toBe(false);
  });

  it('of which the paper tells nothing, in a test, as soon as it is proved', () => {
    const test = { ...exercise, aid: 'test' as const };
    expect(isReady({ ...work, exercise: test, result: { days: [], lines: [line('half')] } })).toBe(true);
  });
});
