/** Reading from disk for the command line and for tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Library, libraryOf } from '../scenario/library.ts';

/** Root of the project, found from this file. */
export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Every JSON file below scenarios/. */
export function diskLibrary(): Library {
  const folder = join(ROOT, 'scenarios');
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const paths = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => join(entry.parentPath, entry.name));
  const key = (path: string) => `scenarios/${relative(folder, path).replaceAll('\\', '/')}`;
  return libraryOf(Object.fromEntries(paths.map((path) => [key(path), readFileSync(path, 'utf8')])));
}

/** A file's text, or a sentence that says what was expected. */
export function readText(path: string): { ok: true; text: string } | { ok: false; sentence: string } {
  try {
    return { ok: true, text: readFileSync(path, 'utf8') };
  } catch {
    return { ok: false, sentence: `${path}: expected a readable file, but there is none.` };
  }
}
