import { readFileSync } from 'node:fs';
import { expect } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { loadExercise } from '../../src/exercise/load.ts';
import { proveExercise } from '../../src/exercise/proofs.ts';
import { button, open, press, reach, test, untilClock, WAYS } from './support/page.ts';

for (const way of WAYS) {
  test(`what is done in a story becomes a job, proved on the page as on the command line, by ${way}`, async ({
    page,
  }) => {
    await open(page, 'winter-walk-in', way === 'pointer' ? 'plan' : 'words');
    await press(way, button(page, 'Run'));
    await press(way, button(page, 'Pause'));
    await press(way, button(page, 'Class'));
    await press(way, button(page, 'Record a job'));
    await expect(page.getByText(/^A job is being recorded since 06:50:0/)).toBeVisible();
    await press(way, button(page, /^60×/));
    await press(way, button(page, 'Run'));
    await untilClock(page, 6 * 3600 + 52 * 60);
    await press(way, button(page, /window button/i));
    await untilClock(page, 6 * 3600 + 54 * 60);
    await press(way, button(page, /inner button/i));
    await untilClock(page, 6 * 3600 + 57 * 60);
    await press(way, button(page, 'Stop here'));

    const sheet = page.getByRole('dialog', { name: 'Your job' });
    await expect(sheet.getByRole('textbox', { name: 'Line 1' })).toHaveValue(/^Window button pressed/);
    await expect(button(page, 'Keep and prove')).toBeDisabled();
    await reach(sheet.getByRole('textbox', { name: 'Title' }));
    await page.keyboard.type('Two presses before sunrise');
    await press(way, button(page, 'Keep and prove'));
    await expect(sheet).toContainText('Proved on every bench tried.', { timeout: 60_000 });
    const shown = await sheet.getByRole('table', { name: 'Proofs' }).locator('tbody tr').count();

    const [download] = await Promise.all([page.waitForEvent('download'), press(way, button(page, 'Save as a file'))]);
    expect(download.suggestedFilename()).toBe('own-two-presses-before-sunrise.json');
    const path = await download.path();
    const read = loadExercise(readFileSync(path, 'utf8'), 'own.json', diskLibrary());
    if (!read.ok) throw new Error(read.sentences.join(' '));
    const results = [1, 2, 3].flatMap((seed) => proveExercise(read.value, seed, 20));
    expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
    expect(results).toHaveLength(shown);

    if (way === 'keyboard') return;
    // Elsewhere: a browser that has never seen the job opens it from the file and lists it.
    await page.evaluate(() => localStorage.clear());
    await open(page, 'winter-walk-in', 'plan');
    await page.reload();
    const jobs = page.getByRole('combobox', { name: 'Choose a story or a job' });
    await expect(jobs).not.toContainText('Two presses before sunrise');
    await page
      .getByLabel('Open a file')
      .last()
      .setInputFiles({
        name: 'own.json',
        mimeType: 'application/json',
        buffer: readFileSync(path),
      });
    await expect(page.getByText('Own job · guided')).toBeVisible({ timeout: 30_000 });
    await expect(page.getByText(/Window button pressed/).first()).toBeVisible();
    await page.reload();
    await expect(page.getByText('Own job · guided')).toBeVisible({ timeout: 30_000 });
    await expect(jobs).toContainText('Two presses before sunrise');
  });
}
