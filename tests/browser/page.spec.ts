import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { chromium, expect } from '@playwright/test';
import { button, open, press, test } from './support/page.ts';

const ONE_FILE = fileURLToPath(new URL('../../dist/halflit.html', import.meta.url));

test.describe('the one-file page', () => {
  for (const storage of ['allowed', 'denied'] as const) {
    test(`runs from disk by double-click, storage ${storage}`, async ({ page }) => {
      if (storage === 'denied') {
        await page.addInitScript(() => {
          Object.defineProperty(window, 'localStorage', {
            get: () => {
              throw new DOMException('denied', 'SecurityError');
            },
          });
        });
      }
      await page.goto(`file://${ONE_FILE}`);
      await expect(button(page, 'Run').first()).toBeEnabled({ timeout: 60_000 });
      await press('pointer', button(page, 'Run'));
      await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 60_000 });
    });
  }
});

test('without WebGL the Plan View is shown, says why, and a walk runs to its end', async ({ baseURL }) => {
  const browser = await chromium.launch({
    ...(process.env.CHROMIUM ? { executablePath: process.env.CHROMIUM } : {}),
    ignoreDefaultArgs: ['--enable-unsafe-swiftshader'],
    args: ['--no-sandbox', '--disable-gpu', '--disable-software-rasterizer'],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 1366, height: 768 } });
    await page.goto(`${baseURL}#story=winter-walk-in`);
    await press('pointer', button(page, 'Run'));
    await expect(page.getByRole('img', { name: /^Plan View/ })).toBeVisible();
    await expect(page.getByText(/offers no WebGL2, so the room is shown in Plan View/)).toBeVisible();
    await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 60_000 });
    await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText(/06:50:2\d/, { timeout: 60_000 });
  } finally {
    await browser.close();
  }
});

test('nothing is lost on reload: the same instant, the same settings, the same people', async ({ page }) => {
  await open(page, 'winter-walk-in', 'plan');
  await press('pointer', button(page, 'Run'));
  await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 30_000 });
  await press('pointer', button(page, 'Pause'));
  await press('pointer', button(page, 'Inner row off-delay: less'));
  const card = page.getByRole('region', { name: 'Set-up Sheet' });
  const delay = card.getByRole('group', { name: 'Inner row off-delay' });
  await expect(delay).not.toContainText('10:00');
  const settings = await delay.textContent();
  const clock = await page.getByRole('region', { name: 'Clock Bar' }).getByRole('paragraph').first().textContent();
  await page.reload();
  await expect(page.getByRole('region', { name: 'Clock Bar' }).getByRole('paragraph').first()).toHaveText(clock!, {
    timeout: 60_000,
  });
  await expect(delay).toHaveText(settings!);
});

test('a damaged save and a link to nowhere leave a usable page and say what happened', async ({ page }) => {
  await page.addInitScript(() => localStorage.setItem('halflit/recording/winter-walk-in', '{"format":1,"inputs":[{'));
  await page.goto('./#story=no-such-story&at=99:99');
  await expect(button(page, 'Run').first()).toBeEnabled({ timeout: 60_000 });
  await press('pointer', button(page, 'Run'));
  await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 30_000 });
});

test('scrubbing lands on the asked instant, and clock, outputs and reasons follow', async ({ page }) => {
  await open(page, 'winter-walk-in', 'plan');
  await press('pointer', button(page, 'Run'));
  await press('pointer', button(page, /^600×/));
  const clock = page.getByRole('region', { name: 'Clock Bar' }).getByRole('paragraph').first();
  await expect(clock).toContainText(/07:[0-9]/, { timeout: 60_000 });
  await press('pointer', button(page, 'Pause'));
  const slider = page.getByRole('slider', { name: 'Instant shown' });
  await slider.focus();
  await page.keyboard.press('Home');
  await expect(clock).toHaveText(/06:50:00/);
  await expect(page.getByRole('region', { name: 'Reason Card' })).toContainText(/OFF/);
  await press('pointer', button(page, 'On to the next event'));
  await expect(clock).toHaveText(/06:50:0\d/);
  await expect(page.getByRole('region', { name: 'Reason Card' })).toContainText(/ON/);
});

for (const view of ['room', 'plan', 'words'] as const) {
  test(`no accessibility fault is found by axe in ${view} view, before and after Run`, async ({ page }) => {
    await open(page, 'winter-walk-in', view);
    const scan = async () => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
    };
    expect(await scan()).toEqual([]);
    await press('pointer', button(page, 'Run'));
    await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 30_000 });
    await press('pointer', button(page, 'Pause'));
    expect(await scan()).toEqual([]);
    await press('pointer', button(page, 'About this model'));
    expect(await scan()).toEqual([]);
  });
}
