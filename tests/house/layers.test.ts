import { dirname, join } from 'node:path/posix';
import { describe, expect, it } from 'vitest';
import { filesBelow, textOf, withoutComments } from './files.ts';

/** Who may import whom, by folder under src (first match wins). Packages by name; a trailing slash is a folder. */
const RULES: { folder: string; may: string[] }[] = [
  {
    folder: 'engine/',
    may: ['engine/', '@stdlib/', 'pure-rand/', 'astronomy-engine'],
  },
  { folder: 'scenario/', may: ['scenario/', 'engine/', 'zod/mini', 'node:', 'cli/files.ts'] },
  { folder: 'exercise/', may: ['exercise/', 'engine/', 'scenario/', 'fflate'] },
  { folder: 'report/', may: ['report/', 'engine/', 'exercise/', 'd3-scale'] },
  { folder: 'host/', may: ['host/', 'engine/', 'scenario/', 'exercise/'] },
  { folder: 'cli/', may: ['cli/', 'engine/', 'scenario/', 'exercise/', 'report/', 'host/', 'node:', 'vite', 'fflate'] },
  {
    folder: 'app/state/',
    may: ['app/state/', 'host/', 'exercise/', 'scenario/', 'engine/', 'report/text/', 'zustand', 'react'],
  },
  {
    folder: 'app/scene/',
    may: [
      'app/scene/',
      'app/state/',
      'app/theme/',
      'engine/',
      'host/messages.ts',
      'report/text/',
      'react',
      'three',
      '@react-three/',
      'zustand',
    ],
  },
  {
    folder: 'app/',
    may: [
      'app/',
      'engine/',
      'host/',
      'exercise/',
      'scenario/',
      'report/',
      'react',
      'react-dom',
      'zustand',
      'd3-scale',
      '@fontsource-variable/',
      'uqr',
      'vite',
    ],
  },
];

/** Inside the engine these know nothing of each other; only the files that join the stages do. */
const STAGES = ['people', 'detection', 'light', 'control', 'plant'];
const JOINTS = [
  'simulation.ts',
  'setup.ts',
  'skyClock.ts',
  'tables.ts',
  'view.ts',
  'instruments.ts',
  'types.ts',
  'frame.ts',
  'recording.ts',
];

function importsOf(path: string): string[] {
  const code = withoutComments(textOf(path));
  return [
    ...code.matchAll(/(?:^\s*(?:import|export)\b[^;'"]*?from\s*|^\s*import\s*|\bimport\s*\(\s*)['"]([^'"]+)['"]/gm),
  ].map((match) => match[1]!);
}

function resolved(path: string, wanted: string): string {
  if (!wanted.startsWith('.')) return wanted;
  return join(dirname(path), wanted).replace(/^src\//, '');
}

describe('layers', () => {
  const sources = filesBelow('src', /\.(ts|tsx|mts)$/);

  it('finds the sources', () => {
    expect(sources.length).toBeGreaterThan(20);
  });

  for (const path of sources) {
    it(`${path} imports only what its folder may`, () => {
      const local = path.replace(/^src\//, '');
      const rule = RULES.find((r) => local.startsWith(r.folder));
      expect(rule, `no rule for ${path}`).toBeDefined();
      for (const wanted of importsOf(path)) {
        const target = resolved(path, wanted);
        if (/\.(css|json|woff2)(\?.*)?$/.test(target)) continue;
        const allowed = rule!.may.some(
          (m) =>
            target === m ||
            (m.endsWith('/') || m.endsWith(':') ? target.startsWith(m) : target === m || target.startsWith(`${m}/`)),
        );
        expect(allowed, `${path} imports ${wanted}`).toBe(true);
      }
    });
  }

  it('keeps three out of everything but the scene', () => {
    const offenders = sources.filter(
      (path) =>
        !path.startsWith('src/app/scene/') &&
        importsOf(path).some((i) => i === 'three' || i.startsWith('@react-three/')),
    );
    expect(offenders).toEqual([]);
  });

  it('keeps the stages of the engine apart', () => {
    const offenders = sources.flatMap((path) => {
      const [, , folder] = path.split('/');
      if (!path.startsWith('src/engine/') || JOINTS.includes(folder ?? '') || !STAGES.includes(folder ?? '')) return [];
      return importsOf(path)
        .map((i) => resolved(path, i))
        .filter((target) => STAGES.some((stage) => stage !== folder && target.startsWith(`engine/${stage}/`)))
        .map((target) => `${path} -> ${target}`);
    });
    expect(offenders).toEqual([]);
  });
});
