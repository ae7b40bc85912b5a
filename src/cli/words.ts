/** words: the room in words at an instant of a story. */
import { sightsAt } from '../host/lookBack.ts';
import { lastSightings } from '../host/sightings.ts';
import { roomInWords } from '../report/words.ts';
import { momentOf, readMoment, runTo } from './moment.ts';

export function words(args: string[]): number {
  const order = readMoment(args, [], []);
  if (!order) return 1;
  const session = runTo(order.scenario, order.tick);
  const personSeenTick = lastSightings(session.line.sightings, order.tick);
  const sights = sightsAt(session, order.tick);
  process.stdout.write(`${roomInWords({ ...momentOf(session), personSeenTick, sights }).join('\n')}\n`);
  return 0;
}
