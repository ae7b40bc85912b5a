/** Two builds: a folder for any static path (dist/), and one file that opens by double-click (dist/halflit.html). */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { ensureInstalled, ROOT, runTool, stop } from './ensure.mjs';

/** JavaScript that loads before the first picture, and the 3D part that comes after it, bytes gzipped. Weak laptops, slow nets. */
const SHELL_BYTES = 120_000;
const SCENE_BYTES = 270_000;

const DIST = join(ROOT, 'dist');

function gzippedBytes(file) {
  return gzipSync(readFileSync(join(DIST, file)), { level: 9 }).length;
}

function checkBudgets() {
  const page = readFileSync(join(DIST, 'index.html'), 'utf8');
  const shell = [...page.matchAll(/(?:src|href)="\.\/([^"]+\.js)"/g)].map((match) => match[1]);
  const shellBytes = shell.reduce((sum, file) => sum + gzippedBytes(file), 0);
  const scene = readdirSync(join(DIST, 'assets')).filter((name) => /^RoomView-.*\.js$/.test(name));
  const sceneBytes = scene.reduce((sum, file) => sum + gzippedBytes(join('assets', file)), 0);
  const kB = (bytes) => `${Math.round(bytes / 1000)} kB`;
  console.log(
    `Shell ${kB(shellBytes)} of ${kB(SHELL_BYTES)}, Room View ${kB(sceneBytes)} of ${kB(SCENE_BYTES)} (gzipped).`,
  );
  if (shell.length === 0 || scene.length === 0)
    stop('The build has no shell or no Room View; its budgets cannot be checked.');
  if (shellBytes > SHELL_BYTES)
    stop('The shell is over its budget: load what is not needed for the first picture later.');
  if (sceneBytes > SCENE_BYTES) stop('The Room View is over its budget.');
}

/** Builds both; ends the program when one fails. */
export function build() {
  if (runTool('vite', ['build', '--logLevel', 'warn']) !== 0) stop('The page could not be built; see the lines above.');
  checkBudgets();
  if (runTool('vite', ['build', '--mode', 'onefile', '--logLevel', 'warn']) !== 0) {
    stop('The one-file page could not be built; see the lines above.');
  }
}

if (process.argv[1]?.endsWith('build.mjs')) {
  ensureInstalled();
  build();
}
