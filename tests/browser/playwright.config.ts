import { defineConfig } from '@playwright/test';

/** Software GL, the same everywhere; two workers on two cores, as one waits half of its time for the room. */
export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: '../../test-results',
  workers: 2,
  fullyParallel: false,
  timeout: 90_000,
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
