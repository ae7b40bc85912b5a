/** Words of marks: every line of an expert's and of a swapper's attempt, short and without praise. */
import { describe, expect, it } from 'vitest';
import { diagnoseSentence, searchBelief } from '../../src/report/text/marks.ts';

const test = { instrument: 'stopwatch', output: 'innerRow', edge: 'off' } as const;
const SAYINGS = [
  diagnoseSentence({ code: 'testTold', test, dropped: 3, left: 2, of: 8, minutes: 2 }),
  diagnoseSentence({ code: 'testToldNothing', test, left: 2, minutes: 2 }),
  diagnoseSentence({
    code: 'claimRight',
    card: 'Off-delay too short',
    because: 'It waits a minute.',
    certain: 'lucky',
  }),
  diagnoseSentence({ code: 'claimWrong', card: 'Hot day', trueCard: 'Set to manual-on', because: 'It waits.' }),
  diagnoseSentence({ code: 'complaintRemains', timeS: 95 }),
  diagnoseSentence({ code: 'leftChanged', what: 'innerMode' }),
  ...Object.values(searchBelief),
];

describe('words of marks', () => {
  it.each(SAYINGS)('%s', (say) => {
    expect(say.split(/\s+/).length).toBeLessThanOrEqual(60);
    expect(say).not.toMatch(/\b(wrong|well done|great|good|excellent|sadly)\b|F\d\d/i);
  });

  it('carry the numbers of their lines', () => {
    expect(SAYINGS[0]).toBe('You used the stopwatch on the inner row (2 min). It ruled out 3; 2 of 8 still fit.');
    expect(SAYINGS[4]).toContain('1:35');
  });
});
