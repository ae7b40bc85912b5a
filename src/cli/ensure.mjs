/** Installs what is missing: only when the lock file, Node's major version or the platform has changed. No dependencies. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const STAMP = join(ROOT, 'node_modules', '.halflit-stamp');

/** Runs a command, showing its output; resolves to its exit code. */
export function run(command, args, env = {}) {
  const result = spawnSync(command, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...env },
    shell: process.platform === 'win32',
  });
  return result.status ?? 1;
}

/** Runs a tool that a package of ours brings. */
export function runTool(name, args, env = {}) {
  const file = join(ROOT, 'node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);
  return run(file, args, env);
}

function fingerprint() {
  const lock = readFileSync(join(ROOT, 'package-lock.json'));
  const node = process.versions.node.split('.')[0];
  return createHash('sha256').update(lock).update(`${node} ${process.platform} ${process.arch}`).digest('hex');
}

/** Makes node_modules match the lock file. Ends the program with one sentence if that cannot be done. */
export function ensureInstalled() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    stop(`Halflit needs Node 20.19 or newer; this is Node ${process.versions.node}.`);
  }
  const wanted = fingerprint();
  if (existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted) return;
  console.log('Installing packages (once; again only when package-lock.json changes) …');
  const code = run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1',
  });
  if (code !== 0) stop('The packages could not be installed. Is the npm registry reachable?');
  writeFileSync(STAMP, wanted);
}

export function stop(sentence) {
  console.error(sentence);
  process.exit(1);
}
