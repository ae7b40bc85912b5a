/**
 * What a learning platform is told, against the run-time library of platforms that `scorm-again` is (SCORM 1.2). It lets
 * longer memories pass than the standard does; where that matters it is made strict here.
 */
import { Scorm12API } from 'scorm-again';
import { describe, expect, it, vi } from 'vitest';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import type { TimedInput } from '../../src/engine/types.ts';
import { MEMORY_CHARS, memoryOf, readMemory } from '../../src/exercise/scorm/memory.ts';
import { beginVisit, endVisit, report, sessionTime, takeMark } from '../../src/exercise/scorm/visit.ts';
import type { Attempt } from '../../src/exercise/types.ts';

const ID = 'after-the-meeting';

/** As the library has it, with commits and ends counted. `kept`: what an earlier visit left. */
class Platform extends Scorm12API {
  commits = 0;
  ends = 0;
  exit = '-';

  constructor(kept: Record<string, unknown> = {}) {
    super({ autocommit: false, logLevel: 5 });
    this.loadFromJSON({ cmi: kept }, '');
    this.on('LMSCommit', () => this.commits++);
    this.on('LMSFinish', () => this.ends++);
  }

  /** The field may be written only. */
  override lmsSetValue(field: string, value: string): string {
    if (field === 'cmi.core.exit') this.exit = value;
    return super.lmsSetValue(field, value);
  }

  held(field: string): string {
    return this.lmsGetValue(`cmi.${field}`);
  }
}

/** Refuses some values, with an error of the standard. */
class Refusing extends Platform {
  constructor(
    private refuses: (field: string, value: string) => boolean,
    private code: number,
  ) {
    super();
  }

  override lmsSetValue(field: string, value: string): string {
    if (!this.refuses(field, value)) return super.lmsSetValue(field, value);
    this.throwSCORMError(field, this.code);
    return 'false';
  }
}

/** Holds to the letter: a memory of more characters is refused. */
const strict = (): Refusing => new Refusing((_, value) => value.length > 4096, 405);

function attempt(inputs: number, digests: number): Attempt {
  const walks: TimedInput[] = Array.from({ length: inputs }, (_, i) => ({
    tick: 10 * i,
    serial: i,
    input: {
      kind: 'placePerson',
      personId: 'A',
      atM: [((i * 7919) % 9973) / 1000, ((i * 104_729) % 7919) / 1000],
    },
  }));
  return {
    format: 1,
    exercise: ID,
    seed: 2,
    engine: ENGINE_VERSION,
    names: ['Kim'],
    aid: 'guided',
    inputs: walks,
    headTick: 36_000,
    digests: Array.from({ length: digests }, (_, i) => ({
      tick: 600 * i,
      digest: (BigInt(i + 1) * 0x9e3779b97f4a7c15n).toString(16).slice(-16).padStart(16, '0'),
    })),
    answers: { predict: { edges: { innerRow: [{ atS: 900, on: false }] }, seen: { innerRow: 1 }, why: [] } },
  };
}

const RUN = { run: 'abc', step: 3 };

