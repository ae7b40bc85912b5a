import { readFileSync } from 'node:fs';
import { expect } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { loadExercise } from '../../src/exercise/load.ts';
import { proveExercise } from '../../src/exercise/proofs.ts';
import { button, choose, open, press, reach, test, untilClock, WAYS, type Way } from './support/page.ts';

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

test('a cause hidden in a story by keyboard in words, then found and mended, is a file that proves itself', async ({
  page,
}) => {
  // Two rooms are made ready and the proofs are played: on a busy machine that is more than the usual time.
  test.slow();
  let way: Way = 'keyboard';
  await open(page, 'winter-walk-in', 'words');
  await press(way, button(page, 'Run'));
  await press(way, button(page, 'Pause'));
  await press(way, button(page, 'Class'));
  await press(way, button(page, 'Hide a cause'));
  const sheet = page.getByRole('dialog', { name: 'Your diagnosis' });
  await expect(sheet.getByRole('combobox', { name: 'It shows as' })).toBeVisible({ timeout: 60_000 });
  await choose(way, sheet.getByRole('combobox', { name: 'Cause', exact: true }), 'Set to manual-on');
  await expect(sheet.getByText(/^Inner row off while somebody is there: \d+:\d\d \(sound room 0:00\)$/)).toBeVisible();
  await reach(sheet.getByRole('textbox', { name: 'Title' }));
  await page.keyboard.type('Nothing at seven');
  await reach(sheet.getByRole('textbox', { name: "client's words" }));
  await page.keyboard.type('I sit in the dark.');
  await choose(way, sheet.getByRole('combobox', { name: 'Level of aid' }), 'test');
  await press(way, button(sheet, 'Record what I do'));

  // How a diagnosis is worked by keyboard is another test's.
  way = 'pointer';
  const read = button(page, /^Take a reading/);
  const take = async (instrument: string, what?: string): Promise<void> => {
    await choose(way, page.getByRole('combobox', { name: 'Instrument' }), instrument);
    if (what) await choose(way, page.getByRole('combobox', { name: 'What or where' }), what);
    const clips = page.getByRole('region', { name: 'What I measured' }).getByRole('listitem');
    const before = await clips.count();
    await press(way, read);
    await expect(clips).toHaveCount(before + 1, { timeout: 30_000 });
    await expect(read).toBeEnabled();
  };
  await expect(page.getByText('Own job · test')).toBeVisible({ timeout: 30_000 });
  await expect(page.getByText('“I sit in the dark.”')).toBeVisible();
  // The page says no more of the true cause than of any other candidate.
  const html = await page.evaluate(() => `${document.title} ${location.href} ${document.documentElement.outerHTML}`);
  const told = (cause: string): number => html.split(cause).length - 1;
  expect(told('Set to manual-on')).toBe(1);
  expect(told('Walk-test left on')).toBe(1);
  expect(told('"manual-on"')).toBe(told('"walk-test-left-on"'));
  expect(`${await page.title()} ${page.url()}`).not.toMatch(/manual/);
  await expect(read).toBeEnabled({ timeout: 60_000 });
  await take('Settings sheet', 'Inner row mode');
  await choose(way, page.getByRole('combobox', { name: 'Causes' }), 'Set to manual-on');
  await press(way, button(page, 'Name this cause'));
  await expect(page.getByText('Named: Set to manual-on')).toBeVisible();
  const act = page.getByRole('combobox', { name: 'Act' });
  const mending = (await act.locator('option').allTextContents()).find((text) => text.includes('auto-on'))!;
  await choose(way, act, mending);
  await press(way, button(page.getByRole('region', { name: 'Put it right' }), 'Do it'));
  await take('Play the complaint again');
  await take('Press a button', 'Inner button');
  await take('Press a button', 'Window button');
  await take('Move about and watch', 'under the detector');
  await press(way, button(page, 'Keep this as the solution'));
  await expect(sheet.getByText('Recorded: 5 readings, a cause named')).toBeVisible();

  const [download] = await Promise.all([page.waitForEvent('download'), press(way, button(sheet, 'Save as a file'))]);
  expect(download.suggestedFilename()).toBe('own-nothing-at-seven.json');
  const loaded = loadExercise(readFileSync(await download.path(), 'utf8'), 'own.json', diskLibrary());
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  const results = proveExercise(loaded.value, 1, 0);
  expect(results.map(({ proof }) => proof)).toContain('what was recorded passes');
  expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
});
