import { expect } from '@playwright/test';
import { storyFrom } from '../../src/cli/stories.ts';
import {
  button,
  choose,
  clockS,
  open,
  planPoint,
  press,
  reach,
  savedRun,
  stretchesOf,
  test,
  untilClock,
  WAYS,
} from './support/page.ts';
import { expectChanged, stagePicture } from './support/picture.ts';
import { replay } from './support/replay.ts';

const STORY = 'winter-walk-in';
const scenario = storyFrom(`scenarios/${STORY}.json`)!;

/** Pulses that the controller counted while the person walked, per metre. */
function pulsesPerMetre(
  events: ReturnType<typeof replay>['events'],
  fromTick: number,
  toTick: number,
  metres: number,
): number {
  const seen = events.filter((e) => e.kind === 'seen' && e.tick >= fromTick && e.tick < toTick);
  return seen.length / metres;
}

for (const way of WAYS) {
  test(`a Stand-in set down by ${way} gives more pulses walking across than walking toward the detector`, {
    tag: '@timed',
  }, async ({ page }) => {
    await open(page, STORY, 'plan');
    await press(way, button(page, 'Run'));
    await press(way, button(page, 'Pause'));
    await press(way, button(page, 'People'));
    const people = page.getByRole('region', { name: 'People' });
    // Whoever came in goes, so that every pulse is the walker's.
    await press(way, people.getByRole('button', { name: /^A / }));
    await press(way, people.getByRole('button', { name: 'Take A out' }));
    await press(way, people.getByRole('button', { name: 'Add a Stand-in' }));
    const walker = people.getByRole('listitem').getByRole('button').first();
    await expect(walker).toBeVisible();

    const walkTo = async (xM: number, yM: number) => {
      await press(way, people.getByRole('button', { name: 'Walk Line' }));
      if (way === 'pointer') {
        const at = await planPoint(page, scenario, xM, yM);
        await page.mouse.click(at.x, at.y);
      } else {
        await press(way, people.getByRole('button', { name: 'Add a point' }));
        for (const [axis, value] of [
          ['from the left', xM],
          ['from the front', yM],
        ] as const) {
          const field = people.getByLabel(`Point 1, ${axis}, m`);
          await reach(field);
          await page.keyboard.press('Control+A');
          await page.keyboard.type(String(value));
        }
      }
      await choose(way, people.getByLabel('Point 1, pace'), 'slow, 0.6 m/s');
      await press(way, people.getByRole('button', { name: 'Walk it' }));
    };
    const place = async (xM: number, yM: number) => {
      if (way === 'pointer') {
        await press(way, people.getByRole('button', { name: 'Place' }));
        const at = await planPoint(page, scenario, xM, yM);
        await page.mouse.click(at.x, at.y);
        return;
      }
      // Set down by the arrow keys, a quarter of a metre each.
      await reach(walker);
      const [x, y] = ((await walker.textContent()) ?? '').match(/[\d.]+ m/g)!.map(Number.parseFloat) as [
        number,
        number,
      ];
      const step = async (key: string, metres: number) => {
        for (let i = 0; i < Math.round(Math.abs(metres) / 0.25); i++) await page.keyboard.press(key);
      };
      await step(xM > x ? 'ArrowRight' : 'ArrowLeft', xM - x);
      await step(yM > y ? 'ArrowUp' : 'ArrowDown', yM - y);
    };
    /** Pulses of all movement so far, as the Recorder's own table tells them after the walk. */
    const walkOff = async (lastsS: number) => {
      const startS = await clockS(page);
      await press(way, button(page, /^10×/));
      await press(way, button(page, 'Run'));
      // Five seconds without a pulse end the stretch of this walk.
      await untilClock(page, startS + lastsS + 8);
      await press(way, button(page, 'Pause'));
      return (await stretchesOf(page)).reduce((sum, stretch) => sum + stretch.pulses, 0);
    };
    // On a slow machine somebody has moved by now: the signal must come to rest, and their pulses do not count.
    const idle = await walkOff(0);
    const before = await stagePicture(page);

    // Toward: from the corner straight at the detector. Across: along the left wall, no nearer.
    await place(8.75, 5.75);
    await walkTo(7.5, 5);
    // One body on a plan of the whole room: a thousandth of it.
    await expectChanged(page, before, await stagePicture(page), 0.001);
    const towardShown = (await walkOff(3)) - idle;
    await place(0.5, 5.25);
    await walkTo(0.5, 0.75);
    const acrossShown = (await walkOff(8)) - towardShown - idle;
    // Many across, few or none toward, also for the same time: 4.5 s against 1.5 s.
    expect(acrossShown / 3).toBeGreaterThan(towardShown);

    const { events, peakUv } = replay(await savedRun(page, way, STORY));
    const starts = events.flatMap((e) => (e.kind === 'input' && e.input.kind === 'setPlan' ? [e.tick] : []));
    expect(starts.length).toBe(2);
    const [toward, across] = starts as [number, number];
    const acrossRate = pulsesPerMetre(events, across, across + 75, 4.5);
    const towardRate = pulsesPerMetre(events, toward, toward + 30, 1.5);
    expect(acrossRate).toBeGreaterThan(1);
    expect(acrossRate).toBeGreaterThan(towardRate);
    // Two and a half times: over that from 5 m on for a walker, see tests/detection.
    expect(peakUv(across, across + 75)).toBeGreaterThan(peakUv(toward + 1, toward + 30) * 2);
    // The same pulses stand on the Recorder: one stroke each, or one for several that fall on the same three pixels.
    const strokes = (await page.locator('path[data-row="seen"]').getAttribute('d'))!.split('M').length - 1;
    const seen = events.filter((e) => e.kind === 'seen').length;
    expect(strokes).toBeGreaterThan(3);
    expect(strokes).toBeLessThanOrEqual(seen);
  });
}

test('from Room in Words alone somebody is sent to the door, leaves, and the outputs say so', {
  tag: '@timed',
}, async ({ page }) => {
  await open(page, 'winter-walk-in', 'words');
  await press('keyboard', button(page, 'Run'));
  const words = page.getByRole('region', { name: 'Room in Words' });
  await expect(words).toContainText(/Inner row: ON/, { timeout: 30_000 });
  await choose('keyboard', words.getByLabel('does'), 'Leave');
  await press('keyboard', words.getByRole('button', { name: 'Do it' }));
  await press('keyboard', button(page, /^600×/));
  await expect(words).toContainText(/A is not in the room/, { timeout: 30_000 });
  await expect(words).toContainText(/Air contact: OFF/, { timeout: 60_000 });
  await expect(words).toContainText(/Nobody was seen for/);
});
