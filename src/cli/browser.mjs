/** Finds a Chromium that answers: named, cached by Playwright, installed, downloaded, and last one packed on npm. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';
import { ROOT, run, runTool } from './ensure.mjs';

/** A Chromium packed inside an npm package, for Linux machines with no browser and no way to download one. */
const PACKED = '@sparticuz/chromium@147.0.0';
const PACKED_FOLDER = join(ROOT, 'node_modules', '.cache', 'halflit-chromium');

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'microsoft-edge',
  'chromium-headless-shell',
  'chrome.exe',
  'msedge.exe',
];

function folders() {
  const windows = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((name) =>
    process.env[name]
      ? [join(process.env[name], 'Google/Chrome/Application'), join(process.env[name], 'Microsoft/Edge/Application')]
      : [],
  );
  const mac = [
    '/Applications/Google Chrome.app/Contents/MacOS',
    '/Applications/Chromium.app/Contents/MacOS',
    '/Applications/Microsoft Edge.app/Contents/MacOS',
  ];
  return [...(process.env.PATH ?? '').split(delimiter), ...windows, ...mac];
}

function answers(path, env = {}) {
  if (!existsSync(path)) return false;
  // Windows browsers open a window on --version; that the file exists must do there.
  if (process.platform === 'win32') return true;
  const result = spawnSync(path, ['--version', '--no-sandbox'], { timeout: 20_000, env: { ...process.env, ...env } });
  return result.status === 0;
}

function installed() {
  const macNames = ['Google Chrome', 'Chromium', 'Microsoft Edge'];
  return folders().flatMap((folder) => [...NAMES, ...macNames].map((name) => join(folder, name)));
}

function cachedByPlaywright() {
  const cache =
    process.env.PLAYWRIGHT_BROWSERS_PATH ??
    (process.platform === 'darwin'
      ? join(homedir(), 'Library/Caches/ms-playwright')
      : process.platform === 'win32'
        ? join(process.env.LOCALAPPDATA ?? '', 'ms-playwright')
        : join(homedir(), '.cache/ms-playwright'));
  if (!existsSync(cache)) return [];
  const places = [
    'chrome-linux/chrome',
    'chrome-linux/headless_shell',
    'chrome-headless-shell-linux64/chrome-headless-shell',
    'chrome-linux64/chrome',
    'chrome-win/chrome.exe',
    'chrome-mac/Chromium.app/Contents/MacOS/Chromium',
  ];
  return readdirSync(cache)
    .filter((name) => name.startsWith('chromium'))
    .flatMap((name) => places.map((place) => join(cache, name, place)));
}

function packed() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  console.log(`No browser here; fetching ${PACKED} from npm …`);
  mkdirSync(PACKED_FOLDER, { recursive: true });
  if (
    run('npm', [
      'install',
      '--no-save',
      '--no-package-lock',
      '--prefix',
      PACKED_FOLDER,
      '--no-audit',
      '--no-fund',
      PACKED,
    ]) !== 0
  ) {
    return null;
  }
  const script =
    "import('@sparticuz/chromium').then(async (m) => { const c = m.default; " +
    'console.log(JSON.stringify({ path: await c.executablePath() })); })';
  const result = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
    cwd: PACKED_FOLDER,
    env: { ...process.env, TMPDIR: PACKED_FOLDER, AWS_LAMBDA_JS_RUNTIME: 'nodejs20.x' },
  });
  const line = result.stdout?.toString().trim().split('\n').at(-1);
  if (!line) return null;
  const { path } = JSON.parse(line);
  const env = { LD_LIBRARY_PATH: [join(PACKED_FOLDER, 'al2023/lib'), join(PACKED_FOLDER, 'al2/lib')].join(delimiter) };
  return answers(path, env) ? { path, env } : null;
}

/** The first browser that answers: { path, env }; null when there is none to be had. */
export function findBrowser() {
  const named = process.env.CHROMIUM ? [process.env.CHROMIUM] : [];
  for (const path of [...named, ...cachedByPlaywright(), ...installed()]) {
    if (answers(path)) return { path, env: {} };
  }
  console.log('No browser found; asking Playwright to download one (at most two minutes) …');
  const timeLimit = { PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: '20000' };
  if (runTool('playwright', ['install', '--only-shell', 'chromium'], timeLimit) === 0) {
    for (const path of cachedByPlaywright()) if (answers(path)) return { path, env: {} };
  }
  return packed();
}
