/** The arithmetic of the rubric: shares in, points out. No room is run here. Source: the product's own marking rule. */
import { type Belief, expectedInformationGain, outcomeEntropy } from '../information.ts';
import type { Step } from './types.ts';

/** Points of the parts. Source: the product's own rubric, 100 together. */
export const WORTH = {
  safe: 25,
  strategy: 15,
  efficiency: 10,
  evidence: 10,
  repair: 15,
  proof: 15,
  record: 10,
} as const;
export type PartId = keyof typeof WORTH;

/** Points that a pass needs, and points of evidence that it needs. Source: the product's own marking rule. */
export const PASS_POINTS = 70;
export const PASS_EVIDENCE = 6;
/** Points of proof that a pass needs. Assumed: three fifths, as of the evidence; three of the five proofs. */
export const PASS_PROOF = 9;
/** The verdict is certain from here, and likely from here. Source: the product's own marking rule. */
export const CERTAIN = 0.9;
export const LIKELY = 0.5;
/** Most points without certainty before the first repair. Source: the product's own marking rule. */
export const UNCERTAIN_MOST = 60;
/** Each rung of help costs so much in test-like work, and all together no more than this. Source: the same rule. */
export const HINT_COST = 2;
const HINT_MOST = 6;
/** Sums of halves of minutes carry no dirt worth more than this. Assumed: rounding of binary fractions. */
const TINY = 1e-9;

/** A test that can be chosen: its minutes, and its outcome for each hypothesis. */
export interface Choice {
  minutes: number;
  outcomeOf: (hypothesis: string) => string;
}

/** Bits a minute. */
export function rateOf(belief: Belief, { minutes, outcomeOf }: Choice): number {
  return expectedInformationGain(belief, outcomeOf) / minutes;
}

/** Rounding of sums of logarithms: bounds that miss a rate by less are worked out all the same. Assumed: 10^6 roundings. */
const ROUNDING = 1e-9;

/**
 * The test with the most bits a minute, the first among equals; null: none tells anything. No test tells more than what
 * is still unknown, so cheap ones are tried first and a dear one that cannot win any more is not worked out at all.
 */
export function bestChoice<T extends Choice>(
  belief: Belief,
  choices: readonly T[],
): { choice: T; rate: number } | null {
  const unknownBits = outcomeEntropy([...belief.values()]) + ROUNDING;
  const cheapFirst = choices.map((choice, at) => ({ choice, at })).sort((a, b) => a.choice.minutes - b.choice.minutes);
  let best: { choice: T; rate: number; at: number } | null = null;
  for (const { choice, at } of cheapFirst) {
    if (unknownBits / choice.minutes < (best?.rate ?? 0)) break;
    const rate = rateOf(belief, choice);
    if (rate > TINY && (!best || rate > best.rate || (rate === best.rate && at < best.at))) best = { choice, rate, at };
  }
  return best;
}

/** Mean of rate over best rate, weighted by minutes. Nothing left to tell: 0. No step at all: null. */
export function strategyShare(steps: readonly Step[]): number | null {
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
  if (minutes === 0) return null;
  const share = ({ rate, best }: Step): number => (best > TINY ? Math.min(1, rate / best) : 0);
  return steps.reduce((sum, step) => sum + step.minutes * share(step), 0) / minutes;
}

/** Minutes that the greedy policy needs until `truth` is certain, or until nothing tells more. */
export function referenceMinutes(prior: Belief, truth: string, choices: readonly Choice[]): number {
  let belief: Belief = prior;
  let minutes = 0;
  for (;;) {
    const total = [...belief.values()].reduce((sum, p) => sum + p, 0);
    if ((belief.get(truth) ?? 0) / total >= CERTAIN) return minutes;
    const chosen = bestChoice(belief, choices)?.choice;
    if (!chosen) return minutes;
    minutes += chosen.minutes;
    const outcome = chosen.outcomeOf(truth);
    belief = new Map([...belief].filter(([hypothesis]) => chosen.outcomeOf(hypothesis) === outcome));
  }
}

export interface Sums {
  safe: number;
  /** Null: no test that counts was taken. */
  strategyShare: number | null;
  /** Minutes of the reference and of the learner. */
  referenceMin: number;
  learnerMin: number;
  /** At least one reading before the verdict ruled something out. */
  discriminating: boolean;
  named: 'right' | 'wrong' | 'none';
  /** Probability of the true card by readings before the verdict and the first repair. */
  posterior: number;
  /** The same, before the first repair alone. */
  posteriorBeforeRepair: number;
  repair: number;
  proof: number;
  record: number;
  /** Rungs of help that cost. */
  hints: number;
}

export function isCertain(posterior: number): boolean {
  return posterior >= CERTAIN - TINY;
}

export function evidencePoints(named: Sums['named'], posterior: number): number {
  if (named !== 'right') return 0;
  if (isCertain(posterior)) return 10;
  return posterior >= LIKELY ? 6 : 3;
}

/** Points of strategy that so many rungs of help take. */
export function hintCost(rungs: number): number {
  return Math.min(HINT_MOST, HINT_COST * rungs);
}

function tenths(points: number): number {
  return Math.round(points * 10 + TINY) / 10;
}

export type Points = Record<PartId, number> & { total: number; capped: boolean };

/**
 * Points of each part, to 0.1, and their sum. Strategy and efficiency are nothing without a discriminating test, else
 * in the measure of the evidence. Where looking alone decided, no minute was badly spent: both count whole.
 */
export function pointsOf(sums: Sums): Points {
  const evidence = evidencePoints(sums.named, sums.posterior);
  const measure = sums.discriminating ? evidence / WORTH.evidence : 0;
  const strategy = Math.max(0, WORTH.strategy * (sums.strategyShare ?? 1) - hintCost(sums.hints)) * measure;
  const spent = sums.learnerMin > 0 ? Math.min(1, sums.referenceMin / sums.learnerMin) : 1;
  const parts: Record<PartId, number> = {
    safe: tenths(sums.safe),
    strategy: tenths(strategy),
    efficiency: tenths(WORTH.efficiency * spent * measure),
    evidence,
    repair: tenths(Math.max(0, sums.repair)),
    proof: tenths(sums.proof),
    record: tenths(sums.record),
  };
  const sum = tenths(Object.values(parts).reduce((total, points) => total + points, 0));
  const capped = !isCertain(sums.posteriorBeforeRepair) && sum > UNCERTAIN_MOST;
  return { ...parts, total: capped ? UNCERTAIN_MOST : sum, capped };
}
