/**
 * From flux to signal: pyroelectric element and band-pass amplifier as first-order sections, bilinear at 50 Hz.
 * The amplifier's gain is left out: signals are in µV as if at the element, so thresholds compare with data sheets.
 */
import { PI, sqrt } from '../math.ts';
import type { DetectorModel } from '../types.ts';
import { SUB_STEP_S } from '../units.ts';
import { CHANNELS } from './lens.ts';
import type { Chain } from './types.ts';

/** Bilinear transform of (c1 s + c0) / (d1 s + 1), written to out[at..at+2] as b0, b1, a1. */
function section(out: Float64Array, at: number, c1: number, c0: number, d1: number): void {
  const k = 2 / SUB_STEP_S;
  const norm = d1 * k + 1;
  out[at] = (c1 * k + c0) / norm;
  out[at + 1] = (c0 - c1 * k) / norm;
  out[at + 2] = (1 - d1 * k) / norm;
}

/**
 * Sections in order: electrical high-pass and thermal low-pass of the element, amplifier high-passes and low-passes.
 * Without prewarping: gain is 0.5 % low at 2 Hz and 5 % at 5 Hz, where the low-passes fall anyway.
 */
export function buildChain(model: DetectorModel): Chain {
  const { thermalTimeS, electricalTimeS, highPassHz, lowPassHz } = model;
  const count = 2 + highPassHz.length + lowPassHz.length;
  const coefficients = new Float64Array(3 * count);
  section(coefficients, 0, thermalTimeS + electricalTimeS, 0, electricalTimeS);
  section(coefficients, 3, 0, 1, thermalTimeS);
  let at = 6;
  for (const cornerHz of highPassHz) {
    const timeS = 1 / (2 * PI * cornerHz);
    section(coefficients, at, timeS, 0, timeS);
    at += 3;
  }
  for (const cornerHz of lowPassHz) {
    section(coefficients, at, 0, 1, 1 / (2 * PI * cornerHz));
    at += 3;
  }
  const chain = { count, coefficients, uvPerW: model.responsivityVPerW * 1e6, noiseGain: 0 };
  chain.noiseGain = noiseGain(chain);
  return chain;
}

/** Output over input standard deviation of white noise: root of the summed square of the impulse response. */
function noiseGain(chain: Chain): number {
  const filters = new Array<number>(chain.count * CHANNELS).fill(0);
  let energy = 0;
  // A minute: the slowest section (1 s) has faded by e^-60.
  for (let step = 0; step < 60 / SUB_STEP_S; step++) {
    const y = stepChain(chain, filters, 0, step === 0 ? 1 : 0);
    energy += y * y;
  }
  return sqrt(energy);
}

/** One sub-step of one channel; `inputUv` = flux times uvPerW plus noise. Returns the signal, µV. */
export function stepChain(chain: Chain, filters: number[], channel: number, inputUv: number): number {
  const { coefficients, count } = chain;
  let x = inputUv;
  let f = channel * count;
  for (let k = 0; k < 3 * count; k += 3, f++) {
    const y = coefficients[k]! * x + filters[f]!;
    filters[f] = coefficients[k + 1]! * x - coefficients[k + 2]! * y;
    x = y;
  }
  return x;
}
