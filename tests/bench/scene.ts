/** Cost of a frame of the Room View. */
import { onPage } from './browserPage.ts';
import { duration, type Figure } from './measure.ts';

/** Wall time between frames while the room runs at 1x, in a page of 800 x 450; the page draws as often as it can. */
export function sceneFigures(yardstickMs: number): Promise<Figure[]> {
  return onPage(async (page, url) => {
    await page.goto(url);
    await page.getByRole('button', { name: 'Run' }).first().click({ timeout: 60_000 });
    const frames = () => page.locator('canvas[data-frames]').evaluate((c) => Number((c as HTMLElement).dataset.frames));
    await page.waitForTimeout(4000);
    const before = await frames();
    await page.waitForTimeout(8000);
    const drawn = (await frames()) - before;
    return [duration('a frame of the Room View while it runs, 800 x 450', 8000 / Math.max(1, drawn), yardstickMs)];
  }, []);
}
