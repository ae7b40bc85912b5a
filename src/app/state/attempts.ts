/** Attempts kept in this browser at every act, and written out as files or text. */
import { attemptText, readAttempt } from '../../exercise/attempt.ts';
import type { Attempt, Mark } from '../../exercise/types.ts';

const key = (exercise: string, seed: number): string => `halflit/attempt/${exercise}/${seed}`;
const markKey = (exercise: string, seed: number): string => `halflit/mark/${exercise}/${seed}`;

/** False when the browser refuses to store. */
export function keepAttempt(attempt: Attempt): boolean {
  try {
    localStorage.setItem(key(attempt.exercise, attempt.seed), attemptText(attempt));
    return true;
  } catch {
    return false;
  }
}

/** Null: none, or one that cannot be read any more. */
export function keptAttempt(exercise: string, seed: number): Attempt | null {
  try {
    const text = localStorage.getItem(key(exercise, seed));
    const read = text === null ? null : readAttempt(text, 'kept attempt');
    return read?.ok ? read.value : null;
  } catch {
    return null;
  }
}

/** Points of the attempt as it was last handed in, so that the list of jobs can tell it from one that is only begun. */
export function keepMark({ exercise, seed, total }: Mark): void {
  try {
    localStorage.setItem(markKey(exercise, seed), String(Math.round(total)));
  } catch {
    // The attempt itself could not be kept either, and that was told.
  }
}

/** Null: not handed in, or nothing is stored. */
export function keptPoints(exercise: string, seed: number): number | null {
  try {
    const text = localStorage.getItem(markKey(exercise, seed));
    return text !== null && /^\d{1,3}$/.test(text) ? Number(text) : null;
  } catch {
    return null;
  }
}

export function forgetAttempt(exercise: string, seed: number): void {
  try {
    localStorage.removeItem(key(exercise, seed));
    localStorage.removeItem(markKey(exercise, seed));
  } catch {
    // Nothing was stored then either.
  }
}

/** Offers a text as a file to keep. */
export function offerFile(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

export function attemptFileName({ exercise, seed }: Attempt): string {
  return `${exercise}-bench-${seed}.json`;
}

export function saveAttempt(attempt: Attempt): void {
  offerFile(attemptFileName(attempt), attemptText(attempt), 'application/json');
}

/** False when the clipboard is not to be had. */
export async function copyAttempt(attempt: Attempt): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(attemptText(attempt));
    return true;
  } catch {
    return false;
  }
}
