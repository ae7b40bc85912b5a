/** The link to a learning platform, with the library `scorm-again` as the platform and a browser's store made of a map. */
import { Scorm12API } from 'scorm-again';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { findApi, type PlatformWindow } from '../../../src/app/state/job/platformApi.ts';
import { diskLibrary } from '../../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../../src/engine/simulation.ts';
import { exerciseById } from '../../../src/exercise/load.ts';
import { readMemory } from '../../../src/exercise/scorm/memory.ts';
import type { Attempt, Mark } from '../../../src/exercise/types.ts';
import { platformText } from '../../../src/report/text/platform.ts';

const SEED = 2;
const loaded = exerciseById(diskLibrary(), 'after-the-meeting');
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const exercise = loaded.value;

const store = new Map<string, string>();
const listeners = new Map<string, () => void>();

/** A page is opened: its modules know nothing of an earlier one. */
async function page() {
  vi.resetModules();
  const link = await import('../../../src/app/state/job/platform.ts');
  const { getJob } = await import('../../../src/app/state/job/job.ts');
  const { keepAttempt, keptAttempt } = await import('../../../src/app/state/attempts.ts');
  return { ...link, told: () => getJob().platform, keepAttempt, kept: () => keptAttempt(exercise.id, SEED) };
}

interface Platform {
  api: Scorm12API;
  commits: () => number;
  ends: () => number;
}

function platform(suspend_data = ''): Platform {
  const api = new Scorm12API({ autocommit: false, logLevel: 5 });
  api.loadFromJSON({ cmi: { suspend_data } }, '');
  const [commit, end] = [vi.fn(), vi.fn()];
  api.on('LMSCommit', commit);
  api.on('LMSFinish', end);
  return { api, commits: () => commit.mock.calls.length, ends: () => end.mock.calls.length };
}

const memory = ({ api }: Platform): string => api.LMSGetValue('cmi.suspend_data');

function attempt(atS: number, names = ['Kim'], inputs = 0): Attempt {
  return {
    format: 1,
    exercise: exercise.id,
    seed: SEED,
    engine: ENGINE_VERSION,
    names,
    aid: 'practice',
    inputs: Array.from({ length: inputs }, (_, i) => ({
      tick: i,
      serial: i,
      input: { kind: 'placePerson', personId: 'A', atM: [((i * 7919) % 9973) / 1000, ((i * 104_729) % 7919) / 1000] },
    })),
    headTick: 0,
    digests: [],
    answers: { predict: { edges: { innerRow: [{ atS, on: false }] } } },
  };
}

/** Too long for a platform's memory. */
const long = (atS: number): Attempt => attempt(atS, ['Kim'], 300);
const mark = (total: number, pass: boolean): Mark => ({ total, pass }) as Mark;

beforeEach(() => {
  store.clear();
  listeners.clear();
  vi.useFakeTimers();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => store.get(key) ?? null,
    setItem: (key: string, value: string) => store.set(key, value),
    removeItem: (key: string) => store.delete(key),
  });
  vi.stubGlobal('addEventListener', (kind: string, listener: () => void) => listeners.set(kind, listener));
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('a platform is looked for', () => {
  const { api } = platform();
  const alone = (): PlatformWindow => {
    const window: PlatformWindow = { parent: null };
    window.parent = window;
    return window;
  };
  const inside = (parent: PlatformWindow): PlatformWindow => ({ parent });

  it('in this window, up the frames, and from there in the window that opened them', () => {
    const top = { ...alone(), API: api };
    const opened: PlatformWindow = { parent: null, opener: inside(top) };
    opened.parent = opened;
    for (const window of [top, inside(top), inside(inside(top)), opened, inside(opened)])
      expect(findApi(window)).toBe(api);
  });

  it('and nothing happens where there is none, in a circle of windows, or where one may not be looked into', () => {
    const circle: PlatformWindow = { parent: null };
    circle.parent = { parent: circle };
    const foreign = {
      get API(): never {
        throw new Error('of another origin');
      },
      parent: null,
    };
    for (const window of [alone(), inside(alone()), circle, inside(foreign)]) expect(findApi(window)).toBeNull();
  });
});

