/** In front of a class: hands before Run, the reason after it, sizes for the last row; and two benches without names. */
import { expect, type Page } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import { attemptText } from '../../src/exercise/attempt.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { playFor, solutionEdges } from '../../src/exercise/predict/solution.ts';
import { en } from '../../src/report/text/en.ts';
import { measured } from './support/bigScreen.ts';
import { button, test } from './support/page.ts';

test.use({ viewport: { width: 1920, height: 1080 } });

/** Source: experience research of the product: at 1080 lines secondary type 30 px, lines 4 px, text 7.4:1. */
const LAST_ROW = { typePx: 30, linePx: 3.99, contrast: 7.4 };

async function readable(page: Page, root = '#root'): Promise<void> {
  expect(await measured(page, root, LAST_ROW)).toEqual({ small: [], faint: [], thin: [] });
}

/** Type of what must be read first, px. */
async function sizeOf(page: Page, text: string | RegExp, within: string): Promise<number> {
  const one = page
    .getByRole(within === 'clock' ? 'region' : 'complementary')
    .getByText(text, { exact: true })
    .first();
  return one.evaluate((e) => Number.parseFloat(getComputedStyle(e).fontSize));
}

test('a class votes, the room runs and stops by itself, the reason stays covered until it is revealed', async ({
  page,
}) => {
  await page.goto('./#story=winter-walk-in&view=plan&lecture');
  const run = button(page, 'Run');
  await expect(run).toBeEnabled({ timeout: 60_000 });
  const side = page.getByRole('complementary', { name: 'Lecture' });
  await readable(page);

  // Asked: Run waits, hands are counted by tap and by key.
  await button(page, 'Which switches first?').click();
  await expect(run).toBeDisabled();
  await button(page, 'One hand more: Inner row').click();
  await page.keyboard.press('4');
  await page.keyboard.press('4');
  await page.keyboard.press('2');
  await page.keyboard.press('Shift+2');
  await expect(side.getByLabel('Two at once: 2 hands')).toBeVisible();
  await expect(side.getByLabel('Window row: 0 hands')).toBeVisible();
  await readable(page);
  expect(await sizeOf(page, 'OFF', 'side')).toBeGreaterThanOrEqual(44);
  await button(page, 'Lock answers').click();
  await button(page, /^10×/).click();

  // Run stops at the last first switching; nothing has told when or why until it is asked for.
  await run.click();
  await expect(button(page, 'Show what happened')).toBeVisible();
  await expect(run).toBeVisible({ timeout: 60_000 });
  await expect(side).not.toContainText(/off in|someone|Two at once so it was/);
  await expect(page.getByRole('region', { name: 'Recorder' })).not.toContainText('off 07');
  await button(page, 'Show what happened').click();
  await expect(side).toContainText('Two at once so it was');
  await button(page, /^Inner row on 06:50/).click();
  await expect(side).not.toContainText('Reason of');
  await button(page, 'Reveal the reason').click();
  await expect(side.getByRole('region', { name: 'Reason Card' })).toContainText(/under the setpoint/);
  await readable(page);

  // Revealed it stays, back and forth in time, until the next question covers it.
  await page.getByRole('slider', { name: 'Instant shown' }).press('Home');
  await page.getByRole('slider', { name: 'Instant shown' }).press('End');
  await expect(side.getByRole('region', { name: 'Reason Card' })).toBeVisible();
  await button(page, 'Ask another question').click();
  await button(page, 'When do both rows go dark?').click();
  await expect(side).not.toContainText('Reason of');

  // A guess by tap on the strip, then a minute later by key; the strip shows both numbers.
  await button(page, 'whole run').click();
  await button(page, 'Place on the strip: first guess').click();
  const strip = (await page.getByRole('slider', { name: 'Instant shown' }).boundingBox())!;
  await page.mouse.click(strip.x + strip.width * 0.5, strip.y + strip.height * 0.6);
  await expect(side).toContainText(/First guess 08:2\d/);
  await button(page, 'Second guess: a minute later').press('Enter');
  await expect(side).toContainText('Second guess 06:51');
  await expect(page.locator('[data-guess]')).toHaveCount(2);
  await button(page, 'Take it back').click();

  // Recap: each marker goes back to its instant.
  await button(page, 'Recap').click();
  const recap = page.getByRole('dialog', { name: 'Recap' });
  await expect(recap.getByRole('listitem').first()).toContainText(/Inner row on\. Someone was seen.*Window row too\./);
  await expect(recap).toContainText('winter-walk-in');
  await readable(page, 'dialog');
  await recap.getByRole('listitem').first().getByRole('button').click();
  await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText('06:50:0');
});

