/** words: the room in words at an instant of a story. */
import { roomInWords } from '../report/words.ts';
import { momentOf, readMoment, runTo } from './moment.ts';

export function words(args: string[]): number {
  const order = readMoment(args, [], []);
  if (!order) return 1;
  const session = runTo(order.scenario, order.tick);
  process.stdout.write(`${roomInWords(momentOf(session)).join('\n')}\n`);
  return 0;
}
