/** From text to a value of the wanted shape, or to sentences. */
import type * as z from 'zod/mini';
import { FORMAT } from './schemas/words.ts';
import { issueSentences, sentence } from './sentences.ts';

export type Parsed<T> = { ok: true; value: T } | { ok: false; sentences: string[] };

/** Line and column of an offset, both from 1. */
function placeOf(text: string, offset: number): string {
  const before = text.slice(0, offset).split('\n');
  return `line ${before.length}, column ${(before.at(-1)?.length ?? 0) + 1}`;
}

function parseJson(text: string, fileName: string): Parsed<unknown> {
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch (error) {
    // Engines word this differently; the position is in most of their messages.
    const message = error instanceof Error ? error.message : String(error);
    const offset = /position (\d+)/.exec(message)?.[1];
    const place = offset === undefined ? 'somewhere' : `at ${placeOf(text, Number(offset))}`;
    return { ok: false, sentences: [`${fileName}: expected JSON, but the text breaks off being JSON ${place}.`] };
  }
}

/** Every file says its format; a newer one is refused as a whole, before its keys are judged. */
function formatFault(value: unknown, fileName: string): string | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return sentence(fileName, [], 'a JSON object', value);
  }
  const found = (value as { format?: unknown }).format;
  if (typeof found === 'number' && found > FORMAT) {
    return `${fileName}: format is ${found}, newer than the ${FORMAT} that this version reads; expected a file of format ${FORMAT} or a newer Halflit.`;
  }
  return found === FORMAT ? null : sentence(fileName, ['format'], `${FORMAT}`, found);
}

export function parseFile<T extends z.ZodMiniType>(schema: T, text: string, fileName: string): Parsed<z.output<T>> {
  const json = parseJson(text, fileName);
  if (!json.ok) return json;
  const fault = formatFault(json.value, fileName);
  if (fault !== null) return { ok: false, sentences: [fault] };
  const result = schema.safeParse(json.value);
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, sentences: issueSentences(fileName, json.value, result.error.issues) };
}
