import { expect, type Page } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { readAttempt } from '../../src/exercise/attempt.ts';
import { bestOf } from '../../src/exercise/commission/best.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { commissionWords } from '../../src/report/text/commission.ts';
import { minuteSecond } from '../../src/report/text/format.ts';
import { button, choose, press, test, WAYS, type Way } from './support/page.ts';

const ID = 'quiet-reader-delay';
const SEED = 2;
const loaded = exerciseById(diskLibrary(), ID);
if (!loaded.ok || loaded.value.kind !== 'commission') throw new Error(`${ID} is no commissioning`);
const exercise = loaded.value;
const delayS = bestOf(exercise, SEED).shortestS!;

async function setDelay(page: Page, way: Way, name: string): Promise<void> {
  const value = page.getByRole('group', { name, exact: true }).locator('output');
  for (let i = 0; i < 12 && (await value.textContent()) !== minuteSecond(delayS); i++) {
    const before = await value.textContent();
    await press(way, button(page, `${name}: more`));
    await expect(value).not.toHaveText(before!);
  }
  await expect(value).toHaveText(minuteSecond(delayS));
}

for (const way of WAYS) {
  test(`a delay is set, proved and handed in by ${way}; nothing is lost on reload, and the mark is the same elsewhere`, async ({
    page,
  }) => {
    await page.goto(`./#job=${ID}&seed=${SEED}&view=${way === 'pointer' ? 'room' : 'words'}`);
    const card = page.getByRole('complementary', { name: 'Job Card' });
    await expect(button(page, 'Prove it')).toBeEnabled({ timeout: 60_000 });
    await press(way, button(page, 'Prove it'));
    await expect(card.getByRole('table', { name: 'Proving runs' })).toContainText('times', { timeout: 60_000 });
    await expect(card).toContainText('not yet');
    // What works is for the learner to find: the bound is told in the result only.
    await expect(card).not.toContainText(minuteSecond(delayS * 1.3));

    await setDelay(page, way, 'Inner row off-delay');
    await setDelay(page, way, 'Window row off-delay');
    await expect(card).toContainText('Settings have changed since this proving run.');
    await press(way, button(page, 'Prove it'));
    await expect(card.getByRole('table', { name: 'Proving runs' })).toContainText('never', { timeout: 60_000 });
    await expect(card).not.toContainText('not yet');

    await page.reload();
    await expect(page.getByRole('group', { name: 'Window row off-delay', exact: true }).locator('output')).toHaveText(
      minuteSecond(delayS),
      { timeout: 60_000 },
    );
    await press(way, button(page, 'Hand in'));
    const result = page.getByRole('region', { name: 'Result', exact: true });
    await expect(result).toContainText(/100\s*of 100/, { timeout: 60_000 });
    await expect(result).toContainText(minuteSecond(delayS * 1.3));
    const text = await page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/${ID}/${SEED}`);
    const attempt = readAttempt(text!, 'kept');
    expect(attempt.ok).toBe(true);
    if (!attempt.ok) return;
    expect(markAttempt(exercise, attempt.value)).toMatchObject({ total: 100, pass: true, firstMismatchTick: null });
  });
}

const DESIGN_ID = 'where-to-mount';
const plan = exerciseById(diskLibrary(), DESIGN_ID);
if (!plan.ok || plan.value.kind !== 'design') throw new Error(`${DESIGN_ID} is no design`);
const design = plan.value;
const best = design.commission.best.design!;

for (const way of WAYS) {
  test(`a detector is placed, turned, its lamps parted, proved and handed in by ${way}`, async ({ page }) => {
    await page.goto(`./#job=${DESIGN_ID}&seed=${SEED}&view=${way === 'pointer' ? 'plan' : 'words'}`);
    await expect(button(page, 'Prove it')).toBeEnabled({ timeout: 60_000 });
    const point = design.design!.points.find(({ id }) => id === best.point)!;
    const points = page.getByLabel('Point on the ceiling');
    const number = design.design!.points.indexOf(point) + 1;
    // On the plan every point stands with its number, and a tap chooses it.
    for (const { id } of [...design.design!.points, point]) {
      if (way === 'keyboard') break;
      await page.locator(`[data-point="${id}"]`).click();
      await expect(points).toHaveValue(id);
    }
    if (way === 'keyboard') await choose(way, points, commissionWords.numbered(number, point.label));
    await expect(points).toHaveValue(point.id);
    const arrow = page.getByRole('group', { name: 'Window arrow', exact: true }).locator('output');
    for (let i = 0; i < 24 && (await arrow.textContent()) !== 'to the windows'; i++) {
      await press(way, button(page, 'Window arrow: less'));
    }
    for (const [i, { id }] of design.scenario.room.luminaires.entries()) {
      if (best.rows[id] === 'inner') continue;
      await choose(way, page.getByLabel(new RegExp(`^Lamp ${i + 1}, `)), 'Window row');
    }
    // However long the paper is, what comes next is in reach without scrolling.
    await expect(button(page, 'Hand in')).toBeInViewport({ ratio: 1 });
    await press(way, button(page, 'Hang it so'));
    await expect(button(page, 'Prove it')).toBeEnabled({ timeout: 60_000 });
    await press(way, button(page, 'Prove it'));
    await expect(page.getByRole('table', { name: 'Proving runs' })).toBeVisible({ timeout: 90_000 });
    await expect(page.getByRole('complementary', { name: 'Job Card' })).not.toContainText('not yet');
    await press(way, button(page, 'Hand in'));
    const result = page.getByRole('region', { name: 'Result', exact: true });
    await expect(result).toContainText(/100\s*of 100/, { timeout: 90_000 });
  });
}
