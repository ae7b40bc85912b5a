/** Beliefs that show in how somebody looks for a fault. */
import type { Mark } from '../types.ts';
import { isBefore } from './evidence.ts';
import { secondsOf } from './lines.ts';
import type { Judged } from './mark.ts';
import type { Act } from './types.ts';

type Signature = Mark['signatures'][number];

const signature = (id: Signature['id'], act: Act | null): Signature => ({
  id,
  output: null,
  atS: secondsOf(act),
  saidS: null,
  delayS: 0,
});

export function signaturesOf({
  answers,
  evidence,
  taken,
  firstChange,
  lastChange,
  verdict,
  card,
}: Judged): Signature[] {
  const found: Signature[] = [];
  const swap = answers.swaps[0];
  const toldBefore = (act: Act) => evidence.told.some((one) => one.dropped.length > 0 && isBefore(one.taken.clip, act));
  if (swap && !toldBefore(swap)) found.push(signature('replaceFirst', swap));
  const repeated = taken.some(
    ({ clip }) => clip.test.instrument === 'repeat' && lastChange !== null && isBefore(lastChange, clip),
  );
  if (firstChange && !repeated) found.push(signature('goneMeansFixed', lastChange));
  if (card.healthy && verdict && verdict.card !== card.id) found.push(signature('faultOnHealthy', verdict));
  return found;
}
