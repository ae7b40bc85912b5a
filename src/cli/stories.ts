/** A story named on the command line: a file, or the id of a bundled one; bad ones end as sentences on stderr. */
import { existsSync } from 'node:fs';
import type { Scenario } from '../engine/types.ts';
import { loadScenario, loadStory } from '../scenario/load.ts';
import { diskLibrary, readText } from './files.ts';

export function complain(sentences: readonly string[]): void {
  for (const sentence of sentences) process.stderr.write(`${sentence}\n`);
}

/** Null after having complained. */
export function storyFrom(name: string | undefined): Scenario | null {
  if (name === undefined) {
    complain(['Expected a SCENARIO: the path of a story file, or the id of a bundled story.']);
    return null;
  }
  const library = diskLibrary();
  const bundled = !name.endsWith('.json') && !existsSync(name);
  if (bundled) {
    const loaded = loadStory(library, name);
    if (loaded.ok) return loaded.scenario;
    complain(loaded.sentences);
    return null;
  }
  const read = readText(name);
  if (!read.ok) {
    complain([read.sentence]);
    return null;
  }
  const loaded = loadScenario(read.text, name, library);
  if (loaded.ok) return loaded.scenario;
  complain(loaded.sentences);
  return null;
}
