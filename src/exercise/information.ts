/**
 * How much a test can tell. Sources: Shannon's entropy; expected information gain as de Kleer and Williams (1987) use it
 * to choose the next measurement. A test has one outcome per hypothesis, so its gain is the entropy of its outcomes.
 */
import { log } from '../engine/math.ts';

/** Nats in a bit. Source: natural logarithm of 2, a constant of the language. */
export const NATS_PER_BIT = Math.LN2;

/** Entropy of outcomes, bit. Probabilities need not sum to one; they are taken as shares of their sum. */
export function outcomeEntropy(probabilities: readonly number[]): number {
  const total = probabilities.reduce((sum, p) => sum + p, 0);
  if (!(total > 0)) return 0;
  let bits = 0;
  for (const p of probabilities) {
    if (p > 0) bits -= ((p / total) * log(p / total)) / NATS_PER_BIT;
  }
  return bits;
}

/** Hypothesis by its id -> its probability (any positive scale). */
export type Belief = ReadonlyMap<string, number>;

/** Share of the belief in each outcome of a test, in order of first appearance. */
function outcomeShares(belief: Belief, outcomeOf: (hypothesis: string) => string): Map<string, number> {
  const shares = new Map<string, number>();
  for (const [hypothesis, p] of belief) {
    const outcome = outcomeOf(hypothesis);
    shares.set(outcome, (shares.get(outcome) ?? 0) + p);
  }
  return shares;
}

/** Bits that a test is expected to bring before its outcome is known. */
export function expectedInformationGain(belief: Belief, outcomeOf: (hypothesis: string) => string): number {
  return outcomeEntropy([...outcomeShares(belief, outcomeOf).values()]);
}

/** Belief after an outcome: what contradicts it is dropped, the rest scaled to one. Empty when nothing fits. */
export function afterOutcome(
  belief: Belief,
  outcomeOf: (hypothesis: string) => string,
  outcome: string,
): Map<string, number> {
  const left = [...belief].filter(([hypothesis]) => outcomeOf(hypothesis) === outcome);
  const total = left.reduce((sum, [, p]) => sum + p, 0);
  return new Map(left.map(([hypothesis, p]) => [hypothesis, p / total]));
}
