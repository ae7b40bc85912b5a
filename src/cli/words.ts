/** words: the room in words at an instant of a story. */
import type { Tick } from '../engine/types.ts';
import { roomInWords } from '../report/words.ts';
import { momentOf, noteSightings, readMoment, runTo } from './moment.ts';

export function words(args: string[]): number {
  const order = readMoment(args, [], []);
  if (!order) return 1;
  const personSeenTick: Record<string, Tick> = {};
  const session = runTo(order.scenario, order.tick, noteSightings(personSeenTick));
  process.stdout.write(`${roomInWords({ ...momentOf(session), personSeenTick }).join('\n')}\n`);
  return 0;
}
