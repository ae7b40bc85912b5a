/** Serves what has been built, for the browser tests: `node src/cli/serveDist.mjs PORT`. */
import { join } from 'node:path';
import { ROOT } from './ensure.mjs';
import { serve } from './serve.mjs';

const { url } = await serve(join(ROOT, 'dist'), Number(process.argv[2] ?? 0));
console.log(url);
