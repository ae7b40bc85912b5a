import { fileURLToPath } from 'node:url';
import { expect } from '@playwright/test';
import { build, type Rollup } from 'vite';
import { MATH_DIGEST } from '../support/mathDigest.ts';
import { test } from './support/page.ts';

/** The digest's own source as one classic script that leaves `halflitMath` behind. */
async function digestScript(): Promise<string> {
  const result = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      lib: {
        entry: fileURLToPath(new URL('../support/mathDigest.ts', import.meta.url)),
        formats: ['iife'],
        name: 'halflitMath',
      },
    },
  });
  const [output] = (Array.isArray(result) ? result : [result]) as Rollup.RollupOutput[];
  return output!.output[0].code;
}

test('sines, powers and the rest give in the browser, bit for bit, what they give in Node', async ({ page }) => {
  await page.setContent('<!doctype html><title>digest</title>');
  await page.addScriptTag({ content: await digestScript() });
  const digest = await page.evaluate(() =>
    (globalThis as unknown as { halflitMath: { mathDigest(): string } }).halflitMath.mathDigest(),
  );
  expect(digest).toBe(MATH_DIGEST);
});
