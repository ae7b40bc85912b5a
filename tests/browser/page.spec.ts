import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { chromium, expect } from '@playwright/test';
import { button, guarded, open, press, test } from './support/page.ts';

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
    const complaints = guarded(page, baseURL!);
    await page.goto(`${baseURL}#story=winter-walk-in`);
    await press('pointer', button(page, 'Run'));
    await expect(page.getByRole('img', { name: /^Plan View/ })).toBeVisible();
    await expect(page.getByText(/offers no WebGL2, so the room is shown in Plan View/)).toBeVisible();
    await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 60_000 });
    await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText(/06:50:2\d/, { timeout: 60_000 });
    expect(complaints).toEqual([]);
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

const POSITION = '{"tick":900,"headTick":900,"seed":20261117,"selection":{"kind":"output","output":"innerRow"}}';
const DAMAGED = {
  'cut off in the middle': '{"format":1,"inputs":[{',
  'whose act the room cannot work':
    '{"format":1,"engine":"1","scenarioId":"winter-walk-in","seed":20261117,"headTick":900,"digests":[],' +
    '"inputs":[{"tick":5,"serial":0,"input":{"kind":"addPerson"}}]}',
};

for (const [what, recording] of Object.entries(DAMAGED)) {
  test(`a save ${what} is put aside with a word, and the story begins at its start`, async ({ page }) => {
    // Before any script of the page: it is found by this visit, and no earlier one can put it aside unseen.
    await page.addInitScript(
      ([run, position]) => {
        localStorage.setItem('halflit/recording/winter-walk-in', run!);
        localStorage.setItem('halflit/position/winter-walk-in', position!);
      },
      [recording, POSITION],
    );
    await page.goto('./#story=winter-walk-in&view=plan');
    await expect(page.getByText(/could not be read; it was put aside/)).toBeVisible({ timeout: 60_000 });
    await expect(page.getByRole('main')).toContainText('06:50');
    await press('pointer', button(page, 'Run'));
    await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 30_000 });
    expect(await page.evaluate(() => localStorage.getItem('halflit/damaged/winter-walk-in'))).toContain('format');
  });
}

test('a link to a story that is not there says so and shows another', async ({ page }) => {
  await page.goto('./#story=no-such-story&at=99:99');
  await expect(page.getByText(/There is no story called “no-such-story”/)).toBeVisible({ timeout: 60_000 });
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
