/** Who is seen, who not, why not, by how much: asked of the worker while somebody looks at it, and only then. */
import { useEffect } from 'react';
import { create } from 'zustand';
import type { PersonAnswer } from '../../engine/personSight.ts';
import type { Tick } from '../../engine/types.ts';
import type { FromWorker } from '../../host/messages.ts';
import { onAnswer } from './session.ts';
import { getApp, useApp } from './store.ts';
import { send } from './wire.ts';

interface Sights {
  /** Instant that the answers are of. */
  tick: Tick;
  people: PersonAnswer[];
  /** Rises with every answer and every cut. */
  serial: number;
}

const useSights = create<Sights>()(() => ({ tick: 0, people: [], serial: 0 }));

/** Questions while running, ms apart. Assumed: a sentence that changes faster is not read to its end. */
const ASK_EVERY_MS = 1500;

let requestId = 0;
let voidUpTo = 0;
let awaited = 0;
let askedAtMs = Number.NEGATIVE_INFINITY;
/** Instant and turn of the run that were asked about last. */
let askedFor = '';

function hear(message: FromWorker): void {
  if (message.type === 'loaded' || message.type === 'cut') {
    voidUpTo = requestId;
    awaited = 0;
    askedFor = '';
    useSights.setState((s) => ({ serial: s.serial + 1, ...(message.type === 'loaded' ? { people: [] } : {}) }));
    return;
  }
  if (message.type !== 'sights' || message.requestId <= voidUpTo) return;
  if (message.requestId === awaited) awaited = 0;
  useSights.setState((s) => ({ tick: message.tick, people: message.people, serial: s.serial + 1 }));
}

onAnswer(hear);

/** Answers as of about the instant shown; asks for new ones while the caller is on screen. */
export function useSightsShown(): { tick: Tick; people: PersonAnswer[] } {
  const sights = useSights();
  const ready = useApp((s) => s.readiness === 'ready');
  const running = useApp((s) => s.status.running);
  const shownTick = useApp((s) => s.shownTick);
  // biome-ignore lint/correctness/useExhaustiveDependencies: an answer or a cut is the moment to ask again
  useEffect(() => {
    const wanted = String(shownTick);
    if (!ready || awaited !== 0 || wanted === askedFor) return;
    const nowMs = performance.now();
    if (running && nowMs - askedAtMs < ASK_EVERY_MS) return;
    askedAtMs = nowMs;
    askedFor = wanted;
    awaited = ++requestId;
    send({ type: 'askSights', requestId, tick: getApp().shownTick });
  }, [sights.serial, ready, running, shownTick]);
  return sights;
}
