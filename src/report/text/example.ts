/** Words of the worked example: its player, and readings of the run put into its sentences. */
import type { ControllerSettings } from '../../engine/types.ts';
import { factOf, piecesOf } from '../../exercise/example/template.ts';
import type { Fact } from '../../exercise/example/types.ts';
import { readingText } from './evidence.ts';
import { hourMinuteSecond, luxText, metres, minuteSecond } from './format.ts';
import { actName, stateName } from './names.ts';
import { actText, type PathNames } from './path.ts';
import { settingValue } from './settings.ts';

export const exampleWords = {
  open: 'See one worked first',
  openNote: 'Under three minutes, on another bench. Your own work waits.',
  preparing: 'The expert works another bench…',
  busy: 'Something is still being worked out on this bench. Try again in a moment.',
  unmet: 'The example does not fit this version of the room, so it is not shown.',
  region: 'Worked example',
  head: 'Worked example · another bench',
  step: (n: number, of: number): string => `Step ${n} of ${of}`,
  steps: 'Through the example',
  back: 'Back',
  backStep: 'Back one step',
  next: 'Next',
  nextStep: 'Next step',
  play: 'Play',
  pause: 'Pause',
  leave: 'Leave the example',
  toWork: 'To my own bench',
  stop: 'What next?',
  waits: 'The example waits for an answer. It is not marked and not kept.',
  expert: 'The expert goes this way.',
  parts: { did: 'You', room: 'The room', because: 'Because', next: 'Try next' },
  over: 'That was all of it.',
} as const;

function plain(text: string): string {
  return text.replace(/\.$/, '');
}

/** One reading in words. */
export function factText(fact: Fact, names: PathNames): string {
  switch (fact.is) {
    case 'clock':
      return hourMinuteSecond(fact.s);
    case 'length':
      return minuteSecond(Math.round(fact.s));
    case 'lx':
      return luxText(fact.lx);
    case 'count':
      return `${fact.n}`;
    case 'metres':
      return metres(fact.m);
    case 'onOff':
      return fact.on ? 'on' : 'off';
    case 'doing':
      return actName[fact.act];
    case 'state':
      return stateName[fact.state as keyof typeof stateName];
    case 'setting':
      return settingValue(fact.key, fact.value as ControllerSettings[typeof fact.key]);
    case 'reading':
      return fact.act.kind === 'test' ? plain(readingText(fact.act.test, fact.act.values)) : '';
    case 'act':
      return plain(actText(fact.act, names));
  }
}

/** A text of the example with its readings in it. Throws a RangeError when one of them is not there. */
export function filledText(text: string, facts: Readonly<Record<string, Fact>>, names: PathNames): string {
  return (piecesOf(text) ?? [text])
    .map((piece) => {
      if (typeof piece === 'string') return piece;
      const fact = factOf(piece, facts);
      if (!fact) throw new RangeError(`no reading for ${piece.map(({ name }) => name).join(', ')} in "${text}"`);
      return factText(fact, names);
    })
    .join('');
}
