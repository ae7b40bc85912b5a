import { expect } from '@playwright/test';
import { button, open, press, savedRun, test } from './support/page.ts';
import { replay } from './support/replay.ts';

test('the worker in the browser and Node agree at every minute of the same run, acts included', async ({ page }) => {
  await open(page, 'meeting-and-fan', 'plan');
  await press('pointer', button(page, 'Run'));
  await press('pointer', button(page, /^60×/));
  await press('pointer', button(page, 'Press the window button'));
  await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText(/17:2[5-9]:/, { timeout: 60_000 });
  await press('pointer', button(page, 'Press the inner button'));
  await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText(/17:3\d:/, { timeout: 60_000 });
  await press('pointer', button(page, 'Pause'));
  // Going back and on again must change nothing of what was recorded.
  await press('pointer', button(page, 'Back to the event before'));
  const recording = await savedRun(page, 'pointer', 'meeting-and-fan');
  expect(recording.inputs.length).toBeGreaterThanOrEqual(2);
  expect(recording.digests.length).toBeGreaterThan(5);
  expect(replay(recording).digests).toEqual(recording.digests);
});
