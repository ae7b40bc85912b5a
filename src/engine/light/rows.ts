/** Reference rows about sun, sky, openings, exchange and lamps, answered with the engine's own functions. */
import { parseUtcMs } from '../calendar.ts';
import { cos, sin } from '../math.ts';
import { booleanIn, numberIn, type RowFunctions, type RowInputs, textIn, wordIn } from '../rowInputs.ts';
import { degToRad } from '../units.ts';
import { exchangeRows } from './exchangeRows.ts';
import { lampRows, openingRows } from './openingRows.ts';
import { airMassKastenYoung, beamLx, extraterrestrialFactor, skyHorizontalLx } from './sky/levels.ts';
import {
  patchPlaneWeights,
  skyGradation,
  skyIndicatrix,
  skyLuminanceRatio,
  skyPatchVector,
  skyZenithToHorizontal,
  TRADITIONAL_OVERCAST,
  TREGENZA_FINE,
} from './sky/sky.ts';
import { declinationDeg, equationOfTimeMin, type SunOptions, sunPosition } from './sky/sun.ts';

/** Air mass by the row's model; the flat atmosphere is here for comparison only, the room uses the curved one. */
function airMass(inputs: RowInputs, key: string): number {
  const altitudeDeg = numberIn(inputs, 'sunAltitude_deg');
  const model = wordIn(inputs, key, ['plane', 'kastenYoung']);
  return model === 'plane' ? 1 / sin(degToRad(altitudeDeg)) : airMassKastenYoung(altitudeDeg);
}

function sunRow(inputs: RowInputs): Record<string, number> {
  const options: SunOptions = { refraction: booleanIn(inputs, 'refraction') };
  if ('elevation_m' in inputs) options.elevationM = numberIn(inputs, 'elevation_m');
  if ('pressure_mbar' in inputs) options.pressureMbar = numberIn(inputs, 'pressure_mbar');
  if ('temperature_C' in inputs) options.temperatureC = numberIn(inputs, 'temperature_C');
  const utcMs = parseUtcMs(textIn(inputs, 'utc'));
  const sun = sunPosition(utcMs, numberIn(inputs, 'latitude_deg'), numberIn(inputs, 'longitude_deg'), options);
  return { altitude_deg: sun.altitudeDeg, azimuth_deg: sun.azimuthDeg };
}

function verticalToHorizontal(inputs: RowInputs): number {
  const luminance = new Float64Array(TREGENZA_FINE.count);
  const weights = new Float64Array(TREGENZA_FINE.count);
  const facingRad = degToRad(numberIn(inputs, 'facingFromSun_deg'));
  // Sun in the north, so the facade's bearing is its angle from the sun.
  skyPatchVector(numberIn(inputs, 'skyType'), numberIn(inputs, 'sunAltitude_deg'), 0, 1, luminance, TREGENZA_FINE);
  patchPlaneWeights(sin(facingRad), cos(facingRad), 0, weights, TREGENZA_FINE);
  return luminance.reduce((sum, value, p) => sum + value * weights[p]!, 0);
}

const skyRows: RowFunctions = {
  sunPosition: sunRow,
  equationOfTime: (r) => equationOfTimeMin(parseUtcMs(textIn(r, 'utc'))),
  declination: (r) => declinationDeg(parseUtcMs(textIn(r, 'utc'))),
  skyGradation: (r) => skyGradation(numberIn(r, 'a'), numberIn(r, 'b'), cos(degToRad(numberIn(r, 'zenithAngle_deg')))),
  skyIndicatrix: (r) =>
    skyIndicatrix(numberIn(r, 'c'), numberIn(r, 'd'), numberIn(r, 'e'), degToRad(numberIn(r, 'angleToSun_deg'))),
  skyLuminanceRatio: (r) =>
    skyLuminanceRatio(
      numberIn(r, 'skyType'),
      degToRad(numberIn(r, 'zenithAngle_deg')),
      degToRad(numberIn(r, 'sunZenithAngle_deg')),
      degToRad(numberIn(r, 'azimuthDifference_deg')),
    ),
  skyZenithToHorizontal: (r) => skyZenithToHorizontal(numberIn(r, 'skyType'), numberIn(r, 'sunAltitude_deg')),
  skyVerticalToHorizontal: verticalToHorizontal,
  // The room's overcast level and its sky shape together; the reference comes from another fit of the same sky.
  overcastZenithLuminance: (r) => {
    const altitudeDeg = numberIn(r, 'sunAltitude_deg');
    return skyHorizontalLx('overcast', altitudeDeg) * skyZenithToHorizontal(TRADITIONAL_OVERCAST, altitudeDeg);
  },
  overcastHorizontalIlluminance: (r) => skyHorizontalLx('overcast', numberIn(r, 'sunAltitude_deg')),
  relativeAirMass: (r) => airMass(r, 'model'),
  directNormalIlluminance: (r) =>
    beamLx(numberIn(r, 'extraterrestrial_lx'), numberIn(r, 'extinction'), airMass(r, 'airMassModel')),
  extraterrestrialFactor: (r) => extraterrestrialFactor(numberIn(r, 'dayOfYear')),
  skyHorizontalIlluminance: (r) =>
    skyHorizontalLx(wordIn(r, 'skyCondition', ['clear', 'partlyCloudy', 'overcast']), numberIn(r, 'sunAltitude_deg')),
};

/** By quantity. Inputs and outputs as named in the rows: angles in degrees, SI units. */
export const lightRows: RowFunctions = { ...skyRows, ...openingRows, ...lampRows, ...exchangeRows };
