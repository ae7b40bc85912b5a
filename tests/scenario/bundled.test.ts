import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { diskLibrary, ROOT } from '../../src/cli/files.ts';
import { jsonSchemaFiles } from '../../src/scenario/jsonSchemas.ts';
import { idsIn } from '../../src/scenario/library.ts';
import { loadDetector, loadRoom, loadStory } from '../../src/scenario/load.ts';

const library = diskLibrary();

describe('bundled files', () => {
  it('are there', () => {
    expect(idsIn(library, '')).toContain('winter-walk-in');
    expect(idsIn(library, 'rooms')).toContain('corner-office');
  });

  for (const id of idsIn(library, '')) {
    it(`story ${id} loads and has the id of its file`, () => {
      const loaded = loadStory(library, id);
      expect(loaded.ok ? [] : loaded.sentences).toEqual([]);
      expect(loaded.ok && loaded.scenario.id).toBe(id);
    });
  }

  for (const id of idsIn(library, 'rooms')) {
    it(`room ${id} loads`, () => {
      const loaded = loadRoom(library, id);
      expect(loaded.ok ? [] : loaded.sentences).toEqual([]);
    });
  }

  for (const id of idsIn(library, 'detectors')) {
    it(`detector ${id} loads and has the id of its file`, () => {
      const loaded = loadDetector(library, id);
      expect(loaded.ok ? [] : loaded.sentences).toEqual([]);
      expect(loaded.ok && loaded.value.id).toBe(id);
    });
  }
});

describe('published JSON Schemas', () => {
  for (const [name, text] of Object.entries(jsonSchemaFiles())) {
    it(`${name} says what the loader checks (else: npx tsx src/scenario/writeSchema.ts)`, () => {
      const published = JSON.parse(readFileSync(join(ROOT, 'public/schema', name), 'utf8')) as unknown;
      expect(published).toEqual(JSON.parse(text));
    });
  }
});
