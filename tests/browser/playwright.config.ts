import { defineConfig } from '@playwright/test';

/** Mark of tests that must act while a clock runs, or count pictures: each has the machine to itself. */
const TIMED = /@timed/;

/** Software GL, the same everywhere. `npm test` runs the calm ones first, two at a time on two cores, then the timed. */
export default defineConfig({
  testDir: '.',
  outputDir: '../../test-results',
  workers: 2,
  fullyParallel: true,
  projects: [
    { name: 'calm', grepInvert: TIMED },
    { name: 'timed', grep: TIMED, workers: 1 },
  ],
  timeout: 120_000,
  // Opening a room works out its tables, which takes a slow machine with two tests at a time over the usual five seconds.
  expect: { timeout: 15_000 },
  reporter: [['list']],
  use: {
    baseURL: 'http://127.0.0.1:4188/',
    viewport: { width: 1366, height: 768 },
    launchOptions: {
      ...(process.env.CHROMIUM ? { executablePath: process.env.CHROMIUM } : {}),
      args: [
        '--no-sandbox',
        '--use-angle=swiftshader',
        '--enable-unsafe-swiftshader',
        // The page's own painting needs no software GL: a tenth of the time.
        '--disable-gpu-rasterization',
        '--disable-background-networking',
        '--disable-quic',
        '--disable-component-update',
        '--disable-sync',
        '--no-first-run',
      ],
    },
  },
  webServer: {
    command: 'node src/cli/serveDist.mjs 4188',
    cwd: '../..',
    url: 'http://127.0.0.1:4188/',
    reuseExistingServer: false,
    timeout: 30_000,
  },
});
