/** Reference rows about the value of tests. */
import { numbersIn, type RowFunctions, RowInputError, type RowInputs } from '../engine/rowInputs.ts';
import { expectedInformationGain, outcomeEntropy } from './information.ts';

/** A map of names to numbers. */
function numberMapIn(inputs: RowInputs, key: string): Map<string, number> {
  const value = inputs[key];
  const entries = typeof value === 'object' && value !== null && !Array.isArray(value) ? Object.entries(value) : null;
  if (!entries?.every(([, n]) => typeof n === 'number' && Number.isFinite(n))) {
    throw new RowInputError(key, 'names with a number each');
  }
  return new Map(entries as [string, number][]);
}

export const informationRows: RowFunctions = {
  outcomeEntropy: (r) => outcomeEntropy(numbersIn(r, 'probabilities')),
  expectedInformationGain: (r) => {
    const prior = numberMapIn(r, 'prior');
    const outcome = numberMapIn(r, 'outcome');
    for (const hypothesis of prior.keys()) {
      if (!outcome.has(hypothesis)) throw new RowInputError(`outcome.${hypothesis}`, 'a number');
    }
    return expectedInformationGain(prior, (hypothesis) => String(outcome.get(hypothesis)));
  },
};
