import { expect, type Page } from '@playwright/test';
import { button, clockS, open, press, stretchesOf, test, untilClock } from './support/page.ts';

interface Drawn {
  counted: number;
  uncounted: number;
  /** Circles whose trace does not lie on the threshold, or beyond it, at the circle's own instant. */
  astray: number;
}

/** Reads the drawing itself: every pulse circle against the trace of its quadrant. */
async function drawn(page: Page): Promise<Drawn> {
  return page.getByRole('region', { name: 'Recorder' }).evaluate((recorder) => {
    const out = { counted: 0, uncounted: 0, astray: 0 };
    for (const quadrant of recorder.querySelectorAll('g[data-quadrant]')) {
      const d = quadrant.querySelector('path[data-row="signal"]')!.getAttribute('d')!;
      const at = new Map(d.split(/[ML]/).flatMap((p) => (p ? [p.split(' ').map(Number) as [number, number]] : [])));
      const rows = [...quadrant.querySelectorAll('path')].map((p) =>
        Number(/^M0 ([\d.-]+)H/.exec(p.getAttribute('d')!)?.[1]),
      );
      const middle = rows[0]!;
      for (const circle of quadrant.querySelectorAll('circle[data-pulse]')) {
        if (circle.getAttribute('data-pulse') === 'counted') out.counted++;
        else out.uncounted++;
        const limit = Number(circle.getAttribute('cy'));
        const y = at.get(Number(Number(circle.getAttribute('cx')).toFixed(1)));
        // A tenth of a pixel is what the path is written to.
        const beyond = y !== undefined && (limit < middle ? y <= limit + 0.1 : y >= limit - 0.1);
        if (!beyond) out.astray++;
      }
    }
    return out;
  });
}

test('the heat signal close up crosses its thresholds at every pulse of the Seen row, and only there', {
  tag: '@timed',
}, async ({ page }) => {
  await open(page, 'winter-walk-in', 'plan');
  await press('keyboard', button(page, 'Run'));
  const startS = await clockS(page);
  await press('keyboard', button(page, 'Heat signal'));
  await untilClock(page, startS + 6);
  await press('keyboard', button(page, 'Pause'));
  const recorder = page.getByRole('region', { name: 'Recorder' });
  await expect(recorder.locator('path[data-row="signal"]')).toHaveCount(4);

  // Standing, and told so: what came on the way to it is there.
  await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText('Paused');
  const counted = async () => (await stretchesOf(page)).reduce((sum, stretch) => sum + stretch.pulses, 0);
  expect(await counted()).toBeGreaterThan(5);
  // In the ten seconds shown lies the whole walk so far.
  await expect.poll(async () => (await drawn(page)).counted - (await counted())).toBe(0);
  const pulses = await counted();
  await expect.poll(async () => (await drawn(page)).astray).toBe(0);

  // The same in figures.
  const table = recorder.getByRole('table', { name: 'Largest signal of each second and quadrant, µV' });
  const told = async () => {
    const last = await table.locator('tbody tr td:last-child').allTextContents();
    return last.reduce((sum, text) => sum + Number(text), 0);
  };
  await expect.poll(told).toBe(pulses);
  await expect(table.getByRole('columnheader')).toHaveText([
    'Time',
    'back right',
    'front right',
    'front left',
    'back left',
    'Pulses',
  ]);

  // And who it was.
  await press('keyboard', button(page, 'People'));
  const people = page.getByRole('region', { name: 'People' });
  await expect(people).toContainText(/Seen (now|\d+ s ago); largest signal \d+ µV in \d+ seconds, 25 needed to hold\./);

  // Closed again, the strip is as it was.
  await press('keyboard', button(page, 'Heat signal'));
  await expect(recorder.locator('path[data-row="signal"]')).toHaveCount(0);
});
