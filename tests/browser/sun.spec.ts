import { expect } from '@playwright/test';
import { button, open, press, reach, savedRun, test, WAYS } from './support/page.ts';
import { expectChanged, stagePicture } from './support/picture.ts';
import { replay, switchings } from './support/replay.ts';

const STORY = 'sun-comes-round';

for (const way of WAYS) {
  test(`the sun moved by ${way} releases the Window row while the Inner row stays on`, { tag: '@timed' }, async ({
    page,
  }) => {
    await open(page, STORY, 'room');
    await press(way, button(page, 'Run'));
    const outputs = page.getByRole('complementary');
    await expect(outputs).toContainText(/Window row\s*ON/, { timeout: 30_000 });
    const before = await stagePicture(page);
    const rail = page.getByRole('slider', { name: 'Sun Rail: hour of the sun' }).first();
    if (way === 'keyboard') {
      await reach(rail);
      await page.keyboard.press('PageUp');
      for (let i = 0; i < 2; i++) await page.keyboard.press('ArrowRight');
    } else {
      const puck = (await rail.boundingBox())!;
      const eight = (await page.locator('svg text').filter({ hasText: /^8$/ }).first().boundingBox())!;
      const nine = (await page.locator('svg text').filter({ hasText: /^9$/ }).first().boundingBox())!;
      await page.mouse.move(puck.x + puck.width / 2, puck.y + puck.height / 2);
      await page.mouse.down();
      // A little before eight o'clock on the arc.
      const x = eight.x + eight.width / 2 - (nine.x - eight.x) * 0.45;
      const y = eight.y + eight.height / 2 - (nine.y - eight.y) * 0.45 + 14;
      await page.mouse.move(x, y, { steps: 6 });
      await page.mouse.up();
    }
    const hour = async () => Number(await rail.getAttribute('aria-valuenow')) / 3600;
    await expect.poll(hour).toBeGreaterThan(7.1);
    expect(await hour()).toBeLessThan(8);
    await expect(outputs).toContainText(/Window row\s*OFF · enough daylight/, { timeout: 60_000 });
    await press(way, button(page, 'Pause'));
    await expect(page.getByRole('region', { name: 'Reason Card' })).toContainText(/Inner row/);
    await expect(page.getByRole('region', { name: 'Reason Card' })).toContainText(/ON/);
    await expectChanged(page, before, await stagePicture(page), 0.1);

    const flips = switchings(replay(await savedRun(page, way, STORY)).events);
    expect(flips.find((f) => f.output === 'windowRow' && !f.on)?.why).toBe('brightLongEnough');
    expect(flips.filter((f) => f.output === 'innerRow').map((f) => f.on)).toEqual([true]);
  });
}