describe('a learning platform around the page', () => {
  it('hears of the job when it is opened, of steps within a second, and once that the page is left', async () => {
    const lms = platform();
    const { joinPlatform, toldOfStep, told } = await page();
    joinPlatform(lms.api, exercise, SEED);
    expect(lms.api.LMSGetValue('cmi.core.lesson_status')).toBe('incomplete');
    expect(lms.commits()).toBe(1);
    for (const atS of [10, 20, 30]) toldOfStep(attempt(atS));
    expect(lms.commits()).toBe(1);
    vi.advanceTimersByTime(1000);
    expect(lms.commits()).toBe(2);
    expect(readMemory(memory(lms))?.attempt).toEqual(attempt(30, []));
    toldOfStep(attempt(35));
    listeners.get('visibilitychange')!();
    listeners.get('visibilitychange')!();
    expect(lms.commits()).toBe(3);
    // The last step is not yet told when the page is left.
    toldOfStep(attempt(40));
    listeners.get('pagehide')!();
    listeners.get('pagehide')!();
    expect([lms.commits(), lms.ends()]).toEqual([4, 1]);
    expect(readMemory(memory(lms))?.attempt).toEqual(attempt(40, []));
    vi.advanceTimersByTime(5000);
    expect(lms.commits()).toBe(4);
    expect(platformText(told()!, exercise.id, SEED)).toMatch(/has ended; open the job there again\. Nothing is lost/);
  });

  it('is told a mark at once, and nothing of another bench', async () => {
    const lms = platform();
    const { joinPlatform, toldOfMark, toldOfStep, told } = await page();
    joinPlatform(lms.api, exercise, SEED);
    toldOfMark({ ...attempt(1), seed: 3 }, mark(100, true));
    toldOfStep({ ...attempt(1), seed: 3 });
    vi.advanceTimersByTime(2000);
    expect([lms.commits(), lms.api.LMSGetValue('cmi.core.lesson_status')]).toEqual([1, 'incomplete']);
    expect(platformText(told()!, exercise.id, 3)).toMatch(
      /is told of room 2 of the job that it opened, not of this one/,
    );
    toldOfStep(attempt(1));
    toldOfMark(attempt(1), mark(64, false));
    vi.advanceTimersByTime(2000);
    expect([lms.commits(), lms.api.LMSGetValue('cmi.core.lesson_status')]).toEqual([2, 'failed']);
    expect(lms.api.LMSGetValue('cmi.core.score.raw')).toBe('64');
  });

  it('that does not take a call is named on the sheet, and the work stays here', async () => {
    const lms = platform();
    lms.api.LMSInitialize('');
    const { joinPlatform, toldOfStep, told, keepAttempt, kept } = await page();
    keepAttempt(attempt(5));
    joinPlatform(lms.api, exercise, SEED);
    toldOfStep(attempt(6));
    vi.advanceTimersByTime(2000);
    expect(platformText(told()!, exercise.id, SEED)).toMatch(
      /^The learning platform did not open a session \(LMSInitialize, 101, .*\)\. Nothing is lost: /,
    );
    expect(kept()).toEqual(attempt(5));
    expect([lms.commits(), listeners.size]).toEqual([0, 0]);
  });
});

describe('work of an earlier visit', () => {
  /** A visit in which one step was done; resolves to what the platform holds afterwards. */
  async function visit(work: Attempt, found = ''): Promise<string> {
    const lms = platform(found);
    const { joinPlatform, toldOfStep, keepAttempt } = await page();
    joinPlatform(lms.api, exercise, SEED);
    keepAttempt(work);
    toldOfStep(work);
    listeners.get('pagehide')!();
    return memory(lms);
  }

  async function comesBack(found: string): Promise<{ kept: Attempt | null; text: string }> {
    const { joinPlatform, told, kept } = await page();
    joinPlatform(platform(found).api, exercise, SEED);
    return { kept: kept(), text: platformText(told()!, exercise.id, SEED) };
  }

  it('is carried on at another machine, without the names', async () => {
    const found = await visit(attempt(10));
    store.clear();
    expect((await comesBack(found)).kept).toEqual(attempt(10, []));
  });

  it('is carried on with its names at the same machine, also when somebody else worked there meanwhile', async () => {
    const first = await visit(attempt(10));
    await visit(attempt(20, ['Alex']));
    expect((await comesBack(first)).kept).toEqual(attempt(10));
  });

  it('of somebody else is not shown to the next learner, nor the run of their room', async () => {
    await visit(attempt(20, ['Alex']));
    const run = `halflit/recording/${exercise.id}-${SEED}`;
    store.set(run, '{}');
    expect((await comesBack('')).kept).toBeNull();
    expect(store.has(run)).toBe(false);
  });

  it('stays with the platform as it was when a visit changes nothing', async () => {
    const found = await visit(attempt(10));
    const lms = platform(found);
    const { joinPlatform } = await page();
    joinPlatform(lms.api, exercise, SEED);
    listeners.get('pagehide')!();
    expect(memory(lms)).toBe(found);
  });

  it('that is too long for the platform is carried on here, told of elsewhere, and never handed over in part', async () => {
    const found = await visit(long(10));
    expect(found.length).toBeLessThanOrEqual(4096);
    expect((await comesBack(found)).kept).toEqual(long(10));
    store.clear();
    const elsewhere = await comesBack(found);
    expect(elsewhere.kept).toBeNull();
    expect(elsewhere.text).toMatch(/keeps the points only, the work was too long for it/);
  });

  it('is the newer one where machine and platform hold different steps of it', async () => {
    const first = await visit(attempt(10));
    const here = new Map(store);
    const second = await visit(attempt(11), first);
    store.clear();
    for (const [key, value] of here) store.set(key, value);
    expect((await comesBack(second)).kept).toEqual(attempt(11, []));
  });

  it('leaves no copy here once it is passed', async () => {
    const lms = platform();
    const { joinPlatform, toldOfMark } = await page();
    joinPlatform(lms.api, exercise, SEED);
    toldOfMark(attempt(1), mark(60, false));
    expect([...store.keys()].filter((key) => key.startsWith('halflit/platform/'))).toHaveLength(1);
    toldOfMark(attempt(1), mark(90, true));
    expect([...store.keys()].filter((key) => key.startsWith('halflit/platform/'))).toEqual([]);
  });
});
