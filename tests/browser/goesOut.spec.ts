import { expect } from '@playwright/test';
import { button, open, press, recordingOf, stagePicture, test, WAYS } from './support/page.ts';
import { replay, switchings } from './support/replay.ts';

const STORY = 'it-goes-out-on-us';

for (const way of WAYS) {
  test(`It goes out on us, from the dark to the morning that stays lit, in six acts by ${way}`, async ({ page }) => {
    await open(page, STORY, way === 'pointer' ? 'room' : 'plan');
    let acts = 0;
    const act = async (name: string | RegExp) => {
      acts++;
      await press(way, button(page, name));
    };
    const card = page.getByRole('region', { name: 'Reason Card' });

    await act('Run');
    await expect(card).toContainText(/ON/, { timeout: 30_000 });
    const lit = await stagePicture(page);
    await expect(card).toContainText(/OFF/, { timeout: 60_000 });
    await act('Pause');
    await expect(card).toContainText('nobody seen');
    const dark = await stagePicture(page);
    expect(dark.equals(lit)).toBe(false);

    // Why: nobody was seen for the whole off-delay; the last pulse can be shown, and no mark lies after it.
    await expect(card).toContainText(/5:00/);
    await act(/^(Show the last pulse|last seen)/);
    await expect(page.getByText('Looking back').first()).toBeVisible();
    await expect(card).toContainText(/ON/);

    await act('Give both rows an off-delay of ten minutes.');
    await act(/^600×/);
    await act('Run');
    await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText(/08:5\d:/, { timeout: 80_000 });
    expect(acts).toBeLessThanOrEqual(6);
    await press(way, button(page, 'Pause'));

    const recording = await recordingOf(page, STORY);
    // Without the act the room went dark after a whole off-delay in which no pulse counted.
    const { events } = replay({ ...recording, inputs: [], headTick: 6000 });
    const off = switchings(events).find((s) => s.output === 'innerRow' && !s.on)!;
    const seenTicks = events.flatMap((e) => (e.kind === 'seen' && e.tick < off.tick ? [e.tick] : []));
    expect(off.tick - Math.max(...seenTicks)).toBe(3000);
    expect(recording.inputs.map((i) => i.input.kind)).toContain('setSettings');
    const flips = switchings(replay(recording).events).filter((s) => s.output === 'innerRow');
    expect(flips.map((f) => f.on)).toEqual([true]);
  });
}
