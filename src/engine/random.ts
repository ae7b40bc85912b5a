/** Named random streams whose whole state lives in `SimState.random`, so a restored run rolls the same dice. */
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
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

export function streamFor(state: Pick<SimState, 'random' | 'seed'>, name: string): RandomStream {
  let entry = state.random.find((s) => s.name === name);
  if (!entry) {
    entry = { name, values: [...xoroshiro128plus((state.seed ^ hash32(name)) | 0).getState()] };
    state.random.push(entry);
  }
  const slot = entry;
  const generator = xoroshiro128plusFromState(slot.values);
  return {
    next: () => (generator.next() >>> 0) / 4294967296,
    save: () => {
      slot.values = [...generator.getState()];
    },
  };
}
