/** Foretold switchings beside true ones: paired in order, so that the pairs earn the most. */
import type { Edge } from '../types.ts';

/** Least tolerance of an instant, s; and its share of the delay concerned. Source: the product's own marking rule. */
export const LEAST_TOLERANCE_S = 5;
export const TOLERANCE_SHARE = 0.05;
/** Half the credit is earned within so many tolerances. Source: the product's own marking rule. */
export const HALF_WITHIN = 3;

export interface Judged<T extends Edge> {
  truth: T | null;
  said: Edge | null;
  /** 1, 0.5 or 0. */
  credit: number;
  toleranceS: number;
}

/** Full credit within this of the true instant, s. `statedS`: what the exercise allows at least. */
export function toleranceS(delayS: number, statedS: number): number {
  return Math.max(LEAST_TOLERANCE_S, statedS, TOLERANCE_SHARE * delayS);
}

function creditOf(truth: Edge, said: Edge, tolerance: number): number {
  if (truth.on !== said.on) return 0;
  const apartS = Math.abs(truth.atS - said.atS);
  if (apartS <= tolerance) return 1;
  return apartS <= HALF_WITHIN * tolerance ? 0.5 : 0;
}

/**
 * Pairs in order (a pair never crosses another), most credit first, most pairs of one direction second. What stays
 * without a partner is a true switching not foretold, or a foretold one that never came.
 */
export function matched<T extends Edge & { delayS: number }>(
  truths: readonly T[],
  said: readonly Edge[],
  statedS: number,
): Judged<T>[] {
  const tolerances = truths.map((truth) => toleranceS(truth.delayS, statedS));
  // best[i][j]: worth of the first i true and j foretold; a pair of one direction is worth a little even without credit,
  // so that a late guess is shown beside what it meant.
  const PAIR = 0.001;
  const worth = (i: number, j: number): number => {
    const truth = truths[i]!;
    const guess = said[j]!;
    return truth.on === guess.on ? creditOf(truth, guess, tolerances[i]!) + PAIR : Number.NEGATIVE_INFINITY;
  };
  const best = Array.from({ length: truths.length + 1 }, () => new Array<number>(said.length + 1).fill(0));
  for (let i = 1; i <= truths.length; i++) {
    for (let j = 1; j <= said.length; j++) {
      best[i]![j] = Math.max(best[i - 1]![j]!, best[i]![j - 1]!, best[i - 1]![j - 1]! + worth(i - 1, j - 1));
    }
  }
  const out: Judged<T>[] = [];
  let i = truths.length;
  let j = said.length;
  while (i > 0 || j > 0) {
    if (i > 0 && j > 0 && best[i]![j] === best[i - 1]![j - 1]! + worth(i - 1, j - 1)) {
      i--;
      j--;
      const truth = truths[i]!;
      const guess = said[j]!;
      const tolerance = tolerances[i]!;
      out.push({ truth, said: guess, credit: creditOf(truth, guess, tolerance), toleranceS: tolerance });
    } else if (i > 0 && (j === 0 || best[i]![j] === best[i - 1]![j]!)) {
      i--;
      out.push({ truth: truths[i]!, said: null, credit: 0, toleranceS: tolerances[i]! });
    } else {
      j--;
      out.push({ truth: null, said: said[j]!, credit: 0, toleranceS: toleranceS(0, statedS) });
    }
  }
  return out.reverse();
}

/** 0-100: credit over the larger of foretold and true, over all outputs together. Nothing on both sides is right. */
export function predictionScore(judged: readonly Judged<Edge>[]): number {
  const foretold = judged.filter(({ said }) => said).length;
  const happened = judged.filter(({ truth }) => truth).length;
  const most = Math.max(foretold, happened);
  if (most === 0) return 100;
  return (100 * judged.reduce((sum, { credit }) => sum + credit, 0)) / most;
}
