/** Words of cover cloth and torch. */
import type { HeldView } from '../../engine/frame.ts';
import type { RowId, Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { minuteSecond, spokenLength } from './format.ts';

export const heldWords = {
  region: 'Cloth and torch',
  intro:
    'Held to the detector from a ladder; both end by themselves. The cloth hides people and light, the torch adds light to the photometer on its side. Whoever should shade the photometers is sent up the ladder as well.',
  cloth: 'Cover cloth',
  torch: 'Torch',
  forTime: 'for',
  side: 'from the',
  sides: { window: 'window side', inner: 'inner side' } satisfies Record<RowId, string>,
  cover: 'Cover the detector',
  uncover: 'Take the cloth off',
  shine: 'Hold the torch to it',
  lower: 'Take the torch away',
  free: 'not held',
  rest: (time: string): string => `held, ends in ${time}`,
  restFrom: (side: RowId, time: string): string => `held from the ${heldWords.sides[side]}, ends in ${time}`,
};

/** Time until an end, s. */
export function restS(untilTick: Tick, tick: Tick): number {
  return (untilTick - tick) / TICKS_PER_S;
}

/** m:ss until an end. */
export function restText(untilTick: Tick, tick: Tick): string {
  return minuteSecond(restS(untilTick, tick));
}

/** What is before the detector now; an empty list: nothing. */
export function heldSentences({ cloth, torch }: HeldView, tick: Tick): string[] {
  const rest = (untilTick: Tick): string => spokenLength(Math.ceil(restS(untilTick, tick)));
  return [
    ...(cloth ? [`A cloth covers the detector for another ${rest(cloth.untilTick)}.`] : []),
    ...(torch
      ? [`A torch shines at it from the ${heldWords.sides[torch.side]} for another ${rest(torch.untilTick)}.`]
      : []),
  ];
}
