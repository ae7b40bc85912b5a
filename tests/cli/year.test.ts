import { afterEach, describe, expect, it, vi } from 'vitest';
import { year } from '../../src/cli/year.ts';

function saidBy(words: string[]): { code: number; err: string; out: string } {
  let err = '';
  let out = '';
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += String(text);
    return true;
  });
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += String(text);
    return true;
  });
  return { code: year(words), err, out };
}

describe('the verb year', () => {
  afterEach(() => {
    vi.restoreAllMocks();
  });

  for (const watts of ['nought', '0', '-5', '90000', '']) {
    it(`says what it expects instead of "${watts}" watts, before any work`, () => {
      const { code, err, out } = saidBy(['winter-walk-in', `--watts=${watts}`]);
      expect(code).toBe(1);
      expect(err).toMatch(/--watts expects the watts of one lamp/);
      expect(out).toBe('');
    });
  }

  it('names a story that is not there, and a word too many', () => {
    expect(saidBy(['no-such-story']).code).toBe(1);
    const { code, err } = saidBy(['winter-walk-in', 'hunting']);
    expect(code).toBe(1);
    expect(err).toMatch(/"hunting"/);
  });
});
