import { beforeEach, describe, expect, it, vi } from 'vitest';
import { forgetAttempt, keepAttempt, keepMark } from '../../src/app/state/attempts.ts';
import { benchSeed, type ClassPlan, classCode } from '../../src/exercise/classCode.ts';
import type { Attempt, Mark } from '../../src/exercise/types.ts';

const plan: ClassPlan = { jobs: [4, 6], aid: 'practice', separate: true, series: 3 };
const code = classCode(plan);
const store = new Map<string, string>();

/** A page is opened: its modules know nothing of an earlier one. */
async function page() {
  vi.resetModules();
  return await import('../../src/app/state/classBench.ts');
}

beforeEach(() => {
  store.clear();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => store.get(key) ?? null,
    setItem: (key: string, text: string) => store.set(key, text),
    removeItem: (key: string) => store.delete(key),
  });
});

describe('the class that a browser works in', () => {
  it('is found again by the next page, and a code that is half typed is not', async () => {
    (await page()).setClassBench({ code, bench: 7 });
    expect((await page()).useClassBench.getState()).toEqual({ code, bench: 7 });
    (await page()).setClassBench({ code: code.slice(0, 4) });
    expect((await page()).useClassBench.getState()).toEqual({ code: '', bench: 1 });
    store.set('halflit/class', 'no JSON');
    expect((await page()).useClassBench.getState()).toEqual({ code: '', bench: 1 });
  });

  it('leads from job to job on the same bench, and ends with the last', async () => {
    const { placeInClass } = await page();
    const mine = { code, bench: 7 };
    const seed = benchSeed(plan, 7);
    expect(placeInClass(mine, 'which-row-first', seed)).toMatchObject({ bench: 7, next: { id: 'after-the-meeting' } });
    expect(placeInClass(mine, 'after-the-meeting', seed)).toEqual({ code, bench: 7, next: null });
  });

  it('has no place for the room of another bench nor for a job that its code does not name', async () => {
    const { placeInClass } = await page();
    const mine = { code, bench: 7 };
    expect(placeInClass(mine, 'which-row-first', benchSeed(plan, 8))).toBeNull();
    expect(placeInClass(mine, 'read-the-room', benchSeed(plan, 7))).toBeNull();
    expect(placeInClass({ code: '', bench: 7 }, 'which-row-first', benchSeed(plan, 7))).toBeNull();
  });
});

describe('a job in the list', () => {
  const attempt: Attempt = {
    format: 1,
    exercise: 'after-the-meeting',
    seed: 5,
    engine: 'x',
    names: [],
    aid: 'practice',
    inputs: [],
    headTick: 0,
    digests: [],
    answers: { predict: { edges: {} } },
  };
  const mark = { exercise: attempt.exercise, seed: attempt.seed, total: 41.6 } as Mark;
  const other = { attempt: { ...attempt, seed: 6 }, mark: { ...mark, total: 90 } };

  it('is new, begun, handed in with its points or passed; beginning again makes it new', async () => {
    const { jobProgress } = await page();
    const now = (cases: Parameters<typeof jobProgress>[2] = [other]) => jobProgress(attempt.exercise, 5, cases);
    expect(now()).toEqual({ state: 'new' });
    keepAttempt(attempt);
    expect(now()).toEqual({ state: 'begun' });
    keepMark(mark);
    expect(now()).toEqual({ state: 'handedIn', points: 42 });
    expect(now([{ attempt, mark: { ...mark, total: 87 } }])).toEqual({ state: 'passed', points: 87 });
    forgetAttempt(attempt.exercise, 5);
    expect(now()).toEqual({ state: 'new' });
  });
});
