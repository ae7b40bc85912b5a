/** Seen or not, why not and by how much, in words; loaded with the first panel that shows it. */
import { sightSentence } from '../../report/text/signal.ts';
import { useSightsShown } from '../state/sights.ts';

/** One Stand-in's sentence; nothing while the answer is on its way, or for who is not in the room. */
export function SightWords({ id }: { id: string }) {
  const { tick, people } = useSightsShown();
  const answer = people.find((person) => person.personId === id);
  if (!answer?.present) return null;
  return <>{sightSentence(answer, tick)}</>;
}
