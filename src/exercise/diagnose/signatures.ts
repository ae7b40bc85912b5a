/** Beliefs that show in how somebody looks for a fault. */
import type { SearchSignature } from '../types.ts';
import { isBefore } from './evidence.ts';
import { secondsOf } from './lines.ts';
import type { Judged } from './mark.ts';
import type { Act } from './types.ts';

const signature = (id: SearchSignature['id'], act: Act | null): SearchSignature => ({ id, atS: secondsOf(act) });

export function signaturesOf({
  answers,
  evidence,
  taken,
  firstChange,
  lastChange,
  verdict,
  card,
}: Judged): SearchSignature[] {
  const found: SearchSignature[] = [];
  const swap = answers.swaps[0];
  const toldBefore = (act: Act) => evidence.told.some((one) => one.dropped.length > 0 && isBefore(one.taken.clip, act));
  if (swap && !toldBefore(swap)) found.push(signature('replaceFirst', swap));
  const repeated = taken.some(
    ({ clip }) => clip.test.instrument === 'repeat' && lastChange !== null && isBefore(lastChange, clip),
  );
  // Opening the room for mending changes nothing by itself.
  if (firstChange && lastChange !== verdict && !repeated) found.push(signature('goneMeansFixed', lastChange));
  if (card.healthy && verdict && verdict.card !== card.id) found.push(signature('faultOnHealthy', verdict));
  return found;
}
