/** This folder's quantities under the names and input names of the reference rows. */
import { cos, exp, PI, tan } from '../math.ts';
import { numberIn, numbersIn, type RowFunctions, type RowInputs } from '../rowInputs.ts';
import type { DetectorModel } from '../types.ts';
import { degToRad } from '../units.ts';
import { chainGain, chainPeak, pyroGain, pyroPeakFrequencyHz, zeroUpCrossingHz } from './chainTheory.ts';
import { imageOf, lensFacets } from './lens.ts';

/** A lens of one ring with a facet on each module's own axis, as the rows describe it. */
function oneFacet(r: RowInputs): DetectorModel {
  return {
    id: 'row',
    rings: [{ nadirDeg: numberIn(r, 'nadirAngle_deg'), facets: 4, areaCm2: 1, staggerPitch: 0.5 }],
    lensTransmittance: 1,
    focalLengthMm: numberIn(r, 'focalLength_mm'),
    blurMm: 0,
    elementWidthMm: numberIn(r, 'elementWidth_mm'),
    elementLengthMm: numberIn(r, 'elementLength_mm'),
    elementSpacingMm: 0,
    moduleTiltDeg: numberIn(r, 'moduleTilt_deg'),
    thermalTimeS: 1,
    electricalTimeS: 1,
    responsivityVPerW: 1,
    highPassHz: [],
    lowPassHz: [],
    noiseUv: 0,
    holdUv: 1,
    switchOnUv: 1,
    hysteresisShare: 1,
    reducedFactor: 1,
    photometerTiltDeg: 0,
    photometerHalfAngleDeg: 1,
  };
}

/** Images of the element's ends and sides, traced to a level plane. */
function beamFootprint(r: RowInputs): Record<string, number> {
  const model = oneFacet(r);
  const facet = lensFacets(model)[0]!;
  const dropM = numberIn(r, 'mountingHeight_m') - numberIn(r, 'planeHeight_m');
  const radiusM = (alongMm: number) => {
    const d = imageOf(model, facet, 0, alongMm);
    return (dropM * Math.sqrt(d[0] * d[0] + d[1] * d[1])) / -d[2];
  };
  const side = imageOf(model, facet, model.elementWidthMm / 2, 0);
  const other = imageOf(model, facet, -model.elementWidthMm / 2, 0);
  const acrossM = [0, 1].map((k) => dropM * (side[k]! / -side[2] - other[k]! / -other[2]));
  const ends = [radiusM(-model.elementLengthMm / 2), radiusM(model.elementLengthMm / 2)];
  return {
    inner_m: Math.min(...ends),
    centre_m: dropM * tan(degToRad(numberIn(r, 'nadirAngle_deg'))),
    outer_m: Math.max(...ends),
    width_m: Math.sqrt(acrossM[0]! * acrossM[0]! + acrossM[1]! * acrossM[1]!),
  };
}

/** Transmittance x area x radiance contrast, W sr-1 … of one facet. */
function facetGain(r: RowInputs): number {
  return numberIn(r, 'lensTransmittance') * numberIn(r, 'facetArea_cm2') * 1e-4 * numberIn(r, 'radianceContrast_Wm2sr');
}

function beamFluxFilled(r: RowInputs): number {
  const fMm = numberIn(r, 'focalLength_mm');
  const lean = cos(degToRad(numberIn(r, 'nadirAngle_deg') - numberIn(r, 'moduleTilt_deg')));
  return (facetGain(r) * numberIn(r, 'elementWidth_mm') * numberIn(r, 'elementLength_mm') * lean) / (fMm * fMm);
}

function chainOf(r: RowInputs) {
  return {
    thermalTimeS: numberIn(r, 'thermalTime_s'),
    electricalTimeS: numberIn(r, 'electricalTime_s'),
    highPassHz: numbersIn(r, 'highPassCorners_Hz'),
    lowPassHz: numbersIn(r, 'lowPassCorners_Hz'),
  };
}

export const detectionRows: RowFunctions = {
  beamFootprint,
  beamFluxFilled,
  beamFluxSmallBody: (r) => {
    const distanceM = numberIn(r, 'distance_m');
    return (facetGain(r) * numberIn(r, 'projectedArea_m2')) / (distanceM * distanceM);
  },
  pairCrossingFrequency: (r) =>
    (numberIn(r, 'facetsInRing') * numberIn(r, 'speed_mps')) / (2 * PI * numberIn(r, 'radius_m')),
  pyroGain: (r) => pyroGain(numberIn(r, 'frequency_Hz'), numberIn(r, 'thermalTime_s'), numberIn(r, 'electricalTime_s')),
  pyroPeakFrequency: (r) => pyroPeakFrequencyHz(numberIn(r, 'thermalTime_s'), numberIn(r, 'electricalTime_s')),
  chainGain: (r) => chainGain(numberIn(r, 'frequency_Hz'), chainOf(r)),
  chainPeak: (r) => {
    const { frequencyHz, gain } = chainPeak(chainOf(r));
    return { frequency_Hz: frequencyHz, gain };
  },
  noiseZeroUpCrossingRate: (r) => zeroUpCrossingHz(chainOf(r)),
  noiseCrossingCount: (r) => {
    const k = numberIn(r, 'thresholdSigmas');
    const rate = numberIn(r, 'zeroUpCrossingRate_Hz') * exp((-k * k) / 2);
    return rate * numberIn(r, 'signedChannels') * numberIn(r, 'duration_s');
  },
};
