/** Two builds: a folder for any static path (dist/), and one file that opens by double-click (dist/halflit.html). */
import { ensureInstalled, runTool, stop } from './ensure.mjs';

/** Builds both; ends the program when one fails. */
export function build() {
  if (runTool('vite', ['build', '--logLevel', 'warn']) !== 0) stop('The page could not be built; see the lines above.');
  if (runTool('vite', ['build', '--mode', 'onefile', '--logLevel', 'warn']) !== 0) {
    stop('The one-file page could not be built; see the lines above.');
  }
}

if (process.argv[1]?.endsWith('build.mjs')) {
  ensureInstalled();
  build();
}
