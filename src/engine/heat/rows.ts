/** This folder's quantities under the names and input names of the reference rows. */

import { CELSIUS_ZERO_K } from '../units.ts';
import { clothingSurfaceC, predictedMeanVote } from './comfort.ts';
import {
  bandFraction,
  bandRadiance8to14,
  bandRadianceSlope,
  blackbodyFraction,
  radianceContrast,
  wienPeakUm,
} from './planck.ts';

/** Inputs of a row, as JSON gives them. */
// biome-ignore lint/suspicious/noExplicitAny: rows of many quantities share one table; a wrong name gives NaN and fails
export type RowInputs = Record<string, any>;

const climateOf = (r: RowInputs) => ({
  airC: r.airTemperature_C,
  radiantC: r.meanRadiantTemperature_C,
  airSpeedMps: r.airSpeed_mps,
});

export const heatRows: Record<string, (inputs: RowInputs) => number | Record<string, number>> = {
  blackbodyFraction: (r) => blackbodyFraction(r.lambdaT_umK),
  bandRadiance8to14: (r) => bandRadiance8to14(r.temperature_C),
  bandRadianceSlope: (r) => bandRadianceSlope(r.temperature_C),
  bandFraction: (r) =>
    bandFraction(r.lambdaFrom_um, r.lambdaTo_um, r.temperature_K ?? r.temperature_C + CELSIUS_ZERO_K),
  wienPeakWavelength: (r) => wienPeakUm(r.temperature_C),
  radianceContrast: (r) =>
    radianceContrast(r.surfaceTemperature_C, r.backgroundTemperature_C, r.roomTemperature_C, r.emissivity),
  predictedMeanVote: (r) =>
    predictedMeanVote(climateOf(r), r.relativeHumidity_pct, r.metabolicRate_met, r.clothing_clo),
  clothingSurfaceTemperature: (r) => clothingSurfaceC(climateOf(r), r.metabolicRate_met, r.clothing_clo),
};
