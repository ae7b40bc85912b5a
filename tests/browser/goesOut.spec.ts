import { expect } from '@playwright/test';
import { button, clockS, open, press, recordingOf, stretchesOf, test, untilClock, WAYS } from './support/page.ts';
import { expectChanged, stagePicture } from './support/picture.ts';
import { replay, switchings } from './support/replay.ts';

const STORY = 'it-goes-out-on-us';

function clockText(s: number): string {
  return [s / 3600, (s / 60) % 60, s % 60].map((part) => String(Math.floor(part)).padStart(2, '0')).join(':');
}

for (const way of WAYS) {
  test(`It goes out on us, from the dark to the morning that stays lit, in six acts by ${way}`, {
    tag: '@timed',
  }, async ({ page }) => {
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
    await expectChanged(page, lit, dark, 0.02);

    // Why: nobody was seen for the whole off-delay; the last pulse can be shown, and no mark lies after it.
    await expect(card).toContainText(/5:00/);
    const lastSeen = button(page, /^(Show the last pulse|last seen)/);
    const lastSeenText = await lastSeen.first().textContent();
    expect(lastSeenText).toContain((await stretchesOf(page))[0]!.until);
    await act(/^(Show the last pulse|last seen)/);
    await expect(page.getByText('Looking back').first()).toBeVisible();
    await expect(card).toContainText(/ON/);
    expect(lastSeenText).toContain(clockText(await clockS(page)));

    await act('Give both rows an off-delay of ten minutes.');
    await act(/^600×/);
    await act('Run');
    await untilClock(page, 8 * 3600 + 50 * 60);
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
