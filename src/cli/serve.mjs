/** A static server for the built page: this machine only, and no more than a browser needs. */
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
};

/** Serves `folder` on 127.0.0.1; takes the next free port when `port` is taken. Resolves to { url, close }. */
export function serve(folder, port) {
  const root = normalize(folder + sep);
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const wanted = path.endsWith('/') ? `${path}index.html` : path;
    const file = normalize(join(root, wanted));
    if (!file.startsWith(root) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404, { 'content-type': 'text/plain' }).end('Not found');
      return;
    }
    const hashed = /[/\\]assets[/\\]/.test(file);
    response.writeHead(200, {
      'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      'cache-control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
    });
    createReadStream(file).pipe(response);
  });
  return new Promise((resolve, reject) => {
    server.on('error', (error) => {
      if (error.code === 'EADDRINUSE' && port !== 0) server.listen(0, '127.0.0.1');
      else reject(error);
    });
    server.on('listening', () => {
      const address = server.address();
      resolve({ url: `http://127.0.0.1:${address.port}/`, close: () => server.close() });
    });
    server.listen(port, '127.0.0.1');
  });
}
