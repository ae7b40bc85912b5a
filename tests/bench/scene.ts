/** Cost of a frame of the Room View on this machine's browser (software GL where there is no other). Needs a build. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { findBrowser } from '../../src/cli/browser.mjs';
import { ROOT } from '../../src/cli/ensure.mjs';
import { serve } from '../../src/cli/serve.mjs';
import { duration, type Figure } from './measure.ts';

const FLAGS = ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];

/** Wall time between frames while the room runs at 1x, in a page of 800 x 450; the page draws as often as it can. */
export async function sceneFigures(yardstickMs: number): Promise<Figure[]> {
  const found = findBrowser();
  if (!found || !existsSync(join(ROOT, 'dist/index.html'))) return [];
  const { url, close } = await serve(join(ROOT, 'dist'), 0);
  const browser = await chromium.launch({
    executablePath: found.path,
    env: { ...process.env, ...found.env },
    args: FLAGS,
  });
  try {
    const page = await browser.newPage({ viewport: { width: 800, height: 450 } });
    await page.goto(url);
    await page.getByRole('button', { name: 'Run' }).first().click({ timeout: 60_000 });
    const frames = () => page.locator('canvas[data-frames]').evaluate((c) => Number((c as HTMLElement).dataset.frames));
    await page.waitForTimeout(4000);
    const before = await frames();
    await page.waitForTimeout(8000);
    const drawn = (await frames()) - before;
    return [duration('a frame of the Room View while it runs, 800 x 450', 8000 / Math.max(1, drawn), yardstickMs)];
  } finally {
    await browser.close();
    close();
  }
}