/** Numbers wider than the tag they stand in: half a line of type off the middle, on the screen. */
function overflowing(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const out: string[] = [];
    const check = (number: Element, shape: Element, diamond: boolean): void => {
      const [n, s] = [number.getBoundingClientRect(), shape.getBoundingClientRect()];
      if (n.width === 0 || s.width === 0) return;
      const far = (sign: 1 | -1): [number, number] => [
        n.width / 2,
        Math.abs(n.y + n.height / 2 + sign * 0.35 * n.height - (s.y + s.height / 2)),
      ];
      for (const sign of [1, -1] as const) {
        const [dx, dy] = far(sign);
        if ((diamond ? dx + dy : Math.hypot(dx, dy)) > s.width / 2) out.push(`${number.textContent}`);
      }
    };
    for (const b of document.querySelectorAll('[class*="deskTag"] b')) check(b, b.parentElement!, false);
    for (const b of document.querySelectorAll('span[class*="diamond"] b'))
      check(b, b.closest('[class*="diamond"]')!, true);
    for (const t of document.querySelectorAll('text[class*="tagNumber"]'))
      check(t, t.parentElement!.querySelector('circle[class*="_tag_"]')!, false);
    for (const t of document.querySelectorAll('text[class*="diamondNumber"]'))
      check(t, t.parentElement!.querySelector('path[class*="_diamond_"]')!, true);
    return out;
  });
}

test('the sun is moved on its rail, and Room View and Light Map are read from the last row', async ({ page }) => {
  await page.goto('./#story=sun-comes-round&lecture');
  await expect(button(page, 'Run')).toBeEnabled({ timeout: 60_000 });
  const rail = page.getByRole('slider', { name: en.sky.rail });
  await expect(page.locator('canvas').first()).toBeVisible({ timeout: 60_000 });
  await readable(page);
  // By key an hour at a time, to bright light: desks have four figures then.
  const hourOf = async (): Promise<number> => Number(await rail.getAttribute('aria-valuenow')) / 3600;
  const before = await hourOf();
  await rail.press('PageUp');
  await expect.poll(hourOf).toBeCloseTo(before + 1, 1);
  await page.getByRole('combobox', { name: en.stage.onTheFloor }).selectOption('light');
  // By pointer to where the arc has noon.
  const [at, noon] = [
    (await rail.boundingBox())!,
    (await page.getByText('12', { exact: true }).first().boundingBox())!,
  ];
  await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
  await page.mouse.down();
  await page.mouse.move(noon.x + noon.width / 2, noon.y + noon.height * 1.5, { steps: 4 });
  await page.mouse.up();
  await expect.poll(hourOf).toBeGreaterThan(11);
  expect(await hourOf()).toBeLessThan(13);
  // A clicker goes on with the lecture: dragging has not kept its keys.
  await expect(rail).not.toBeFocused();
  await expect(page.locator('[data-desk="0"] b').first()).toHaveText(/^\d{4}$/, { timeout: 60_000 });
  await readable(page);
  expect(await overflowing(page)).toEqual([]);
  // The model, its tags and the rail keep clear of one another.
  const box = (await page.locator('[data-legend="light"]').boundingBox())!;
  const words = (await page.getByText(/klx outside/).boundingBox())!;
  expect(words.y + words.height).toBeLessThanOrEqual(box.y);
  await page.getByRole('combobox', { name: en.stage.viewFrom }).selectOption('plan');
  await expect(page.locator('text[class*="tagNumber"]').first()).toHaveText(/\d/);
  await readable(page);
  expect(await overflowing(page)).toEqual([]);
});

