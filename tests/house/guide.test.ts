import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesBelow, ROOT, textOf } from './files.ts';

const scripts = Object.keys(JSON.parse(textOf('package.json')).scripts);

describe.each(['DEVELOPERS.md', 'README.md'])('%s', (guide) => {
  const text = textOf(guide);

  it('names only paths that exist', () => {
    const named = [...text.matchAll(/`((?:src|tests|scenarios|public|\.ci)\/[^`\s*<>…]*)`/g)].map((m) => m[1]!);
    const linked = [...text.matchAll(/\]\((?!https?:|#)([^)\s]+)\)/g)].map((m) => m[1]!);
    const missing = [...named, ...linked].filter((path) => !existsSync(join(ROOT, path)));
    expect(missing).toEqual([]);
  });

  it('names only scripts that exist', () => {
    const named = [...text.matchAll(/npm run ([a-z:]+)/g)].map((m) => m[1]!);
    expect(named.filter((name) => !scripts.includes(name))).toEqual([]);
  });
});

describe('the house', () => {
  it('has nothing at the top level but what the guide names', () => {
    const top = new Set(
      ['src', 'tests', 'scenarios', 'public']
        .flatMap((folder) => filesBelow(folder, /./))
        .map((path) => path.split('/')[0]),
    );
    expect([...top].sort()).toEqual(['public', 'scenarios', 'src', 'tests']);
  });
});
