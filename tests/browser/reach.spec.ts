import { expect } from '@playwright/test';
import { button, open, press, test, WAYS } from './support/page.ts';

for (const way of WAYS) {
  test(`a walk-test is walked, recorded, taken back and kept over a reload by ${way}`, async ({ page }) => {
    await open(page, 'winter-walk-in', 'plan');
    await press(way, button(page, 'Run'));
    await expect(page.getByRole('complementary')).toContainText(/Window row\s*ON/, { timeout: 30_000 });
    await press(way, button(page, 'Kit Bag'));
    const kit = page.getByRole('region', { name: 'Kit Bag' });
    await press(way, kit.getByRole('button', { name: 'Walk-test', exact: true }));
    const tool = page.getByRole('region', { name: 'Walk-test', exact: true });
    await press(way, tool.getByRole('button', { name: 'Walk across there' }));
    // The walk makes pulses within two seconds; whoever records then is told so.
    await page.waitForFunction(() => document.body.textContent?.includes('someone seen'));
    await press(way, tool.getByRole('button', { name: 'Record this point' }));
    await expect(tool.getByRole('status').filter({ hasText: /^Point/ })).toContainText(/Point 1: (seen|not seen), /);
    await press(way, button(page, 'Pause'));
    await press(way, tool.getByRole('button', { name: 'Record this point' }));
    await expect(tool.getByRole('status').filter({ hasText: /^Point/ })).toContainText('Point 2:');
    await press(way, tool.getByRole('button', { name: 'Take back the last' }));
    await expect(tool.getByRole('status').filter({ hasText: /^Point/ })).toContainText('Point 1:');

    await page.reload();
    await expect(button(page, 'Kit Bag')).toBeVisible({ timeout: 60_000 });
    await press(way, button(page, 'Kit Bag'));
    await press(
      way,
      page.getByRole('region', { name: 'Kit Bag' }).getByRole('button', { name: 'Walk-test', exact: true }),
    );
    await expect(tool.getByRole('status').filter({ hasText: /^Point/ })).toContainText('Point 1:');
  });
}

test('the reach of walkers across is worked out beside the run and written in metres', async ({ page }) => {
  await open(page, 'winter-walk-in', 'plan');
  await press('pointer', button(page, 'Run'));
  await press('pointer', button(page, 'Pause'));
  await button(page, 'Sight Map').click();
  await button(page, /^across/).click();
  await expect(page.getByText(/Computed for 3 m, 21\.5 °C, 1 m\/s; seen in half of all tries/)).toBeVisible({
    timeout: 90_000,
  });
  await expect(page.getByText(/across \d(\.\d)? m, wall/).first()).toBeVisible();
});
