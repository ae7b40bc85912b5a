/** Attempt files: written with a seal over their content, read with sentences about what is not as expected. */
import { canonicalJson, fnv64 } from '../engine/digest.ts';
import { type Parsed, parseFile } from '../scenario/parse.ts';
import { attemptFile } from '../scenario/schemas/attempt.ts';
import type { Attempt } from './types.ts';

/** Whoever changes a file by hand and does not know this sum is noticed; it proves nothing against somebody who does. */
export function sealOf(attempt: Attempt): string {
  return fnv64(canonicalJson({ ...attempt, kind: 'attempt' }));
}

export function attemptText(attempt: Attempt): string {
  return `${JSON.stringify({ kind: 'attempt', ...attempt, seal: sealOf(attempt) })}\n`;
}

/** `fileName` only appears in sentences. */
export function readAttempt(text: string, fileName: string): Parsed<Attempt> {
  const parsed = parseFile(attemptFile, text, fileName);
  if (!parsed.ok) return parsed;
  const { seal, kind: _kind, ...attempt } = parsed.value;
  const inOrder = attempt.inputs.every((timed, i) => {
    const before = attempt.inputs[i - 1];
    return !before || before.tick < timed.tick || (before.tick === timed.tick && before.serial < timed.serial);
  });
  if (!inOrder) {
    return { ok: false, sentences: [`${fileName}: inputs must be in order of tick and serial, but are not.`] };
  }
  if (seal !== sealOf(attempt)) {
    return { ok: false, sentences: [`${fileName}: the seal does not fit the content; the file was changed by hand.`] };
  }
  return { ok: true, value: attempt };
}
