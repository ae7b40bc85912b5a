/** The words that stand beside every badge. Shape and words together tell the state; colour never does alone. */
import type { OutputView } from '../../engine/frame.ts';
import type { BadgeId } from '../../engine/trace.ts';
import type { Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { minuteSecond } from './format.ts';

export interface BadgeWords {
  /** The state word, capitals. */
  word: string;
  /** What follows it, small letters. */
  rest: string;
  /** Both, as one text: "ON · off in 4:12". */
  full: string;
}

function words(word: string, rest: string): BadgeWords {
  return { word, rest, full: rest ? `${word} · ${rest}` : word };
}

/** Words of a badge with `leftS` seconds of its running count (null: nothing runs). */
export function badgeWords(badge: BadgeId, leftS: number | null): BadgeWords {
  const left = leftS === null ? null : minuteSecond(leftS);
  switch (badge) {
    case 'on':
      return words('ON', '');
    case 'off':
      return words('OFF', '');
    case 'someoneSeen':
      return words('ON', 'someone seen');
    case 'timing':
      return words('ON', left === null ? 'timing out' : `off in ${left}`);
    case 'brightEnough':
      return words('ON', left === null ? 'bright enough' : `bright enough, off in ${left}`);
    case 'enoughDaylight':
      return words('OFF', 'enough daylight');
    case 'nobodySeen':
      return words('OFF', 'nobody seen');
    case 'waitsForButton':
      return words('OFF', 'waits for the button');
    case 'heldOn':
      return words('HELD ON', 'wall button');
    case 'heldOff':
      return words('HELD OFF', 'wall button');
    case 'watching':
      return words('WAITS', left === null ? 'watching' : `on in ${left}`);
    case 'starting':
      return words('STARTING', leftS === null ? 'not sensing yet' : `${Math.ceil(leftS)} s, not sensing yet`);
    case 'walkTest':
      return words('WALK-TEST', left === null ? '' : `ends in ${left}`);
    case 'deviceOff':
      return words('OFF', 'no supply');
    case 'notMeasured':
      return words('not measured', '');
  }
}

export function outputWords(view: OutputView, tick: Tick): BadgeWords {
  return badgeWords(view.badge, view.untilTick === null ? null : (view.untilTick - tick) / TICKS_PER_S);
}
