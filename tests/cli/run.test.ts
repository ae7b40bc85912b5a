import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { durationS, readArgs } from '../../src/cli/args.ts';
import { ROOT } from '../../src/cli/files.ts';
import { run } from '../../src/cli/run.ts';

const folder = mkdtempSync(join(tmpdir(), 'halflit-run-'));
afterAll(() => rmSync(folder, { recursive: true }));

let out = '';
let err = '';
beforeEach(() => {
  out = '';
  err = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += text;
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += text;
    return true;
  });
});
afterEach(() => vi.restoreAllMocks());

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

// biome-ignore lint/suspicious/noExplicitAny: lines are judged by what they hold
function lines(text: string): any[] {
  return text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
}

const STORY = join(ROOT, 'scenarios/winter-walk-in.json');

describe('run', () => {
  it('prints each switching with its time and reason, and a digest at the end', () => {
    expect(run([STORY, '--for', '60s'])).toBe(0);
    const printed = lines(out);
    const on = printed.find((line) => line.kind === 'output' && line.output === 'innerRow');
    expect(on).toMatchObject({ on: true, reason: { code: 'seenAndDark' } });
    expect(on.tS).toBeGreaterThan(1.5);
    expect(on.tS).toBeLessThan(8);
    const kinds = new Set(printed.map((line) => line.kind));
    expect([...kinds].sort()).toEqual(['air', 'end', 'output', 'row']);
    expect(printed.at(-1)).toMatchObject({ tS: 60, kind: 'end', scenario: 'winter-walk-in' });
    expect(printed.at(-1).digest).toMatch(/^[0-9a-f]{16}$/);
    expect(printed.at(-1).events).toBe(printed.length - 1);
  });

  it('prints the same lines twice, and others for another seed', () => {
    run(['winter-walk-in', '--for', '45s']);
    const first = out;
    out = '';
    run(['winter-walk-in', '--for', '45s']);
    expect(out).toBe(first);
    out = '';
    run(['winter-walk-in', '--for', '45s', '--seed', '5']);
    expect(lines(out).at(-1).digest).not.toBe(lines(first).at(-1).digest);
  });

  it('samples readings every 60 s when asked, into a file when asked', () => {
    const path = join(folder, 'out.ndjson');
    expect(run(['winter-walk-in', '--for=2m', '--samples', '--out', path])).toBe(0);
    expect(out).toBe('');
    const samples = lines(readFileSync(path, 'utf8')).filter((line) => line.kind === 'sample');
    expect(samples.map((sample) => sample.tS)).toEqual([0, 60]);
    expect(samples[1].inner).toHaveProperty('daylightEstimateLx');
  });

  it('takes inputs by scenario time', () => {
    const inputs = { format: 1, inputs: [{ atS: 20, input: { kind: 'press', input: 'window' } }] };
    expect(run(['winter-walk-in', '--for', '30s', '--inputs', file('inputs.json', inputs)])).toBe(0);
    const pressed = lines(out).find((line) => line.kind === 'row' && line.reason.code === 'pressed');
    expect(pressed.tS).toBeCloseTo(20.3, 5);
  });

  const BAD: [what: string, words: () => string[], sentence: RegExp][] = [
    ['no scenario', () => [], /^Expected a SCENARIO/],
    ['an unknown story', () => ['spring'], /^spring\.json: expected a story in scenarios \(.*winter-walk-in/],
    ['a file that is not there', () => ['nowhere/x.json'], /^nowhere\/x\.json: expected a readable file/],
    ['a broken file', () => [file('b.json', '{"format": 1,')], /b\.json: expected JSON/],
    [
      'an unknown option',
      () => ['winter-walk-in', '--fast'],
      /^--fast is not an option here; expected one of --inputs/,
    ],
    ['an option without value', () => ['winter-walk-in', '--for'], /^--for expects a value/],
    ['a bad duration', () => ['winter-walk-in', '--for', 'long'], /^--for expects a duration .* but is "long"/],
    ['a bad seed', () => ['winter-walk-in', '--seed', '1.5'], /^--seed expects a whole number/],
    [
      'inputs for nobody',
      () => [
        'winter-walk-in',
        '--inputs',
        file('z.json', { format: 1, inputs: [{ atS: 1, input: { kind: 'removePerson', personId: 'Z' } }] }),
      ],
      /z\.json: inputs\[0\]\.input\.personId must be the id of a person \(A\)/,
    ],
    [
      'inputs with an unknown key',
      () => ['winter-walk-in', '--inputs', file('k.json', { format: 1, inputs: [], speed: 3 })],
      /k\.json: speed is not a known key/,
    ],
    [
      'a file that cannot be written',
      () => ['winter-walk-in', '--for', '1s', '--out', '/nowhere/x'],
      /^\/nowhere\/x: /,
    ],
  ];
  for (const [what, words, sentence] of BAD) {
    it(`given ${what} says so in a sentence, prints nothing else and exits 1`, () => {
      expect(run(words())).toBe(1);
      expect(err).toMatch(sentence);
      expect(err.trim().split('\n')).toHaveLength(1);
      expect(out).toBe('');
    });
  }
});

describe('words of the command line', () => {
  it('reads durations', () => {
    expect(['90', '90s', '5m', '2h', '1h30m', '0.5s', 'x', ''].map(durationS)).toEqual([
      90,
      90,
      300,
      7200,
      5400,
      0.5,
      null,
      null,
    ]);
  });

  it('keeps plain words, values and flags apart', () => {
    const read = readArgs(['a', '--for', '2h', '--samples', '--seed=4'], ['for', 'seed'], ['samples']);
    expect(read).toMatchObject({ ok: true, args: { plain: ['a'], flags: new Set(['samples']) } });
    expect(read.ok && [...read.args.values]).toEqual([
      ['for', '2h'],
      ['seed', '4'],
    ]);
  });
});

describe('the dispatcher', () => {
  const tsx = (words: string[]) =>
    spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/sim.ts', ...words], { cwd: ROOT, encoding: 'utf8' });

  it('names the verbs it knows when the verb is unknown, and exits 1', () => {
    const { status, stderr } = tsx(['fly']);
    expect(status).toBe(1);
    expect(stderr).toBe(
      '"fly" is not a verb; expected one of run, compare, timelines, physics, rooms, ranges, words, year, draw, prove, grade, scorm.\n',
    );
  });

  it('hands the words on and passes the exit code back', () => {
    const { status, stderr } = tsx(['run', 'winter-walk-in', '--for', 'x']);
    expect([status, stderr]).toEqual([1, expect.stringContaining('--for expects a duration')]);
  });
});