describe('a learning platform', () => {
  it('hears of a job from its beginning: where it is, that it is not complete, how long it took', () => {
    const api = new Platform();
    const visit = beginVisit(api, ID, 5000);
    expect(visit).toMatchObject({ stage: 'open', found: '', verdict: null, refusal: null });
    report(visit, memoryOf(attempt(0, 3), RUN).text, 5000 + 62_500);
    expect(visit.refusal).toBeNull();
    expect(api.held('core.lesson_status')).toBe('incomplete');
    expect(api.held('core.lesson_location')).toBe(ID);
    expect(api.held('core.score.raw')).toBe('');
    expect(readMemory(api.held('suspend_data'))).toMatchObject(RUN);
    expect(api.cmi.core.getCurrentTotalTime(undefined)).toBe('00:01:02.5');
    expect(api.commits).toBe(1);
  });

  it.each([
    [{ total: 83.4, pass: true }, 'passed', '83.4', ''],
    [{ total: 71, pass: false }, 'failed', '71', 'suspend'],
  ])('is told the mark %j as %s with its points of 100', (mark, status, raw, exit) => {
    const api = new Platform();
    const visit = beginVisit(api, ID, 0);
    takeMark(visit, mark, false);
    report(visit, '', 0);
    expect(visit.refusal).toBeNull();
    expect(api.held('core.lesson_status')).toBe(status);
    expect(['raw', 'min', 'max'].map((part) => api.held(`core.score.${part}`))).toEqual([raw, '0', '100']);
    expect(api.exit).toBe(exit);
  });

  it('has every step kept at once, and the end of the visit once', () => {
    const api = new Platform();
    const visit = beginVisit(api, ID, 0);
    for (let step = 1; step <= 4; step++) {
      report(visit, '', step * 1000);
      expect(api.commits).toBe(step);
    }
    endVisit(visit);
    endVisit(visit);
    report(visit, '', 9000);
    expect([api.commits, api.ends]).toEqual([4, 1]);
  });

  it('keeps a mark of an earlier visit: it does not become incomplete, and only a better one takes its place', () => {
    const api = new Platform({ core: { lesson_status: 'passed', score: { raw: '80' } }, suspend_data: 'old' });
    const visit = beginVisit(api, ID, 0);
    expect(visit).toMatchObject({ found: 'old', verdict: { total: 80, pass: true } });
    report(visit, '', 0);
    expect(api.held('core.lesson_status')).toBe('passed');
    const stands = (total: number, pass: boolean): unknown => {
      takeMark(visit, { total, pass }, false);
      return visit.verdict?.total;
    };
    expect([stands(95, false), stands(60, true), stands(90, true)]).toEqual([80, 80, 90]);
  });

  it('does not take a failed mark back when the job is opened again', () => {
    const api = new Platform({ core: { lesson_status: 'failed', score: { raw: '40' } } });
    const visit = beginVisit(api, ID, 0);
    report(visit, '', 0);
    expect([api.held('core.lesson_status'), api.held('core.score.raw')]).toEqual(['failed', '40']);
  });

  it('keeps the first mark of a test, whatever comes after it', () => {
    const visit = beginVisit(new Platform(), ID, 0);
    takeMark(visit, { total: 40, pass: false }, true);
    takeMark(visit, { total: 100, pass: true }, true);
    expect(visit.verdict).toEqual({ total: 40, pass: false });
  });

  it('is asked for nothing about the learner', () => {
    const api = new Platform({ core: { lesson_status: 'passed', score: { raw: '80' }, student_name: 'Kim' } });
    const asked = vi.spyOn(api, 'LMSGetValue');
    report(beginVisit(api, ID, 0), '', 0);
    expect(asked.mock.calls.flat()).toEqual(['cmi.suspend_data', 'cmi.core.lesson_status', 'cmi.core.score.raw']);
  });

  it('that opens no visit is asked for nothing more, and its words are passed on', () => {
    const api = new Platform();
    api.LMSInitialize('');
    const visit = beginVisit(api, ID, 0);
    report(visit, '', 0);
    endVisit(visit);
    expect(visit).toMatchObject({ stage: 'refused', refusal: { call: 'LMSInitialize', code: '101' } });
    expect([api.commits, api.ends]).toEqual([0, 0]);
  });

  it('that does not take one field is told all others, and hears of that field again at the next step', () => {
    const api = strict();
    const visit = beginVisit(api, ID, 0);
    takeMark(visit, { total: 90, pass: true }, false);
    report(visit, 'x'.repeat(4097), 0);
    expect(visit.refusal).toEqual({ call: 'cmi.suspend_data', code: '405', text: 'Incorrect Data Type' });
    expect(api.held('core.lesson_status')).toBe('passed');
    expect(api.commits).toBe(1);
    report(visit, 'x'.repeat(4096), 0);
    expect(visit.refusal).toBeNull();
    expect(api.held('suspend_data')).toHaveLength(4096);
  });

  it('that breaks off does not break the page', () => {
    const api = new Platform();
    api.LMSCommit = () => {
      throw new Error('no connection');
    };
    const visit = beginVisit(api, ID, 0);
    report(visit, '', 0);
    expect(visit.refusal).toEqual({ call: 'LMSCommit', code: '', text: 'no connection' });
  });

  it('may do without the bounds of the points, but not without the points', () => {
    const refused = [/min|max/, /raw/].map((fields) => {
      const visit = beginVisit(new Refusing((field) => fields.test(field), 401), ID, 0);
      takeMark(visit, { total: 90, pass: true }, false);
      report(visit, '', 0);
      return visit.refusal?.call;
    });
    expect(refused).toEqual([undefined, 'cmi.core.score.raw']);
  });
});

describe('the time of a visit', () => {
  it.each([
    [0, '0000:00:00.00'],
    [62_500, '0000:01:02.50'],
    [3_599_994, '0000:59:59.99'],
    [3_599_995, '0001:00:00.00'],
    [100 * 3_600_000, '0100:00:00.00'],
    [1e12, '9999:59:59.99'],
    [-1, '0000:00:00.00'],
  ])('of %d ms is %s', (ms, text) => {
    expect(sessionTime(ms)).toBe(text);
  });
});

describe('the memory of a platform', () => {
  it('gives the work back, all but the names', () => {
    const work = attempt(30, 40);
    const { text, whole } = memoryOf(work, RUN);
    expect(whole).toBe(true);
    expect(text).not.toContain('Kim');
    expect(readMemory(text)).toEqual({ ...RUN, attempt: { ...work, names: [] } });
    expect(JSON.parse(text)).toMatchObject({ bench: 2, digest: work.digests.at(-1)!.digest });
  });

  it('leaves out the fingerprints of the minutes before it leaves out the work', () => {
    const work = attempt(30, 600);
    const memory = readMemory(memoryOf(work, RUN).text);
    expect(memory?.attempt).toEqual({ ...work, names: [], digests: [] });
  });

  it('never holds a log that does not fit, nor more characters than the standard allows', () => {
    for (let inputs = 0; inputs <= 200; inputs += 20) {
      const { text, whole } = memoryOf(attempt(inputs, 600), RUN);
      expect(text.length).toBeLessThanOrEqual(MEMORY_CHARS);
      expect(readMemory(text)!.attempt === null).toBe(!whole);
    }
    const { text, whole } = memoryOf(attempt(3000, 600), RUN);
    expect(whole).toBe(false);
    expect(JSON.parse(text)).toMatchObject({ bench: 2, digest: expect.stringMatching(/^[0-9a-f]{16}$/) });
    expect(JSON.parse(text).answers).toBeDefined();
  });

  it('keeps bench and fingerprint where not even the answers fit', () => {
    const work = attempt(3000, 600);
    const edges = Array.from({ length: 3000 }, (_, i) => ({ atS: ((i * 7919) % 99_991) / 10, on: i % 3 === 0 }));
    const { text } = memoryOf({ ...work, answers: { predict: { edges: { innerRow: edges } } } }, RUN);
    expect(Object.keys(JSON.parse(text))).toEqual(['format', 'run', 'step', 'bench', 'digest']);
  });

  it.each([
    '',
    'x',
    '{}',
    '{"format":2,"run":"a","step":1,"bench":2}',
    '{"format":1,"run":"a","step":1,"bench":2,"attempt":"?"}',
    'null',
  ])('that holds %j, which is not ours, is nothing', (text) => {
    expect(readMemory(text)).toBeNull();
  });
});
