/** A diagnosis worked from complaint to proof, with the result, by pointer and from the Room in Words by keyboard. */
import { expect, type Page } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { attemptOf } from '../../src/exercise/diagnose/expert.ts';
import { expertWorker } from '../../src/exercise/diagnose/proofs.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { button, choose, open, press, reach, test, WAYS, type Way } from './support/page.ts';

const ID = 'stays-dark';
/** On this bench both rows are set to manual-on. */
const SEED = 1;
const loaded = exerciseById(diskLibrary(), ID);
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const exercise = loaded.value;

async function take(page: Page, way: Way, instrument: string, what?: string): Promise<void> {
  const kit = page.getByRole('region', { name: 'Kit Bag' });
  await choose(way, kit.getByLabel('Instrument'), instrument);
  if (what) await choose(way, kit.getByLabel('What or where'), what);
  const clips = page.getByRole('region', { name: 'What I measured' }).getByRole('listitem');
  const before = await clips.count();
  await press(way, button(kit, /^Take a reading/));
  await expect(clips).toHaveCount(before + 1, { timeout: 60_000 });
  await expect(button(kit, /^Take a reading/)).toBeEnabled({ timeout: 60_000 });
}

for (const way of WAYS) {
  test(`a cause is measured, named, put right and proved, by ${way}`, async ({ page }) => {
    test.setTimeout(120_000);
    await page.goto(`./#job=${ID}&seed=${SEED}&view=${way === 'keyboard' ? 'words' : 'plan'}`);
    await expect(button(page, /^Take a reading/)).toBeEnabled({ timeout: 60_000 });
    // What must be found out is nowhere on the page.
    await expect(page.locator('body')).not.toContainText('waits for the button');
    await take(page, way, 'Ask the client');
    await take(page, way, 'Hand-held setter', 'phase and states');
    await take(page, way, 'Settings sheet', 'Inner row mode');
    const causes = page.getByRole('region', { name: 'Causes' });
    await expect(causes).toContainText('1 of 8 still fit', { timeout: 30_000 });
    await choose(way, causes.getByRole('combobox'), 'Set to manual-on');
    await press(way, button(causes, 'Name this cause'));
    const repair = page.getByRole('region', { name: 'Put it right' });
    // From the list by pointer, with the ordinary controls by keyboard: the room that is left is the same.
    if (way === 'pointer') {
      await choose(
        way,
        repair.getByLabel('Act'),
        'Set: Inner row mode auto-on / auto-off; Window row mode auto-on / auto-off.',
      );
      await press(way, button(repair, 'Do it'));
    } else {
      await expect(button(repair, 'More settings')).toHaveCount(0);
      await press(way, button(repair, 'Begin mending'));
      await expect(repair).toContainText('From here on you are mending.');
      await press(way, button(repair, 'More settings'));
      for (const row of ['Inner row', 'Window row']) {
        await choose(way, repair.getByLabel(`${row} mode`), 'auto-on / auto-off');
      }
    }
    await take(page, way, 'Play the complaint again');
    await take(page, way, 'Move about and watch', 'inner desk 4');
    await take(page, way, 'Press a button', 'Inner button');
    await take(page, way, 'Press a button', 'Window button');
    await take(page, way, 'Settings sheet', 'Inner row mode');
    await reach(page.getByLabel('Name 1'));
    await page.keyboard.type('Ada');
    await press(way, button(page, 'Hand in'));
    const result = page.getByRole('region', { name: 'Result' });
    await expect(result).toContainText('Enough for a pass.', { timeout: 60_000 });
    await expect(result).toContainText('The room had: Set to manual-on.');
    const total = await result.locator('b').first().textContent();
    const text = await page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/${ID}/${SEED}`);
    const attempt = readAttempt(text!, 'kept');
    if (!attempt.ok) throw new Error(attempt.sentences.join(' '));
    const mark = markAttempt(exercise, attempt.value);
    expect(mark.total).toBe(Number(total));
    expect(mark).toMatchObject({ pass: true, firstMismatchTick: null });
    expect(mark.diagnosis?.clipsNotAsShown).toBe(0);
  });
}

test('a hint opens with a reading that rules a cause out, one reading of the cover cloth from the ladder', async ({
  page,
}) => {
  await page.goto(`./#job=${ID}&seed=${SEED}&view=plan`);
  await expect(button(page, /^Take a reading/)).toBeEnabled({ timeout: 60_000 });
  await expect(button(page, /^Hint 1 of 3 · opens with a new reading/)).toBeDisabled({ timeout: 30_000 });
  await take(page, 'pointer', 'Cover cloth');
  await expect(page.getByRole('region', { name: 'What I measured' })).toContainText(
    'The inner row stayed off, the window row stayed off; movement was counted 0 times.',
  );
  await press('pointer', button(page, /^Hint 1 of 3 · costs nothing/));
  await expect(page.getByText(exercise.hints[0]!)).toBeVisible();
  await expect(button(page, /^Hint 2 of 3 · opens with a new reading/)).toBeDisabled();
});

test('an attempt from another machine is taken up where it was left and marked as there', async ({ page }) => {
  test.setTimeout(120_000);
  const job = exercise as DiagnoseExercise;
  const attempt = attemptOf(expertWorker(job, SEED), ['Ada']);
  await open(page, 'winter-walk-in', 'plan');
  await press('pointer', button(page, 'Run'));
  await press('pointer', button(page, 'Pause'));
  const file = { name: 'from-bench.json', mimeType: 'application/json', buffer: Buffer.from(attemptText(attempt)) };
  await page.locator('input[type="file"]').first().setInputFiles(file);
  const clips = page.getByRole('region', { name: 'What I measured' }).getByRole('listitem');
  await expect(clips).toHaveCount(attempt.answers.diagnose!.clips.length, { timeout: 60_000 });
  await expect(page.getByRole('region', { name: 'Causes' })).toContainText('1 of 8 still fit', { timeout: 30_000 });
  await expect(button(page, 'Hand in')).toBeEnabled({ timeout: 60_000 });
  await press('pointer', button(page, 'Hand in'));
  const result = page.getByRole('region', { name: 'Result' });
  await expect(result.locator('b').first()).toHaveText(String(markAttempt(job, attempt).total), { timeout: 60_000 });
});
