/** A page of 800 x 450 on this machine's browser (software GL where there is no other). Needs a build. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { findBrowser } from '../../src/cli/browser.mjs';
import { ROOT } from '../../src/cli/ensure.mjs';
import { serve } from '../../src/cli/serve.mjs';

const FLAGS = ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-gpu-rasterization'];

/** What `work` finds on a fresh page; `otherwise` where there is no browser or no build. */
export async function onPage<T>(work: (page: Page, url: string) => Promise<T>, otherwise: T): Promise<T> {
  const found = findBrowser();
  if (!found || !existsSync(join(ROOT, 'dist/index.html'))) return otherwise;
  const { url, close } = await serve(join(ROOT, 'dist'), 0);
  const browser = await chromium.launch({
    executablePath: found.path,
    env: { ...process.env, ...found.env },
    args: FLAGS,
  });
  try {
    return await work(await browser.newPage({ viewport: { width: 800, height: 450 } }), url);
  } finally {
    await browser.close();
    close();
  }
}
