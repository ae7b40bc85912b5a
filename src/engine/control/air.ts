/**
 * The air contact follows presence only, never brightness.
 *
 * | State                          | Guard                                                    | Next                  |
 * | ------------------------------ | -------------------------------------------------------- | --------------------- |
 * | Air off                        | movement                                                 | Watching, or Air on without on-delay |
 * | Watching                       | on-delay over, air off-delay not over                    | Air on                |
 * | Watching                       | on-delay over, air off-delay over too                    | Air off               |
 * | Watching                       | gap without movement reaches its limit before            | Air off               |
 * | Air on, Air held on            | press                                                    | Air held off          |
 * | any other                      | press                                                    | Air held on           |
 * | Air on, Air held on / held off | air off-delay over                                       | Air off               |
 */
import * as say from './conditions.ts';
import { moveAir } from './decide.ts';
import * as ask from './questions.ts';
import type { Work } from './types.ts';

/** Step 4. */
export function airOnMovement(work: Work): void {
  const { state, tick } = work;
  if (state.air.state !== 'airOff') return;
  const conditions = [say.movement(state, tick)];
  moveAir(work, state.settings.airOnDelayS > 0 ? 'watching' : 'airOn', 'presenceBegan', conditions);
}

/** Step 3. */
export function airOnPress(work: Work): void {
  const { air } = work.state;
  const on = air.state === 'airOn' || air.state === 'airHeldOn';
  moveAir(work, on ? 'airHeldOff' : 'airHeldOn', 'pressed', []);
}

/** Step 6. The on-delay is judged before the gap: over in the same tick, it was over in time. */
export function airOnTime(work: Work): void {
  const { state, tick } = work;
  const { air } = state;
  if (air.state === 'airOff') return;
  const occupied = ask.isAirOccupied(state, tick);
  if (air.state !== 'watching') {
    if (!occupied) moveAir(work, 'airOff', 'nobodySeen', [say.airOccupied(state, tick)]);
  } else if (ask.onDelayOver(state, tick)) {
    const conditions = [say.onDelay(state, tick), say.airOccupied(state, tick)];
    if (occupied) moveAir(work, 'airOn', 'onDelayOver', conditions);
    else moveAir(work, 'airOff', 'nobodySeen', conditions);
  } else if (ask.gapReached(state, tick)) {
    moveAir(work, 'airOff', 'gapTooLong', [say.gapLimit(state, tick)]);
  }
}
