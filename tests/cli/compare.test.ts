import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { compare } from '../../src/cli/compare.ts';
import { run } from '../../src/cli/run.ts';

let out = '';
let err = '';
beforeEach(() => {
  out = '';
  err = '';
  vi.spyOn(console, 'log').mockImplementation((line: string) => {
    out += `${line}\n`;
  });
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

// biome-ignore lint/suspicious/noExplicitAny: lines are judged by what they hold
const lines = (): any[] =>
  out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));

const STORY = 'scenarios/it-goes-out-on-us.json';

describe('compare', () => {
  it('ends each day with the digest that a run of its own under these settings ends with', () => {
    expect(compare([STORY, '--for', '20m', '--settings', '[{"innerOffDelayS":60},{"reducedSensitivity":true}]'])).toBe(
      0,
    );
    const [asItIs, short, reduced] = lines();
    expect(short.innerRow.offs).toBeGreaterThan(asItIs.innerRow.offs);
    expect(short.windowRow).toEqual(asItIs.windowRow);
    expect(reduced.seen).toBeLessThan(asItIs.seen);
    out = '';
    expect(run([STORY, '--for', '20m', '--settings', '{"innerOffDelayS":60}'])).toBe(0);
    expect(lines().at(-1).digest).toBe(short.digest);
  });

  it('says when a mask made it sense again', () => {
    expect(compare([STORY, '--for', '1m', '--settings', '{"maskedSectors":[2]}'])).toBe(0);
    expect(err).toContain('sensed again from 0 s');
  });

  it('says which setting is unknown, and what it expects', () => {
    expect(compare([STORY, '--settings', '{"innerOffDelay":60}'])).toBe(1);
    expect(err).toContain('innerOffDelay is not a known key');
    expect(compare([STORY])).toBe(1);
    expect(err).toContain('--settings expects JSON');
    expect(run([STORY, '--settings', '{'])).toBe(1);
    expect(out).toBe('');
  });
});
