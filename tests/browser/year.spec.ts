import AxeBuilder from '@axe-core/playwright';
import { expect } from '@playwright/test';
import { button, open, press, reach, recordingOf, test, untilClock } from './support/page.ts';
import { replay } from './support/replay.ts';

const STORY = 'why-only-one-row';

test('by keyboard: the whole day as a graph and a table, the year beside a run that stays exact', async ({ page }) => {
  await open(page, STORY, 'plan');
  await press('keyboard', button(page, 'Run'));
  await press('keyboard', button(page, 'Sky'));

  await press('keyboard', button(page, 'The whole day'));
  const day = page.getByRole('dialog', { name: 'Light over the whole day' });
  await expect(day.getByRole('row')).toHaveCount(26);
  await expect(day.getByText('now', { exact: true })).toBeVisible();
  const noon = day.getByRole('row', { name: /^12:00/ });
  const midnight = day.getByRole('row', { name: /^00:00/ });
  await press('keyboard', day.getByRole('button', { name: 'all off' }));
  await expect(midnight).toContainText('off');
  const estimate = async (row: typeof noon) =>
    Number((await row.getByRole('cell').nth(2).textContent())!.replace(/\D/g, ''));
  expect(await estimate(noon)).toBeGreaterThan(200);
  expect(await estimate(midnight)).toBe(0);
  const axe = await new AxeBuilder({ page }).include('dialog').analyze();
  expect(axe.violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).toEqual([]);
  await page.keyboard.press('Escape');
  await expect(day).toBeHidden();

  await press('keyboard', button(page, 'The year'));
  const year = page.getByRole('dialog', { name: 'The year' });
  await expect(year.getByText(/not a forecast/)).toBeVisible({ timeout: 20_000 });
  await press('keyboard', year.getByRole('button', { name: 'Work out the year' }));
  await expect(year.getByText(/[1-9]\d* % worked out/)).toBeVisible({ timeout: 30_000 });
  await press('keyboard', year.getByRole('button', { name: 'Stop', exact: true }));
  await expect(year.getByText('Stopped before it was done.')).toBeVisible();
  await press('keyboard', year.getByRole('button', { name: 'Close' }));

  await untilClock(page, 8 * 3600 + 70);
  await press('keyboard', button(page, 'Pause'));
  await expect.poll(() => recordingOf(page, STORY)).not.toBeNull();
  const recording = await recordingOf(page, STORY);
  expect(recording.headTick).toBeGreaterThan(600);
  expect(replay(recording).digests.slice(0, recording.digests.length)).toEqual(recording.digests);
  expect(recording.digests.length).toBeGreaterThan(1);
});

test('a lighter floor by a step button, light worked out anew, and back by Undo', async ({ page }) => {
  await open(page, STORY, 'plan');
  await press('pointer', button(page, 'Run'));
  await press('pointer', button(page, 'Pause'));
  await press('pointer', button(page, 'Buttons'));
  await press('keyboard', button(page, 'Change surfaces, furniture, lamps'));
  const floor = page.getByRole('group', { name: 'Reflectance, floor' });
  await expect(floor).toBeVisible();
  const before = Number(await floor.locator('output').textContent());
  await reach(floor.getByRole('button').last());
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await expect(floor.locator('output')).toHaveText((before + 0.1).toFixed(2));
  await press('pointer', button(page, 'Undo'));
  await expect(floor.locator('output')).toHaveText((before + 0.05).toFixed(2));
});
