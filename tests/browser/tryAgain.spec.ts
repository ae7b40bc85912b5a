/** Trying again from a moment of a result: a copy in which any act is open, and which leaves the marked attempt alone. */
import { expect, type Page } from '@playwright/test';
import { COPY_MARK } from '../../src/app/state/saves.ts';
import { benchSeed, classCode } from '../../src/exercise/classCode.ts';
import { clockToSeconds } from '../../src/report/text/format.ts';
import { jobWords } from '../../src/report/text/jobs.ts';
import { tryWords } from '../../src/report/text/tryAgain.ts';
import { button, clockS, press, recordingOf, test, WAYS } from './support/page.ts';

const ID = 'read-the-room';
const PLAN = { jobs: [1], aid: 'guided', separate: true, series: 5 } as const;
const CODE = classCode({ ...PLAN, jobs: [...PLAN.jobs] });
const SEED = benchSeed({ ...PLAN, jobs: [...PLAN.jobs] }, 1);
const RUN = `${ID}-${SEED}`;

const kept = (page: Page): Promise<string | null> =>
  page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/${ID}/${SEED}`);

for (const way of WAYS) {
  test(`another act is tried in a copy by ${way}, and the attempt, its run and its result stay`, async ({ page }) => {
    await page.goto(`./#job=${ID}&seed=${SEED}&view=${way === 'pointer' ? 'plan' : 'words'}`);
    await expect(button(page, jobWords.handIn)).toBeEnabled({ timeout: 60_000 });
    await press(way, button(page, jobWords.handIn));
    const result = page.getByRole('region', { name: jobWords.result, exact: true });
    await expect(result).toBeVisible({ timeout: 60_000 });
    // Nothing was tagged: handed in, but not passed.
    await press(way, button(page, 'Class'));
    await page.getByLabel('Class code').fill(CODE);
    await expect(button(page, 'Open 1 Read the room · handed in, 0 of 100')).toBeVisible();
    await page.keyboard.press('Escape');
    const said = await result.textContent();
    const attempt = await kept(page);
    const run = await recordingOf(page, RUN);
    expect(run.inputs).toEqual([]);

    const line = result.getByRole('listitem').nth(1);
    await press(way, button(line, jobWords.show));
    // The record begins at 08:05:00, and nothing switches at once.
    await expect.poll(() => clockS(page)).toBeGreaterThan(clockToSeconds('08:05:00'));
    const momentS = await clockS(page);
    await press(way, button(line, tryWords.from));
    const trying = page.getByRole('region', { name: tryWords.region });
    await expect(trying).toContainText('never marked');
    await expect.poll(() => clockS(page), { timeout: 60_000 }).toBe(momentS);
    await press(way, button(page, /^Press the .*inner/));
    await expect(page.getByRole('table', { name: 'Recorder as a table' })).toContainText('Inner button');
    // Whoever leaves from here must not leave the copy behind.
    expect(
      await page.evaluate((mark) => Object.keys(localStorage).filter((key) => key.includes(mark)), COPY_MARK),
    ).toEqual([]);
    expect(await recordingOf(page, RUN)).toEqual(run);
    expect(await kept(page)).toBe(attempt);

    await press(way, button(trying, tryWords.back));
    await expect(result).toHaveText(said!);
    await expect.poll(() => clockS(page), { timeout: 60_000 }).toBe(momentS);
    expect(await kept(page)).toBe(attempt);
  });
}
