/** Heat radiation of a black surface inside a band of wavelengths, from Planck's law. */
import { exp, PI } from '../math.ts';
import { CELSIUS_ZERO_K } from '../units.ts';

/** Second radiation constant h c / k, um K. Source: CODATA 2018, exact constants. */
export const SECOND_RADIATION_UM_K = 14387.76877;
/** Stefan-Boltzmann constant, W m-2 K-4. Source: CODATA 2018, exact constants. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;
/** Wien displacement constant for the maximum per wavelength, um K. Source: CODATA 2018. */
export const WIEN_UM_K = 2897.771955;
/** Short end of the band that windows of pyroelectric sensors pass, um. Source: usual statement, common practice. */
export const BAND_FROM_UM = 8;
/** Long end of that band, um. Source: usual statement, common practice. */
export const BAND_TO_UM = 14;

/** Terms after exp(-n x) has fallen below this are left out. Assumed: the sum is then good to 1e-13. */
const SERIES_END = 1e-14;
/** At x under 0.15 (lambda T over 95 000 um K) the series would need more; such inputs are no room temperatures. */
const SERIES_TERMS = 240;

/**
 * Share of black-body emission at wavelengths below lambda, as a function of lambda times T in um K.
 * F = 15/pi^4 sum e^(-n x) (x^3/n + 3 x^2/n^2 + 6 x/n^3 + 6/n^4), x = c2 / (lambda T).
 * Source: term-by-term integral of Planck's law.
 */
export function blackbodyFraction(lambdaTUmK: number): number {
  if (lambdaTUmK <= 0) return 0;
  const x = SECOND_RADIATION_UM_K / lambdaTUmK;
  let sum = 0;
  for (let n = 1; n <= SERIES_TERMS; n++) {
    const e = exp(-n * x);
    if (e < SERIES_END) break;
    sum += e * (((x + 3 / n) * x + 6 / (n * n)) * (x / n) + 6 / (n * n * n * n));
  }
  return (15 / (PI * PI * PI * PI)) * sum;
}

/** Share of black-body emission between two wavelengths. */
export function bandFraction(fromUm: number, toUm: number, temperatureK: number): number {
  return blackbodyFraction(toUm * temperatureK) - blackbodyFraction(fromUm * temperatureK);
}

/** Radiance of a black surface in 8-14 um, W m-2 sr-1. */
export function bandRadiance8to14(temperatureC: number): number {
  const tK = temperatureC + CELSIUS_ZERO_K;
  return ((STEFAN_BOLTZMANN * tK * tK * tK * tK) / PI) * bandFraction(BAND_FROM_UM, BAND_TO_UM, tK);
}

/** d(sum of the series)/d(lambda T) times lambda T: x^4 / (e^x - 1) * 15/pi^4. Source: Planck's law itself. */
function fractionDensity(lambdaTUmK: number): number {
  const x = SECOND_RADIATION_UM_K / lambdaTUmK;
  return ((15 / (PI * PI * PI * PI)) * x * x * x * x) / (exp(x) - 1);
}

/**
 * Derivative of bandRadiance8to14 with temperature, W m-2 sr-1 K-1.
 * With L = sigma T^4/pi F: dL/dT = sigma T^3/pi (4 F + d F/d ln T), closed form, no difference quotient.
 */
export function bandRadianceSlope(temperatureC: number): number {
  const tK = temperatureC + CELSIUS_ZERO_K;
  const moving = fractionDensity(BAND_TO_UM * tK) - fractionDensity(BAND_FROM_UM * tK);
  return ((STEFAN_BOLTZMANN * tK * tK * tK) / PI) * (4 * bandFraction(BAND_FROM_UM, BAND_TO_UM, tK) + moving);
}

/** Wavelength of the largest radiance per wavelength, um. */
export function wienPeakUm(temperatureC: number): number {
  return WIEN_UM_K / (temperatureC + CELSIUS_ZERO_K);
}

/**
 * What a grey diffuse surface shows against its background, W m-2 sr-1: own emission plus the reflected room, minus
 * the radiance behind it. Temperatures in °C; `emissivity` 0-1.
 */
export function radianceContrast(surfaceC: number, backgroundC: number, roomC: number, emissivity: number): number {
  return (
    emissivity * bandRadiance8to14(surfaceC) +
    (1 - emissivity) * bandRadiance8to14(roomC) -
    bandRadiance8to14(backgroundC)
  );
}

/** First entry and spacing of the table behind `bandRadianceFast`, °C. */
const TABLE_FROM_C = -40;
const TABLE_STEP_C = 1;
const TABLE_ENTRIES = 121;
const tableRadiance = new Float64Array(TABLE_ENTRIES);
const tableSlope = new Float64Array(TABLE_ENTRIES);
for (let i = 0; i < TABLE_ENTRIES; i++) {
  tableRadiance[i] = bandRadiance8to14(TABLE_FROM_C + i * TABLE_STEP_C);
  tableSlope[i] = bandRadianceSlope(TABLE_FROM_C + i * TABLE_STEP_C);
}

/**
 * bandRadiance8to14 by cubic Hermite pieces of 1 K between -40 and 80 °C (outside: the series).
 * Differs from the series by under 1e-7 W m-2 sr-1 (tested) and costs a few multiplications, so every tick can afford it.
 */
export function bandRadianceFast(temperatureC: number): number {
  const place = (temperatureC - TABLE_FROM_C) / TABLE_STEP_C;
  const i = Math.floor(place);
  if (!(i >= 0 && i < TABLE_ENTRIES - 1)) return bandRadiance8to14(temperatureC);
  const u = place - i;
  const w = 1 - u;
  return (
    (1 + 2 * u) * w * w * tableRadiance[i]! +
    u * u * (3 - 2 * u) * tableRadiance[i + 1]! +
    TABLE_STEP_C * u * w * (w * tableSlope[i]! - u * tableSlope[i + 1]!)
  );
}
