/** Acts and waits in the shown room, one after the other, for tests that take their time. */
import type { Input, Tick } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import type { Plan } from '../../../exercise/diagnose/plan.ts';
import { live, onLive } from '../live.ts';
import { getApp, useApp } from '../store.ts';
import { send } from '../wire.ts';

/** Speed of a visit, to be looked at, and of a long wait. Source: the product's own speeds. */
const VISIT_SPEED = 10;
const WAIT_SPEED = 600;
/** A wait longer than this is hurried, s. Assumed: a visit of 8 s is worth watching, an off-delay is not. */
const LONG_WAIT_S = 15;

/** Somebody opened another room: what was being done is not gone on with there. */
export class RoomLeft extends Error {}

const shownTick = (): Tick => live.frame?.tick ?? 0;

/** Resolves when the room stands and shows this tick or a later one, or when `stop` says so. */
function standing(tick: Tick, stop: () => boolean = () => false): Promise<void> {
  const room = getApp().scenario;
  return new Promise((resolve, reject) => {
    const look = (): void => {
      const { scenario, status } = getApp();
      if (scenario === room) {
        if (status.running && stop()) send({ type: 'pause' });
        if (status.running || (shownTick() < tick && !stop())) return;
      }
      unLive();
      unStore();
      if (scenario === room) resolve();
      else reject(new RoomLeft());
    };
    const unLive = onLive(look);
    const unStore = useApp.subscribe(look);
    look();
  });
}

async function runTo(tick: Tick, speed: number, stop?: () => boolean): Promise<void> {
  if (shownTick() >= tick) return;
  send({ type: 'run', speed, untilTick: tick });
  await standing(tick, stop);
}

/** Goes on by one tick, so that what follows is done after what was before. */
export async function stepOn(): Promise<void> {
  const next = shownTick() + 1;
  send({ type: 'step', ticks: 1 });
  await standing(next);
}

/** Acts done at now, worked at once, and the room one tick further. */
export async function putIn(inputs: readonly Input[]): Promise<void> {
  send({ type: 'pause' });
  for (const input of inputs) send({ type: 'act', input });
  await stepOn();
}

/** Carries out a plan and leaves the room standing where the instrument is to be read. */
export async function doPlan({ acts, readAfterS, until }: Plan): Promise<void> {
  send({ type: 'pause' });
  await standing(0);
  const start = shownTick();
  for (const { afterS, input } of [...acts].sort((a, b) => a.afterS - b.afterS)) {
    await runTo(start + secondsToTicks(afterS), VISIT_SPEED);
    send({ type: 'act', input });
  }
  await runTo(start + secondsToTicks(readAfterS), readAfterS > LONG_WAIT_S ? WAIT_SPEED : VISIT_SPEED);
  if (!until) return;
  const isThere = (): boolean => live.frame?.outputs[until.output].on === until.on;
  // An off that never can come is not waited for.
  if (isThere()) return;
  await runTo(start + secondsToTicks(until.limitS), WAIT_SPEED, isThere);
}