test('a hidden cause is picked by its number, and the class votes what to measure', async ({ page }) => {
  await page.goto('./#story=winter-walk-in&view=plan&lecture');
  await expect(button(page, 'Run')).toBeEnabled({ timeout: 60_000 });
  await button(page, 'More').click();
  await button(page, '1 on').click();
  await button(page, 'Put it into the room, hidden').click();
  await expect(page.getByRole('combobox', { name: 'Measurement 1' })).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole('combobox').first()).toContainText('Hidden: 1');
  await expect(button(page, 'Ask the class')).toBeEnabled({ timeout: 60_000 });
  const trail = page.getByRole('region', { name: 'Causes that still fit' });
  await expect(trail).toContainText(/(\d+) of \1 causes still fit/, { timeout: 60_000 });
  await button(page, 'Ask the class').click();
  await button(page, /^One hand more/)
    .nth(1)
    .click();
  await readable(page);
  await button(page, 'Lock answers').click();
  await button(page, 'Take this measurement').click();
  await expect(trail).toContainText(/\d+ → \d+/, { timeout: 60_000 });
  await expect(page.getByRole('region', { name: 'What we measured' }).getByRole('listitem')).toHaveCount(1);
  await readable(page);
});

test('two attempts stand on the Split Bench without names, under one clock', async ({ page }) => {
  const loaded = exerciseById(diskLibrary(), 'after-the-meeting');
  if (!loaded.ok || loaded.value.kind !== 'predict') throw new Error('no such prediction');
  const exercise = loaded.value;
  const attempt = (id: string, name: string, seed: number) => ({
    name: `${name}.json`,
    mimeType: 'application/json',
    buffer: Buffer.from(
      attemptText({
        format: 1,
        exercise: id,
        seed,
        engine: ENGINE_VERSION,
        names: [name],
        aid: 'practice',
        inputs: [],
        headTick: 100,
        digests: [],
        answers: { predict: { edges: solutionEdges(exercise, playFor(exercise, seed)) } },
      }),
    ),
  });
  await page.goto('./#story=winter-walk-in&view=plan&lecture');
  await expect(button(page, 'Run')).toBeEnabled({ timeout: 60_000 });
  await button(page, 'More').click();
  await button(page, 'Split Bench').click();
  const bench = page.getByRole('dialog', { name: 'Split Bench' });
  const files = bench.getByLabel('Choose or drop attempts', { exact: true }).last();
  await files.setInputFiles([attempt('after-the-meeting', 'Ada', 2), attempt('which-row-first', 'Bo', 3)]);
  await expect(bench.getByRole('status').first()).toContainText('must be of the same job');
  await files.setInputFiles([attempt('after-the-meeting', 'Bo', 5)]);
  await expect(bench.locator('svg')).toHaveCount(4, { timeout: 60_000 });
  await readable(page, 'dialog');
  // One clock: the next act of either bench is shown in both.
  await button(bench, 'On to the next act').click();
  const [a, b] = [bench.getByRole('region', { name: 'Bench A' }), bench.getByRole('region', { name: 'Bench B' })];
  await expect(bench).toContainText(/1 of \d+ · /);
  await button(bench, '600').click();
  await button(bench, 'Run').click();
  await expect(bench.getByRole('button', { name: 'Run' })).toBeVisible({ timeout: 60_000 });
  for (const one of [a, b]) await expect(one).toContainText(/(\d+) of \1 · /);
  expect(await page.locator('body').innerHTML()).not.toMatch(/Ada|Bo\b/);
});
