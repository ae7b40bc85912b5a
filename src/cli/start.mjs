/** `npm start`: install what is missing, build, serve on this machine, open a browser (not under CI). */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { build } from './build.mjs';
import { ensureInstalled, ROOT } from './ensure.mjs';
import { serve } from './serve.mjs';

/** First port tried. Assumed: seldom taken; the next free one serves as well. */
const PORT = 4173;

function openBrowser(url) {
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open', url]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', url]
        : ['xdg-open', url];
  const child = spawn(command, args, { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}

ensureInstalled();
build();
const { url } = await serve(join(ROOT, 'dist'), Number(process.env.PORT ?? PORT));
console.log(`Halflit is ready: ${url}  (Ctrl+C ends it)`);
if (!process.env.CI) openBrowser(url);
