import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { secondsTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import { words } from '../../src/cli/words.ts';

const scenario = storyFrom('winter-walk-in')!;

describe('words on the command line', () => {
  let out = '';
  let err = '';
  const { stdout, stderr } = process;
  const write = { out: stdout.write, err: stderr.write };

  beforeEach(() => {
    out = '';
    err = '';
    stdout.write = ((chunk: string) => {
      out += chunk;
      return true;
    }) as typeof stdout.write;
    stderr.write = ((chunk: string) => {
      err += chunk;
      return true;
    }) as typeof stderr.write;
  });

  afterEach(() => {
    stdout.write = write.out;
    stderr.write = write.err;
  });

  it('tells the room at a time of the clock on the wall, with when each person was last seen', () => {
    expect(words(['winter-walk-in', '--at', '06:50:20'])).toBe(0);
    expect(out).toContain('Clock: 06:50:20.');
    expect(out).toMatch(/A .*at Desk C.* Seen \d+ s ago; largest signal \d+ µV/);
    expect(err).toBe('');
  });

  it('says of whoever nobody has noticed that he was not seen yet', () => {
    expect(words(['winter-walk-in', '--at', '06:50:00'])).toBe(0);
    expect(out).toContain('Not seen yet');
  });

  it.each([
    [['winter-walk-in', '--at', '25:00'], 'such as 14:20'],
    [['winter-walk-in', '--at', 'noon'], 'such as 14:20'],
    [['winter-walk-in', '--at', '06:49'], 'before the story starts at 06:50:00'],
    [['winter-walk-in', '--at', '09:51'], 'after the story ends at 09:50:00'],
    [['no-such-story'], 'winter-walk-in'],
    [[], 'Expected a SCENARIO'],
    [['winter-walk-in', 'hunting'], 'Expected one SCENARIO'],
  ])('answers %j with one helpful sentence and a 1', (args, sentence) => {
    expect(words(args)).toBe(1);
    expect(err).toContain(sentence);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(out).toBe('');
  });

  it('takes an earlier clock for the next day only where the story runs past midnight', () => {
    const late = { ...scenario, start: { ...scenario.start, localTime: '23:00:00' }, endS: 7200 };
    expect(secondsTo(late, '00:30')).toBe(5400);
    expect(secondsTo(late, '01:00:00')).toBe(7200);
    expect(secondsTo(late, '01:00:01')).toMatch(/after the story ends at 01:00:00/);
    expect(secondsTo(scenario, '06:50')).toBe(0);
  });
});
