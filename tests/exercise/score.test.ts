/**
 * The arithmetic of the rubric on a worked table: seven candidates, five tests. The numbers of both paths are the
 * product's own worked example; no room is run.
 */
import { describe, expect, it } from 'vitest';
import {
  bestChoice,
  type Choice,
  hintCost,
  pointsOf,
  rateOf,
  referenceMinutes,
  type Sums,
  strategyShare,
} from '../../src/exercise/diagnose/score.ts';
import { afterOutcome, type Belief } from '../../src/exercise/information.ts';

const PRIOR: Belief = new Map([
  ['open', 0.25],
  ['neutral', 0.15],
  ['low', 0.2],
  ['manual', 0.15],
  ['dazzled', 0.1],
  ['contact', 0.1],
  ['healthy', 0.05],
]);

const choice = (minutes: number, ...groups: string[][]): Choice => ({
  minutes,
  outcomeOf: (h) => String(groups.findIndex((group) => group.includes(h))),
});
const TESTS = {
  press: choice(0.5, ['open', 'neutral', 'contact']),
  settings: choice(1, ['low'], ['manual']),
  lux: choice(2, ['dazzled'], ['healthy']),
  output: choice(4, ['open', 'neutral']),
  lamp: choice(5, ['neutral']),
};
type Name = keyof typeof TESTS;
const ALL = Object.values(TESTS);

function walk(path: Name[]) {
  let belief = PRIOR;
  const steps = path.map((name) => {
    const test = TESTS[name];
    const step = { minutes: test.minutes, rate: rateOf(belief, test), best: bestChoice(belief, ALL)?.rate ?? 0 };
    belief = afterOutcome(belief, test.outcomeOf, test.outcomeOf('open'));
    return step;
  });
  return {
    steps,
    learnerMin: steps.reduce((sum, { minutes }) => sum + minutes, 0),
    posterior: belief.get('open') ?? 0,
  };
}

function sums(path: Name[], change: Partial<Sums> = {}): Sums {
  const { steps, learnerMin, posterior } = walk(path);
  return {
    safe: 25,
    strategyShare: strategyShare(steps),
    referenceMin: referenceMinutes(PRIOR, 'open', ALL),
    learnerMin,
    discriminating: path.length > 0,
    named: 'right',
    posterior,
    posteriorBeforeRepair: posterior,
    repair: 15,
    proof: 12,
    record: 8,
    hints: 0,
    ...change,
  };
}

const GOOD: Name[] = ['settings', 'press', 'lamp', 'output'];
const POOR: Name[] = ['lamp', 'lux', 'output', 'settings', 'press'];

describe('the worked example', () => {
  it('has a reference of 9.5 minutes: press, output, lamp', () => {
    expect(referenceMinutes(PRIOR, 'open', ALL)).toBe(9.5);
  });

  it('scores the steps of the good path 0.639, 1, 0.977, 1 and gives 93.3 points', () => {
    const scores = walk(GOOD).steps.map(({ rate, best }) => rate / best);
    [0.639, 1, 0.977, 1].forEach((score, i) => {
      expect(scores[i]).toBeCloseTo(score, 3);
    });
    expect(pointsOf(sums(GOOD))).toMatchObject({
      strategy: 14.3,
      efficiency: 9,
      evidence: 10,
      total: 93.3,
      capped: false,
    });
  });

  it('scores the poor path 0.061, 0.213, 0.118, 0, 0: 1.4 for strategy, 7.6 for efficiency', () => {
    const scores = walk(POOR).steps.map(({ rate, best }) => (best > 1e-9 ? rate / best : 0));
    [0.061, 0.213, 0.118, 0, 0].forEach((score, i) => {
      expect(scores[i]).toBeCloseTo(score, 3);
    });
    expect(pointsOf(sums(POOR))).toMatchObject({ strategy: 1.4, efficiency: 7.6, total: 79 });
  });

  it('pays strategy and efficiency in the measure of the evidence, and caps an uncertain repair at 60', () => {
    const lucky = pointsOf(sums(POOR, { posterior: 0.25, posteriorBeforeRepair: 0.25 }));
    expect(lucky).toMatchObject({ evidence: 3, strategy: 0.4, efficiency: 2.3, total: 60, capped: true });
    const blind = pointsOf(sums([], { strategyShare: null }));
    expect(blind).toMatchObject({ strategy: 0, efficiency: 0 });
  });

  it('takes two points of strategy for a rung of help, six at most, and nothing for a wrong name', () => {
    expect(pointsOf(sums(GOOD, { hints: 1 })).strategy).toBe(12.3);
    expect(pointsOf(sums(GOOD, { hints: 9 })).strategy).toBe(8.3);
    expect([0, 1, 2, 3, 9].map(hintCost)).toEqual([0, 2, 4, 6, 6]);
    expect(pointsOf(sums(GOOD, { named: 'wrong' }))).toMatchObject({ evidence: 0, strategy: 0, efficiency: 0 });
  });
});
