import { describe, expect, it } from 'vitest';
import { buildChain, stepChain } from '../../src/engine/detection/chain.ts';
import { chainGain } from '../../src/engine/detection/chainTheory.ts';
import { gaussian, noiseFrom, seedNoise } from '../../src/engine/detection/gaussian.ts';
import { createStage, DOME, runStage } from './stage.ts';

/** Runs the chain on noise alone and counts entries above k sigma, per second and sign. */
function crossings(minutes: number, sigmas: number[], seed: number) {
  const chain = buildChain(DOME);
  const filters = new Array<number>(4 * chain.count).fill(0);
  const generator = noiseFrom(seedNoise(seed));
  const inputUv = DOME.noiseUv / chain.noiseGain;
  const counts = sigmas.map(() => 0);
  let before = 0;
  let sum2 = 0;
  let sum4 = 0;
  let n = 0;
  for (let k = 0; k < minutes * 3000; k++) {
    const y = stepChain(chain, filters, 0, inputUv * gaussian(generator)) / DOME.noiseUv;
    if (k > 3000) {
      n++;
      sum2 += y * y;
      sum4 += y ** 4;
      sigmas.forEach((s, i) => {
        if ((before <= s && y > s) || (before >= -s && y < -s)) counts[i]!++;
      });
    }
    before = y;
  }
  const seconds = n / 50;
  return { sigma: Math.sqrt(sum2 / n), kurtosis: sum4 / n / (sum2 / n) ** 2, perS: counts.map((c) => c / seconds / 2) };
}

describe('noise', () => {
  it('is a standard normal number, tails included', () => {
    const generator = noiseFrom(seedNoise(5));
    const n = 2_000_000;
    const beyond = [1, 2, 3, 3.5, 4].map((at) => ({ at, count: 0 }));
    let mean = 0;
    let square = 0;
    for (let k = 0; k < n; k++) {
      const x = gaussian(generator);
      mean += x;
      square += x * x;
      for (const b of beyond) if (x > b.at || x < -b.at) b.count++;
    }
    expect(Math.abs(mean / n)).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(square / n - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    // Two-sided tails. Source: tables of the normal distribution, e.g. Abramowitz and Stegun 26.2.
    const expected = [0.3173105, 0.0455003, 0.0026998, 4.6526e-4, 6.3342e-5];
    beyond.forEach((b, i) => {
      const mu = expected[i]! * n;
      expect(Math.abs(b.count - mu)).toBeLessThan(4.5 * Math.sqrt(mu));
    });
  });

  it('leaves the chain with the sigma of the data sheet and crosses thresholds as Rice predicts, within 10 %', () => {
    const { sigma, kurtosis, perS } = crossings(400, [0, 2, 3, 3.5], 21);
    expect(Math.abs(sigma / 1 - 1)).toBeLessThan(0.02);
    expect(Math.abs(kurtosis - 3)).toBeLessThan(0.05);
    const f0 = perS[0]!;
    // Simulated at 50 Hz; in continuous time 3.09 Hz (the grid misses short excursions).
    expect(f0).toBeGreaterThan(2.69 * 0.95);
    expect(f0).toBeLessThan(2.69 * 1.05);
    // Rice: rate above k sigma = f0 exp(-k2/2).
    expect(Math.abs(perS[1]! / (f0 * Math.exp(-2)) - 1)).toBeLessThan(0.1);
    expect(Math.abs(perS[2]! / (f0 * Math.exp(-4.5)) - 1)).toBeLessThan(0.1);
    // 3.5 sigma: about 140 events in 400 minutes per sign, so 10 % is 1.7 standard deviations; allow three.
    expect(Math.abs(perS[3]! / (f0 * Math.exp(-6.125)) - 1)).toBeLessThan(0.18);
  });

  it('makes false pulses at 4 sigma by the hundreds a day, and none in an hour at the switch-on threshold', () => {
    const lowered = { ...DOME, holdUv: 4 * DOME.noiseUv };
    const stage = createStage(undefined, undefined, 3, lowered);
    const hours = 4;
    const run = runStage(stage, hours * 36000, () => [], { noise: true });
    const perDay = (run.pulses.filter((p) => p.level === 'hold').length * 24) / hours;
    // Rice, 8 signed channels: 624 a day; a pulse needs re-arming, so a few fewer. 104 events: 10 % standard deviation.
    expect(perDay).toBeGreaterThan(400);
    expect(perDay).toBeLessThan(850);
    expect(run.pulses.every((p) => p.level === 'hold' && p.bearingDeg === null && p.atM === null)).toBe(true);
  });

  it('makes about one false pulse a month at 6 sigma: the rate measured at 4 sigma, carried on by Rice’s law', () => {
    const [perS0, perS4, perS45] = crossings(2500, [0, 4, 4.5], 33).perS as [number, number, number];
    // Some 270 and 32 entries of both signs: 6 and 18 % are a standard deviation, and three are allowed.
    const law = (fromSigma: number, toSigma: number) => Math.exp((fromSigma ** 2 - toSigma ** 2) / 2);
    expect(Math.abs(perS4 / (perS0 * law(0, 4)) - 1)).toBeLessThan(0.18);
    expect(Math.abs(perS45 / (perS4 * law(4, 4.5)) - 1)).toBeLessThan(0.54);
    const signedChannels = 8;
    const perMonth = perS4 * law(4, 6) * signedChannels * 86_400 * 30;
    expect(perMonth).toBeGreaterThan(0.6);
    expect(perMonth).toBeLessThan(1.2);
  });

  it('is the same for the same seed and another for another', () => {
    const signal = (seed: number) =>
      runStage(createStage(undefined, undefined, seed), 20, () => [], { noise: true }).signalUv;
    expect(signal(7)).toEqual(signal(7));
    expect(signal(7)).not.toEqual(signal(8));
  });
});

describe('the chain', () => {
  it('has the gain of the continuous one: within .5 % up to 2 Hz, 7 % at 5 Hz', () => {
    const chain = buildChain(DOME);
    for (const [hz, within] of [
      [0.1, 0.005],
      [0.3, 0.005],
      [0.94, 0.005],
      [2, 0.007],
      [5, 0.07],
    ] as const) {
      const filters = new Array<number>(4 * chain.count).fill(0);
      let peak = 0;
      const steps = Math.ceil(40 / hz) * 50;
      for (let k = 0; k < steps; k++) {
        const y = stepChain(chain, filters, 1, Math.sin(2 * Math.PI * hz * k * 0.02));
        if (k > steps / 2) peak = Math.max(peak, Math.abs(y));
      }
      expect(Math.abs(peak / chainGain(hz, DOME) - 1)).toBeLessThan(within);
    }
  });

  it('forgets a step: two seconds after it less than a sigma of noise is left of the largest jump', () => {
    const chain = buildChain(DOME);
    const filters = new Array<number>(4 * chain.count).fill(0);
    let y = 0;
    let peak = 0;
    for (let k = 0; k < 100; k++) {
      y = stepChain(chain, filters, 0, 300);
      peak = Math.max(peak, y);
    }
    expect(peak).toBeGreaterThan(100);
    expect(Math.abs(y)).toBeLessThan(0.12 * peak);
  });
});
