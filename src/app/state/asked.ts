/** What was asked of the worker and not yet answered, so that quick keys add up instead of starting from an old frame. */
import { getApp } from './store.ts';

/** Frames after which no answer comes any more. Assumed: a third of a second; longer would hold on to what was refused. */
const ANSWER_FRAMES = 10;

export interface Asked<T> {
  ask: (value: T) => void;
  /** The value still on its way; null when a frame shows it, or none is. */
  pending: (isShown: (value: T) => boolean) => T | null;
}

export function createAsked<T>(): Asked<T> {
  let held: { value: T; frameSerial: number } | null = null;
  return {
    ask: (value) => {
      held = { value, frameSerial: getApp().frameSerial };
    },
    pending: (isShown) => {
      if (held && (isShown(held.value) || getApp().frameSerial - held.frameSerial > ANSWER_FRAMES)) held = null;
      return held?.value ?? null;
    },
  };
}
