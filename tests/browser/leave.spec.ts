import { expect } from '@playwright/test';
import { button, open, press, savedRun, test, WAYS } from './support/page.ts';
import { expectChanged, stagePicture } from './support/picture.ts';
import { replay, switchings } from './support/replay.ts';

const STORY = 'winter-walk-in';

for (const way of WAYS) {
  test(`after leaving, sent by ${way}, the rows go off and the air contact later, each with its reason`, {
    tag: '@timed',
  }, async ({ page }) => {
    await open(page, STORY, way === 'pointer' ? 'room' : 'plan');
    await press(way, button(page, 'Run'));
    const outputs = page.getByRole('complementary');
    await expect(outputs).toContainText(/Window row\s*ON/, { timeout: 30_000 });
    await press(way, button(page, /^10×/));
    await expect(outputs).toContainText(/Air contact\s*ON/, { timeout: 30_000 });
    const lit = await stagePicture(page);
    await press(way, button(page, 'People'));
    const people = page.getByRole('region', { name: 'People' });
    await press(way, people.getByRole('button', { name: /^A / }));
    await press(way, people.getByRole('button', { name: 'Leave' }));
    await press(way, button(page, /^600×/));
    await expect(outputs).toContainText(/Air contact\s*OFF/, { timeout: 60_000 });
    await press(way, button(page, 'Pause'));
    await expectChanged(page, lit, await stagePicture(page), 0.02);
    const table = page.getByRole('table', { name: 'Recorder as a table' });
    for (const line of [
      /Inner row off\. Nobody was seen for 10:00/,
      /Window row off\. Nobody was seen for 10:00/,
      /Air contact off\. Nobody was seen for 15:00/,
    ]) {
      await expect(table).toContainText(line);
    }
    const off = switchings(replay(await savedRun(page, way, STORY)).events).filter((f) => !f.on);
    expect(off.map((f) => f.output)).toEqual(['innerRow', 'windowRow', 'airContact']);
    expect(off.every((f) => f.why === 'nobodySeen')).toBe(true);
    expect(off[2]!.tick - off[0]!.tick).toBe(3000);
  });
}
