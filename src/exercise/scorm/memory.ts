/**
 * What a learning platform is given to keep of an attempt: as much as fits into its memory, without the learners' names.
 * Where the work itself does not fit, the attempt file stays the way to carry on.
 */
import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';
import { attemptText, readAttempt } from '../attempt.ts';
import type { Attempt } from '../types.ts';

/** Characters that a platform must be able to keep. Source: SCORM 1.2, cmi.suspend_data is a CMIString4096. */
export const MEMORY_CHARS = 4096;

/** Whose run it is, and how far: chance letters and a count, so that two copies of the work can be told apart. */
export interface RunId {
  run: string;
  step: number;
}

export interface Memory extends RunId {
  /** Null: the work itself did not fit. */
  attempt: Attempt | null;
}

/** As it is kept. A lecturer can read bench and fingerprint there. */
interface Kept extends RunId {
  format: 1;
  bench: number;
  /** Of the room at its last full minute: the attempt file of this work ends with the same one. */
  digest: string;
  /** Deflated, base 64: the attempt as in its file. */
  attempt?: string;
  /** … or, where only that much fits, the answers. */
  answers?: string;
}

function packed(text: string): string {
  return btoa(strFromU8(deflateSync(strToU8(text), { level: 9 }), true));
}

/** Throws where it was not packed by this page. */
function unpacked(text: string): string {
  return strFromU8(inflateSync(strToU8(atob(text), true)));
}

/** The text to keep, never longer than may be; `whole`: the work can be carried on from it. */
export function memoryOf(attempt: Attempt, { run, step }: RunId): { text: string; whole: boolean } {
  const nameless: Attempt = { ...attempt, names: [] };
  const { digests, seed, answers } = nameless;
  const base: Kept = { format: 1, run, step, bench: seed, digest: digests.at(-1)?.digest ?? '' };
  // The fingerprints of every minute are made again when the room is played; they go first.
  const whole = [nameless, { ...nameless, digests: [] }];
  for (const one of whole) {
    const text = JSON.stringify({ ...base, attempt: packed(attemptText(one)) });
    if (text.length <= MEMORY_CHARS) return { text, whole: true };
  }
  const text = JSON.stringify({ ...base, answers: packed(JSON.stringify(answers)) });
  return { text: text.length <= MEMORY_CHARS ? text : JSON.stringify(base), whole: false };
}

/** Null: nothing, or nothing that this page wrote. */
export function readMemory(text: string): Memory | null {
  try {
    const { format, run, step, attempt } = JSON.parse(text) as Partial<Kept>;
    if (format !== 1 || typeof run !== 'string' || typeof step !== 'number') return null;
    const read = attempt === undefined ? null : readAttempt(unpacked(attempt), 'kept by the platform');
    return { run, step, attempt: read?.ok ? read.value : null };
  } catch {
    return null;
  }
}
