/** Compensating acts, newest last. Only acts that have an opposite are here: a press cannot be unpressed. */
import type { Input } from '../../engine/types.ts';
import { setApp } from './store.ts';

let stack: Input[][] = [];

export function rememberUndo(inputs: Input[]): void {
  stack.push(inputs);
  setApp({ undoDepth: stack.length });
}

/** The newest compensating acts, taken off; empty when there is nothing. */
export function takeUndo(): Input[] {
  const inputs = stack.pop() ?? [];
  setApp({ undoDepth: stack.length });
  return inputs;
}

export function clearUndo(): void {
  stack = [];
}
