/** Warm air blown at the lens: air itself is nearly transparent at 8-14 um, but it heats the dome unevenly. */
import type { Setup } from '../types.ts';
import { distanceM } from './scene.ts';

/** Extra noise at the chain's output per kelvin of excess at one metre, µV. Assumed: 15 K at 1 m gives 15 µV, enough for
 *  false holds; at 2.5 m, where outlets belong, it drowns in the detector's own noise. */
const DRAUGHT_UV_PER_K_AT_1M = 1;
/** Nearer outlets are taken to be this far away, m. Assumed: the jet is as wide as that. */
const NEAREST_M = 0.5;

/** Standard deviation of the noise that all blowing outlets together add, µV at the chain's output. */
export function outletNoiseUv(setup: Setup): number {
  const { mount } = setup;
  let sum = 0;
  for (const thing of setup.warmThings) {
    if (thing.kind !== 'warmAirOutlet' || !thing.on) continue;
    const away = distanceM([...thing.atM, thing.heightM], [...mount.atM, mount.heightM]);
    const from = Math.max(away, NEAREST_M);
    const uv = (DRAUGHT_UV_PER_K_AT_1M * thing.excessK) / (from * from);
    sum += uv * uv;
  }
  return Math.sqrt(sum);
}
