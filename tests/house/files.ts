import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Files below a folder of the project, as paths from its root with forward slashes. */
export function filesBelow(folder: string, ending: RegExp): string[] {
  const entries = readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .sort();
}

export function textOf(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

/** Code without comments and strings' line breaks; good enough to look for words in. */
export function withoutComments(code: string): string {
  return code.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|[^:])\/\/.*$/gm, '$1');
}
