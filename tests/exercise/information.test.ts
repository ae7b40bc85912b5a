/** Value of tests. Sources: Shannon's entropy by hand; the priors and groups are arithmetic, no room is run. */
import { describe, expect, it } from 'vitest';
import { afterOutcome, expectedInformationGain, outcomeEntropy } from '../../src/exercise/information.ts';

const PRIOR = new Map([
  ['open', 0.25],
  ['lamp', 0.15],
  ['low', 0.2],
  ['manual', 0.15],
  ['dazzled', 0.1],
  ['contact', 0.1],
  ['healthy', 0.05],
]);

/** Outcome by groups of hypotheses. */
const groups =
  (...lists: string[][]) =>
  (h: string): string =>
    String(lists.findIndex((list) => list.includes(h)));

describe('the value of a test', () => {
  it('is the entropy of its outcomes: 1 bit for halves, 0 where all hypotheses answer alike', () => {
    expect(outcomeEntropy([0.5, 0.5])).toBeCloseTo(1, 12);
    expect(outcomeEntropy([1, 0, 0])).toBe(0);
    expect(outcomeEntropy([])).toBe(0);
    expect(outcomeEntropy([2, 2, 2, 2])).toBeCloseTo(2, 12);
  });

  it('of a press that lights or leaves dark is one bit when both are equally likely', () => {
    const press = groups(['low', 'manual', 'dazzled', 'healthy'], ['open', 'lamp', 'contact']);
    expect(expectedInformationGain(PRIOR, press)).toBeCloseTo(1, 6);
  });

  it('drops what contradicts the outcome and scales the rest to one', () => {
    const press = groups(['low', 'manual', 'dazzled', 'healthy'], ['open', 'lamp', 'contact']);
    const left = afterOutcome(PRIOR, press, '1');
    expect([...left.keys()]).toEqual(['open', 'lamp', 'contact']);
    expect([...left.values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    expect(left.get('open')).toBeCloseTo(0.5, 12);
  });
});
