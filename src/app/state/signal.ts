/**
 * The signal of the four quadrants at 50 Hz for the stretch that is looked at: asked of the worker piece by piece while
 * somebody looks, forgotten with the run. Nothing is asked, and nothing is sent, while nobody does.
 */
import { useEffect } from 'react';
import { create } from 'zustand';
import type { Tick } from '../../engine/types.ts';
import type { FromWorker } from '../../host/messages.ts';
import { cutHeld, type HeldSignal, joined, missing, NO_SIGNAL, pieceOf } from './heldSignal.ts';
import { onAnswer } from './session.ts';
import { useApp } from './store.ts';
import { send } from './wire.ts';

const useHeld = create<{ held: HeldSignal }>()(() => ({ held: NO_SIGNAL }));

let requestId = 0;
/** Answers to questions up to this one belong to a run that no longer is. */
let voidUpTo = 0;
let awaited = 0;

function hear(message: FromWorker): void {
  if (message.type === 'loaded' || message.type === 'cut') {
    voidUpTo = requestId;
    awaited = 0;
    const { tick } = message.type === 'cut' ? message : { tick: -1 };
    useHeld.setState(({ held }) => ({ held: cutHeld(held, tick) }));
    return;
  }
  if (message.type !== 'signal' || message.requestId <= voidUpTo) return;
  if (message.requestId === awaited) awaited = 0;
  useHeld.setState(({ held }) => ({ held: joined(held, pieceOf(message.stretch)) }));
}

onAnswer(hear);

/** Of a window on a run worked up to `headTick`: what is held, and asks for what is missing of the window; call it while the window is on screen. */
export function useSignal(fromTick: Tick, toTick: Tick, headTick: Tick): HeldSignal {
  const held = useHeld((s) => s.held);
  const ready = useApp((s) => s.readiness === 'ready');
  useEffect(() => {
    if (!ready || awaited !== 0) return;
    const wanted = missing(held, Math.max(0, Math.floor(fromTick)), Math.min(Math.ceil(toTick), headTick + 1));
    if (!wanted) return;
    awaited = ++requestId;
    send({ type: 'askSignal', requestId, ...wanted });
  }, [held, ready, fromTick, toTick, headTick]);
  return held;
}
