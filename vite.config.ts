import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

const APP = join(dirname(fileURLToPath(import.meta.url)), 'src/app');

/**
 * One page that opens by double-click: module scripts from file:// are blocked, so script and styles go into the page
 * itself, as a classic script at the end of the body.
 */
function oneFile(): Plugin {
  return {
    name: 'halflit-one-file',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const files = Object.values(bundle);
      const page = files.find((f) => f.fileName === 'index.html');
      if (page?.type !== 'asset') throw new Error('the one-file build has no page');
      const code = files.flatMap((f) => (f.type === 'chunk' ? [f.code] : [])).join('\n');
      const css = files.flatMap((f) => (f.type === 'asset' && f.fileName.endsWith('.css') ? [String(f.source)] : []));
      const bare = String(page.source)
        .replace(/<script[^>]*type="module"[^>]*><\/script>/g, '')
        .replace(/<link[^>]*rel="(?:stylesheet|modulepreload|manifest)"[^>]*>/g, '');
      const safe = code.replace(/<\/script/g, '<\\/script');
      const source = bare
        .replace('</head>', () => `<style>${css.join('\n')}</style></head>`)
        .replace('</body>', () => `<script>${safe}</script></body>`);
      for (const name of Object.keys(bundle)) delete bundle[name];
      this.emitFile({ type: 'asset', fileName: 'halflit.html', source });
    },
  };
}

/** Node itself loads the code, as on the command line: behind the runner's own loader the engine runs at a third of its speed. */
const BY_NODE = { execArgv: ['--import', 'tsx'], experimental: { viteModuleRunner: false, nodeLoader: false } };

export default defineConfig(({ mode }) => {
  const single = mode === 'onefile';
  return {
    root: 'src/app',
    base: './',
    publicDir: '../../public',
    plugins: single ? [react(), oneFile()] : [react()],
    resolve: {
      alias: single ? [{ find: './siteWorker.ts', replacement: join(APP, 'state/inlineWorker.ts') }] : [],
    },
    build: {
      outDir: '../../dist',
      emptyOutDir: !single,
      copyPublicDir: !single,
      target: 'es2022',
      chunkSizeWarningLimit: 1200,
      ...(single
        ? {
            assetsInlineLimit: 100_000_000,
            cssCodeSplit: false,
            modulePreload: false,
            rolldownOptions: {
              output: { format: 'iife' as const, codeSplitting: false },
              // Nothing is loaded by address in this page, so its address is never asked.
              transform: { define: { 'import.meta': '{}' } },
            },
          }
        : {}),
    },
    worker: { format: single ? ('iife' as const) : ('es' as const) },
    test: {
      root: '.',
      environment: 'node' as const,
      testTimeout: 60_000,
      setupFiles: ['tests/dice.ts'],
      // The engine and what is built on it keep nothing but tables, loaded once for all files. The worker and the page keep a
      // present run: each of their files has its own. The page also needs what is built in: its styles and bundled stories.
      projects: [
        {
          extends: true as const,
          test: {
            name: 'engine',
            include: ['tests/**/*.test.ts'],
            exclude: ['tests/browser/**', 'tests/host/**', 'tests/app/**'],
            isolate: false,
            ...BY_NODE,
          },
        },
        { extends: true as const, test: { name: 'host', include: ['tests/host/**/*.test.ts'], ...BY_NODE } },
        { extends: true as const, test: { name: 'page', include: ['tests/app/**/*.test.ts'] } },
      ],
      // By itself the runner leaves one core idle; on two that is half of them.
      maxWorkers: '100%',
    },
  };
});
