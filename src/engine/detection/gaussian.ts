/**
 * Gaussian noise by rejection from stacked rectangles: one draw and one multiply in 98.8 % of the cases, and exact
 * tails, which false pulses live on.
 * Source: Marsaglia and Tsang, J. Statistical Software 5 (8), 2000 (128 layers); layer and place take separate bits.
 */
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { exp, log, sqrt } from '../math.ts';

/** Layers, start of the tail and area of each layer. Source: same paper. */
const LAYERS = 128;
const TAIL_START = 3.442619855899;
const LAYER_AREA = 9.91256303526217e-3;
/** Places in a layer: 24 bits and a sign. */
const PLACES = 16777216;

const density = (x: number) => exp((-x * x) / 2);

/** Right edge of each layer, outermost first; edge[LAYERS] is 0. */
const EDGE = (() => {
  const edge = new Float64Array(LAYERS + 1);
  edge[0] = LAYER_AREA / density(TAIL_START);
  edge[1] = TAIL_START;
  for (let i = 2; i < LAYERS; i++) edge[i] = sqrt(-2 * log(LAYER_AREA / edge[i - 1]! + density(edge[i - 1]!)));
  return edge;
})();

const HEIGHT = EDGE.map(density);

export interface NoiseGenerator {
  next(): number;
  getState(): readonly number[];
}

export function seedNoise(seed: number): number[] {
  return [...xoroshiro128plus(seed | 0).getState()];
}

export function noiseFrom(values: readonly number[]): NoiseGenerator {
  return xoroshiro128plusFromState(values);
}

/** Writes a generator's state to where `noiseFrom` found it; number by number, so that the host need not make its list. */
export function keepNoise(generator: NoiseGenerator, values: number[]): void {
  const now = generator.getState();
  values[0] = now[0]!;
  values[1] = now[1]!;
  values[2] = now[2]!;
  values[3] = now[3]!;
}

function uniform(generator: NoiseGenerator): number {
  return ((generator.next() >>> 0) + 0.5) / 4294967296;
}

/** Beyond TAIL_START. Source: Marsaglia 1964, exponential rejection. */
function tail(generator: NoiseGenerator): number {
  for (;;) {
    const x = -log(uniform(generator)) / TAIL_START;
    const y = -log(uniform(generator));
    if (y + y >= x * x) return TAIL_START + x;
  }
}

/** Standard normal number. */
export function gaussian(generator: NoiseGenerator): number {
  for (;;) {
    const bits = generator.next();
    const layer = bits & (LAYERS - 1);
    const sign = bits & LAYERS ? -1 : 1;
    const x = ((bits >>> 8) / PLACES) * EDGE[layer]!;
    if (x < EDGE[layer + 1]!) return sign * x;
    if (layer === 0) return sign * tail(generator);
    const low = HEIGHT[layer]!;
    if (low + (HEIGHT[layer + 1]! - low) * uniform(generator) < density(x)) return sign * x;
  }
}
