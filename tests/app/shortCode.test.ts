/** A short code that a lecture shows opens the same room elsewhere; any other text is answered with a reason. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readShortCode, shortCodeOf } from '../../src/app/state/shortCode.ts';
import { setApp } from '../../src/app/state/store.ts';
import { jobTitles, storyById, storyTitles } from '../../src/app/state/stories.ts';
import { classCode } from '../../src/exercise/classCode.ts';
import { classWords } from '../../src/report/text/class.ts';

beforeEach(() => setApp({ storyTitles: storyTitles(), jobTitles: jobTitles() }));
afterEach(() => setApp({ storyTitles: [], jobTitles: [] }));

describe('a short code', () => {
  it('of every story and of every job is read as what it was written for', () => {
    expect(storyTitles().length).toBeGreaterThan(3);
    for (const { id } of storyTitles()) {
      const { seed } = storyById(id)!;
      expect(readShortCode(shortCodeOf(id, seed))).toMatchObject({ kind: 'story', id, seed });
    }
    for (const { id } of jobTitles()) {
      expect(readShortCode(shortCodeOf(id, 4711))).toMatchObject({ kind: 'job', id, seed: 4711 });
    }
  });

  it('may be typed in capitals, with blanks for hyphens, and around it', () => {
    expect(readShortCode('  Stays Dark   17 ')).toMatchObject({ kind: 'job', id: 'stays-dark', seed: 17 });
    expect(readShortCode('WINTER-WALK-IN')).toMatchObject({ kind: 'story', id: 'winter-walk-in' });
  });

  it.each([
    ['', 'unknown'],
    ['winter-walk-on 1', 'unknown'],
    ['17', 'unknown'],
    ['stays-dark 99999999999', 'unknown'],
    ['stays-dark -3', 'stays-dark'],
    ['stays-dark', 'noNumber'],
    [`winter-walk-in ${storyById('winter-walk-in')!.seed + 1}`, 'otherNumber'],
    [classCode({ jobs: [6, 9], aid: 'guided', separate: true, series: 3 }), 'classCode'],
  ])('%j is answered with %s', (text, wanted) => {
    const read = readShortCode(text);
    expect(typeof read === 'string' ? read : read.id).toBe(wanted);
    if (typeof read === 'string') expect(classWords.shortFault[read]).toMatch(/\.$/);
  });
});
