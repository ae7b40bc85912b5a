import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { timelines } from '../../src/cli/timelines.ts';

const good = {
  shape: 'timelines/1',
  defaults: { air_gap_limit_s: 1 },
  timelines: [
    {
      id: 'one',
      title: 'other members are ignored',
      inputs: {
        settings_changed: {},
        daylight_lx: { inner: 100, window: 200 },
        supply_at_start: true,
        events: [
          { t: 5, type: 'setting', set: { inner_off_delay_s: 60 }, via: 'dial' },
          { t: 6, type: 'input closure', input: 'inner button', closed_s: 0.3 },
        ],
        run_until_s: 100,
      },
      expected: {
        columns: ['t_s', 'inner', 'window', 'air'],
        states: [
          [0, 0, 0, 0],
          [6.3, 1, 0, 0],
          [66.3, 0, 0, 0],
        ],
      },
      tolerance: { t_s: 0.2 },
    },
  ],
};

describe('the verb timelines', () => {
  let folder = '';
  let printed: string[] = [];
  let complaints: string[] = [];

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'halflit-timelines-'));
    printed = [];
    complaints = [];
    vi.spyOn(console, 'log').mockImplementation((line: string) => void printed.push(line));
    vi.spyOn(console, 'error').mockImplementation((line: string) => void complaints.push(line));
  });

  afterEach(() => {
    vi.restoreAllMocks();
    rmSync(folder, { recursive: true });
  });

  function run(content: unknown, ...more: string[]): number {
    const path = join(folder, 'file.json');
    writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
    return timelines([path, ...more]);
  }

  /** The good file with one thing changed, by path. */
  function changed(path: (string | number)[], value: unknown): unknown {
    const copy = structuredClone(good) as unknown as Record<string | number, unknown>;
    let at = copy;
    for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
    at[path[path.length - 1]!] = value;
    return copy;
  }

  it('closes with the count of passed and failed, and exits 0 when all passed', () => {
    expect(run(good)).toBe(0);
    expect(printed).toEqual(['1 passed, 0 failed']);
  });

  it('prints each mismatch with what was expected and what came, and exits 1', () => {
    expect(run(changed(['timelines', 0, 'expected', 'states', 1], [6.6, 1, 0, 0]))).toBe(1);
    expect(printed).toEqual([
      'one states[1]: expected 6.6 s inner 1 window 0 air 0, got 6.3 s inner 1 window 0 air 0',
      '0 passed, 1 failed',
    ]);
  });

  it('allows each time its tolerance and no more', () => {
    expect(run(changed(['timelines', 0, 'expected', 'states', 1], [6.5, 1, 0, 0]))).toBe(0);
    expect(run(changed(['timelines', 0, 'tolerance', 't_s'], 0))).toBe(0);
  });

  it('fails on a flag or a learned delay that was expected and did not come', () => {
    expect(run(changed(['timelines', 0, 'expected', 'flags'], [{ t: 5, flag: 'dial moved, ignored (locked)' }]))).toBe(
      1,
    );
    expect(
      run(changed(['timelines', 0, 'expected', 'adaptive_delay_changes'], [{ t: 5, adaptive_delay_s: 720 }])),
    ).toBe(1);
  });

  it('writes results in their own shape', () => {
    const out = join(folder, 'out.json');
    expect(run(good, '--out', out)).toBe(0);
    const written = JSON.parse(readFileSync(out, 'utf8')) as { results: unknown };
    expect(written).toMatchObject({ shape: 'timeline-results/1' });
    expect(written.results).toEqual([{ id: 'one', result: good.timelines[0]!.expected }]);
  });

  const event = ['timelines', 0, 'inputs', 'events', 0];
  it.each<[string, (string | number)[], unknown, RegExp]>([
    [
      'an unknown setting',
      [...event, 'set', 'loudness'],
      3,
      /file\.json: \$\.timelines\[0\]\.inputs\.events\[0\]\.set\.loudness: unknown setting/,
    ],
    ['an unknown default', ['defaults', 'loudness'], 3, /\$\.defaults\.loudness: unknown setting; expected one of/],
    ['an unknown type of event', [...event, 'type'], 'earthquake', /events\[0\]\.type: expected one of "supply on"/],
    ['an inherited name as a type', [...event, 'type'], 'toString', /events\[0\]\.type: expected one of/],
    [
      'an unknown input',
      ['timelines', 0, 'inputs', 'events', 1, 'input'],
      'door bell',
      /events\[1\]\.input: expected one of "inner button"/,
    ],
    [
      'an unknown mode',
      ['defaults', 'inner_mode'],
      'party',
      /\$\.defaults\.inner_mode: expected one of "auto-on\/auto-off"/,
    ],
    ['a text for a time', [...event, 't'], '5', /events\[0\]\.t: expected a number >= 0, got "5"/],
    [
      'a sector out of range',
      ['defaults', 'masked_sectors'],
      [12],
      /masked_sectors\[0\]: expected a number from 0 to 11/,
    ],
    [
      'a word for a setpoint',
      ['defaults', 'inner_setpoint_lx'],
      'bright',
      /inner_setpoint_lx: expected a number >= 0 or "brightness ignored", got "bright"/,
    ],
    ['an unknown hand', [...event, 'via'], 'telepathy', /events\[0\]\.via: expected one of "dial", "hand-held"/],
    ['another shape', ['shape'], 'timelines/2', /\$\.shape: expected "timelines\/1", got "timelines\/2"/],
    ['no list of timelines', ['timelines'], {}, /\$\.timelines: expected a list/],
    [
      'a missing end',
      ['timelines', 0, 'inputs', 'run_until_s'],
      undefined,
      /run_until_s: expected a number >= 0, got nothing/,
    ],
  ])('refuses %s, naming file, path and expectation', (_what, path, value, sentence) => {
    expect(run(changed(path, value))).toBe(1);
    expect(printed).toEqual([]);
    expect(complaints.join('\n')).toMatch(sentence);
  });

  it('refuses what is no JSON, no file, and no argument', () => {
    expect(run('{')).toBe(1);
    expect(timelines([join(folder, 'nowhere.json')])).toBe(1);
    expect(timelines([])).toBe(1);
    expect(complaints).toHaveLength(3);
    expect(complaints[0]).toContain('expected JSON');
    expect(complaints[1]).toContain('nowhere.json');
  });
});
