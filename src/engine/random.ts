/** Named random streams whose whole state lives in `SimState.random`, so a restored run rolls the same dice. */
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { SimState } from './types.ts';

/** FNV-1a, 32 bit, over UTF-16 code units: turns a stream's name into a seed offset. Source: public algorithm. */
export function hash32(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    hash ^= text.charCodeAt(i);
    hash = Math.imul(hash, 0x01000193);
  }
  return hash >>> 0;
}

/** A stream taken out of the state for a while; `save` puts it back. Draws are in [0, 1). */
export interface RandomStream {
  next(): number;
  save(): void;
}

function slotFor(state: Pick<SimState, 'random' | 'seed'>, name: string): SimState['random'][number] {
  const known = state.random.find((stream) => stream.name === name);
  if (known) return known;
  const values = [...xoroshiro128plus((state.seed ^ hash32(name)) | 0).getState()];
  const slot = { name, values };
  state.random.push(slot);
  return slot;
}

/** One for each stage and tick, so made without closures: they cost more than most ticks. */
class NamedStream implements RandomStream {
  readonly #state: Pick<SimState, 'random' | 'seed'>;
  readonly #name: string;
  #slot: SimState['random'][number] | null = null;
  #generator: RandomGenerator | null = null;

  constructor(state: Pick<SimState, 'random' | 'seed'>, name: string) {
    this.#state = state;
    this.#name = name;
  }

  next(): number {
    if (!this.#generator) {
      this.#slot = slotFor(this.#state, this.#name);
      this.#generator = xoroshiro128plusFromState(this.#slot.values);
    }
    return (this.#generator.next() >>> 0) / 4294967296;
  }

  save(): void {
    if (this.#slot && this.#generator) this.#slot.values = [...this.#generator.getState()];
  }
}

/** Costs next to nothing until the first draw: most ticks draw none. */
export function streamFor(state: Pick<SimState, 'random' | 'seed'>, name: string): RandomStream {
  return new NamedStream(state, name);
}
