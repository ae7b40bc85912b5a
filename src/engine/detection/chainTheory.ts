/** What theory says about the chain in continuous time: gains, its peak, how often its noise crosses zero. */
import { hypot2, PI, sqrt } from '../math.ts';
import type { DetectorModel } from '../types.ts';

/** |s (tT + tE) / ((1 + s tT)(1 + s tE))|, 1 at its best frequency; no unit. Source: textbook form of a pyroelectric element. */
export function pyroGain(frequencyHz: number, thermalTimeS: number, electricalTimeS: number): number {
  const w = 2 * PI * frequencyHz;
  const lags = (1 + w * w * thermalTimeS * thermalTimeS) * (1 + w * w * electricalTimeS * electricalTimeS);
  return (w * (thermalTimeS + electricalTimeS)) / sqrt(lags);
}

/** Frequency of the largest pyroGain (there it is 1), Hz. */
export function pyroPeakFrequencyHz(thermalTimeS: number, electricalTimeS: number): number {
  return 1 / (2 * PI * sqrt(thermalTimeS * electricalTimeS));
}

type ChainData = Pick<DetectorModel, 'thermalTimeS' | 'electricalTimeS' | 'highPassHz' | 'lowPassHz'>;

/** Gain of the whole chain in continuous time; no unit. */
export function chainGain(frequencyHz: number, model: ChainData): number {
  let gain = pyroGain(frequencyHz, model.thermalTimeS, model.electricalTimeS);
  for (const cornerHz of model.highPassHz) gain *= frequencyHz / hypot2(frequencyHz, cornerHz);
  for (const cornerHz of model.lowPassHz) gain *= cornerHz / hypot2(frequencyHz, cornerHz);
  return gain;
}

/** Frequency and size of the largest chainGain, by golden section on the frequency's range 0.01-50 Hz. */
export function chainPeak(model: ChainData): { frequencyHz: number; gain: number } {
  const ratio = (sqrt(5) - 1) / 2;
  let low = 0.01;
  let high = 50;
  for (let k = 0; k < 80; k++) {
    const a = high - ratio * (high - low);
    const b = low + ratio * (high - low);
    // The gain has one maximum: every section is monotonic, and the product rises, then falls.
    if (chainGain(a, model) < chainGain(b, model)) low = a;
    else high = b;
  }
  const frequencyHz = (low + high) / 2;
  return { frequencyHz, gain: chainGain(frequencyHz, model) };
}

/** Points of the spectral integrals. Assumed: Simpson over 4000 is good to 1e-6 here. */
const SPECTRUM_STEPS = 4000;
/** Middle of the frequency scale of those integrals, Hz; any value near the band serves. */
const SCALE_HZ = 3;

/**
 * Zero up-crossings per second at the output when white noise enters the chain: sqrt(m2 / m0) of |gain|^2.
 * Source: Rice, Bell System Technical Journal 23/24, 1944-45. All frequencies: f = SCALE_HZ x / (1 - x), x in [0, 1).
 */
export function zeroUpCrossingHz(model: ChainData): number {
  let m0 = 0;
  let m2 = 0;
  for (let k = 1; k < SPECTRUM_STEPS; k++) {
    const x = k / SPECTRUM_STEPS;
    const f = (SCALE_HZ * x) / (1 - x);
    const gain = chainGain(f, model);
    const weight = ((k % 2 === 0 ? 2 : 4) * gain * gain) / ((1 - x) * (1 - x));
    m0 += weight;
    m2 += weight * f * f;
  }
  return sqrt(m2 / m0);
}
