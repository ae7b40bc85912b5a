/** What a closure on a button input means: by its exact length in ms, lower bounds included. */
import type { ButtonId } from '../types.ts';
import type { ControlState, InputMemory, Work } from './types.ts';

/** Shorter is noise, ms. Assumed: shorter lets coupled spikes count, longer loses extension pulses. */
export const PULSE_FROM_MS = 40;
/** From here a closure is neither pulse nor press, ms. Assumed: pulses are nominally 60 ms, six half-waves. */
export const GUARD_FROM_MS = 90;
/** From here a closure is a press, ms. Assumed: a quick finger closes for longer than this. */
export const PRESS_FROM_MS = 120;
/** A press that is still closed acts now, ms. Assumed: longer feels dead, shorter surprises. */
export const LONG_PRESS_MS = 1500;
/** Still closed: the input is stuck, ms. Assumed: nobody leans on a button for longer. */
export const STUCK_MS = 10_000;
/** Open for so long and the input counts again, ms. Assumed: contacts that chatter open are not yet well. */
export const STUCK_CLEARS_MS = 1000;

export const BUTTONS: readonly ButtonId[] = ['inner', 'window', 'air'];

export function createInput(): InputMemory {
  return { closedSinceMs: null, openSinceMs: 0, stuckFromMs: 0, acted: false, void: false, stuck: false };
}

/** Follows the edges of this tick, in any phase. Ended closures are kept for step 3, which knows the phase. */
export function followEdges(work: Work): void {
  for (const { tMs, input, closed } of work.input.contactEdges) {
    const memory = work.state.inputs[input];
    if (closed === (memory.closedSinceMs !== null)) continue;
    if (closed) close(work, input, memory, tMs);
    else open(work, input, memory, tMs);
  }
}

function close(work: Work, input: ButtonId, memory: InputMemory, tMs: number): void {
  if (memory.stuck && tMs - memory.openSinceMs >= STUCK_CLEARS_MS && isListening(work.state)) clear(work, input);
  memory.closedSinceMs = tMs;
  memory.stuckFromMs = tMs;
  memory.acted = false;
  memory.void = memory.stuck;
}

function open(work: Work, input: ButtonId, memory: InputMemory, tMs: number): void {
  work.closures ??= [];
  work.closures.push({
    input,
    lengthMs: tMs - (memory.closedSinceMs ?? tMs),
    acted: memory.acted,
    void: memory.void,
  });
  memory.closedSinceMs = null;
  memory.openSinceMs = tMs;
}

function isListening(state: ControlState): boolean {
  return state.phase === 'running' || state.phase === 'walkTest';
}

/** Step 3, first half: closures become presses and extension pulses; stuck inputs are flagged. */
export function decodeInputs(work: Work): void {
  if (!isListening(work.state)) return;
  if (work.closures) for (const closure of work.closures) decodeEnded(work, closure);
  for (let i = 0; i < BUTTONS.length; i++) watchLevel(work, BUTTONS[i]!);
}

function decodeEnded(work: Work, closure: { input: ButtonId; lengthMs: number; acted: boolean; void: boolean }): void {
  const { input, lengthMs } = closure;
  if (closure.void || closure.acted || lengthMs < PULSE_FROM_MS) return;
  if (lengthMs >= PRESS_FROM_MS) {
    press(work, input);
  } else if (input === 'air') {
    // Extension detectors are wired to light buttons; short closures say nothing to the air input.
  } else if (lengthMs < GUARD_FROM_MS) {
    work.extensionPulse = true;
  } else {
    work.events.push({ tick: work.tick, kind: 'note', note: 'closureInGuardBand', input });
  }
}

/** What an input says by its level alone: still closed, or open again for good. */
function watchLevel(work: Work, input: ButtonId): void {
  const memory = work.state.inputs[input];
  const { closedSinceMs } = memory;
  if (closedSinceMs === null) {
    if (memory.stuck && work.nowMs - memory.openSinceMs >= STUCK_CLEARS_MS) clear(work, input);
    return;
  }
  if (memory.stuck) return;
  if (!memory.void && !memory.acted && work.nowMs - closedSinceMs >= LONG_PRESS_MS) {
    memory.acted = true;
    press(work, input);
  }
  if (work.nowMs - memory.stuckFromMs >= STUCK_MS) {
    memory.stuck = true;
    work.events.push({ tick: work.tick, kind: 'flag', flag: 'inputStuckClosed', input, state: 'raised' });
  }
}

function press(work: Work, input: ButtonId): void {
  work.pressed ??= { inner: false, window: false, air: false };
  work.pressed[input] = true;
}

function clear(work: Work, input: ButtonId): void {
  work.state.inputs[input].stuck = false;
  work.events.push({ tick: work.tick, kind: 'flag', flag: 'inputStuckClosed', input, state: 'cleared' });
}

/** Warm-up ends, Walk-test starts or ends: what is closed at this moment means nothing. */
export function voidClosures(state: ControlState): void {
  for (const input of BUTTONS) if (state.inputs[input].closedSinceMs !== null) state.inputs[input].void = true;
}

/** End of Warm-up: the stuck count begins. */
export function restartStuckCount(state: ControlState, nowMs: number): void {
  for (const input of BUTTONS) state.inputs[input].stuckFromMs = nowMs;
}

/** Supply loss forgets that an input was stuck; the log says so. */
export function clearStuck(work: Work): void {
  for (const input of BUTTONS) if (work.state.inputs[input].stuck) clear(work, input);
}
