/** `npm test`: install what is missing, then types, lint, unit, reference and property tests, and the browser tests. */
import { findBrowser } from './browser.mjs';
import { build } from './build.mjs';
import { ensureInstalled, runTool, stop } from './ensure.mjs';

const startedAt = Date.now();

function step(title, work) {
  console.log(`\n— ${title} (${Math.round((Date.now() - startedAt) / 1000)} s)`);
  work();
}

function must(name, args, env) {
  if (runTool(name, args, env) !== 0) stop(`Stopped: ${name} ${args.join(' ')} found something; see the lines above.`);
}

ensureInstalled();
step('types', () => {
  must('tsc', ['-p', 'tsconfig.json']);
  must('tsc', ['-p', 'src/engine/tsconfig.json']);
});
step('lint', () => must('biome', ['check', '--error-on-warnings']));
step('unit, reference, property and replay tests', () => must('vitest', ['run']));
step('build', build);
step('browser tests', () => {
  const browser = findBrowser();
  if (!browser) {
    stop(
      'No browser to test with. Install Chromium or Chrome (Debian: apt-get install chromium) or set CHROMIUM to one.',
    );
  }
  const env = { CHROMIUM: browser.path, ...browser.env };
  for (const project of ['calm', 'timed'])
    must('playwright', ['test', '-c', 'tests/browser/playwright.config.ts', `--project=${project}`], env);
});
console.log(`\nAll green in ${Math.round((Date.now() - startedAt) / 1000)} s.`);
