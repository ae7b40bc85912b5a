/** What a lux meter shows, for panels and tags alike. */
import { probeTotalLx } from '../../engine/light/probePlace.ts';
import { luxWords, meterText } from '../../report/text/lux.ts';
import { useProbes } from './probes.ts';
import { useApp } from './store.ts';

/** A meter's number with its unit. `stale`: its place or the room is being worked out anew, the number is from before. */
export function useProbeText(id: string): { text: string; stale: boolean } {
  const updating = useApp((s) => s.status.updating);
  const text = useProbes(({ readings }) => {
    const r = readings[id];
    return r ? (r.covered ? luxWords.covered : meterText(probeTotalLx(r))) : luxWords.measuring;
  });
  const measuring = useProbes((s) => s.measuring);
  return { text, stale: measuring || updating };
}

/** The same for a small round tag: number and unit apart, a dash where there is no reading. */
export function useProbeTag(id: string): { number: string; unit: string; stale: boolean } {
  const { text, stale } = useProbeText(id);
  const [, number, unit] = /^(.*) (k?lx)$/.exec(text) ?? ['', '–', ''];
  return { number: number!, unit: unit!, stale };
}
