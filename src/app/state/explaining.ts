/** Asking why: for all three outputs at the instant shown, no oftener than can be read. */
import type { OutputId } from '../../engine/types.ts';
import { getApp } from './store.ts';
import { send } from './wire.ts';

/** Explanations while running, ms apart. Assumed: a reason that changes faster than four times a second cannot be read. */
const EXPLAIN_EVERY_MS = 250;
/** Speeds from here on are time-lapse. Source: the product's own speeds. */
const TIME_LAPSE_FROM = 10;
const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

let lastExplainMs = 0;
let requestId = 0;
let awaited = 0;
let explainedTick = -1;

/** Another story: nothing that was asked before counts any more. */
export function forgetExplanations(): void {
  awaited = 0;
  explainedTick = -1;
}

/** An answer came. */
export function explained(answeredId: number): void {
  if (answeredId >= awaited) awaited = 0;
  if (awaited === 0) askExplanations(false);
}

let explainTimer: ReturnType<typeof setTimeout> | null = null;

/** Asks why for the instant shown: at once, or as soon as the last answer is in and it is not too soon after it. */
export function askExplanations(force: boolean): void {
  if (explainTimer) clearTimeout(explainTimer);
  explainTimer = null;
  const { shownTick, readiness, status, job } = getApp();
  if (job?.sealed) return;
  if (readiness !== 'ready' || (!force && shownTick === explainedTick)) return;
  const sinceMs = performance.now() - lastExplainMs;
  // In time-lapse a quarter of a second is minutes of the room: then as often as answers come.
  const everyMs = status.running && status.speedAsked < TIME_LAPSE_FROM ? EXPLAIN_EVERY_MS : 0;
  const waitMs = awaited !== 0 ? ANSWER_WITHIN_MS - sinceMs : everyMs - sinceMs;
  if (!force && waitMs > 0) {
    explainTimer = setTimeout(() => askExplanations(false), Math.min(waitMs, EXPLAIN_EVERY_MS));
    return;
  }
  lastExplainMs = performance.now();
  explainedTick = shownTick;
  for (const output of OUTPUTS) {
    requestId++;
    awaited = requestId;
    send({ type: 'explain', requestId, output, tick: shownTick });
  }
}

/** An answer later than this is not waited for any longer, ms. Assumed: a worker that rebuilds its tables takes about as long. */
const ANSWER_WITHIN_MS = 2000;
