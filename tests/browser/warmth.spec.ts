/** Warmth Map and side section: by pointer and by keyboard, in both views, with the engine's own numbers. */
import { expect, type Page } from '@playwright/test';
import { storyFrom } from '../../src/cli/stories.ts';
import { sideSection } from '../../src/engine/detection/sideSection.ts';
import { roomBoxes } from '../../src/engine/room/boxes.ts';
import { warmthOf } from '../../src/engine/warmth.ts';
import { advance, createSession, seek } from '../../src/host/session.ts';
import { sectionSpan } from '../../src/report/text/section.ts';
import { kelvin } from '../../src/report/text/warmth.ts';
import { button, press, test, WAYS } from './support/page.ts';
import { expectChanged, stagePicture } from './support/picture.ts';

const STORY = 'sun-comes-round';
/** 06:21:00 of a story that begins at 06:20:00. */
const AT = { clock: '06:21:00', tick: 600 };

/** The same instant worked here. */
function sessionHere() {
  const session = createSession(storyFrom(`scenarios/${STORY}.json`)!);
  advance(session, AT.tick + 1);
  seek(session, AT.tick);
  return session;
}

async function openAt(page: Page, view: 'room' | 'plan', floor: string): Promise<void> {
  await page.goto(`./#story=${STORY}&at=${AT.clock}&view=${view}&floor=${floor}`);
  await expect(button(page, 'Run').first()).toBeEnabled({ timeout: 60_000 });
}

for (const way of WAYS) {
  test(`the Warmth Map by ${way} writes the engine's contrast beside everybody, in both views`, async ({ page }) => {
    const view = warmthOf(sessionHere().sim);
    expect(view.bodies.length).toBe(3);
    await openAt(page, 'plan', 'none');
    const before = await stagePicture(page);
    await press(way, button(page, 'Warmth Map'));
    for (const { id, contrastK } of view.bodies) {
      await expect(page.locator(`[data-warmth-body="${id}"]`)).toHaveText(kelvin(contrastK), { timeout: 20_000 });
    }
    const pane = view.patches.find((patch) => patch.kind === 'window')!;
    await expect(page.locator(`[data-warmth-patch="${pane.id}"]`)).toHaveText(kelvin(pane.contrastK));
    await expectChanged(page, before, await stagePicture(page), 0.005);
    await expect(page.getByRole('group', { name: 'Hatching by difference from the room' })).toBeVisible();

    await press(way, button(page, 'Room View'));
    for (const [k, { contrastK }] of view.bodies.entries()) {
      await expect(page.locator(`[data-warmth="warmth:body:${k}"]`)).toHaveText(kelvin(contrastK), { timeout: 30_000 });
    }
    await press(way, button(page, 'nothing'));
    await expect(page.locator('[data-warmth]')).toHaveCount(0);
  });

  test(`the side section by ${way} turns, and its distances are those of the map`, async ({ page }) => {
    const { sim } = sessionHere();
    const { room, deskPoints } = { room: sim.scenario.room, deskPoints: sim.scenario.room.deskPoints };
    const here = (bearingDeg: number) =>
      sideSection(sim.tables.movement, roomBoxes(room, sim.state.setup.furniture), {
        bearingDeg,
        deskHeightM: deskPoints[0]!.heightM,
        maskedSectors: [],
      });
    await openAt(page, 'plan', 'sight');
    await press(way, button(page, 'Side section'));
    const panel = page.getByRole('region', { name: 'Side section' });
    const drawing = panel.getByRole('img');
    await expect(drawing).toHaveAttribute('data-bearing', '0', { timeout: 20_000 });
    await expect(page.locator('[data-plane="0"]')).toBeAttached();
    if (way === 'pointer') await panel.getByRole('button', { name: 'Turn by 15° to the right' }).click();
    else {
      await drawing.focus();
      await page.keyboard.press('ArrowRight');
    }
    await expect(drawing).toHaveAttribute('data-bearing', '15', { timeout: 20_000 });
    const section = here(15);
    await expect(drawing.locator('[data-half]')).toHaveCount(section.cells.length);
    const summary = panel.getByText('Cells of this plane as a table');
    if (way === 'pointer') await summary.click();
    else {
      await summary.focus();
      await page.keyboard.press('Enter');
    }
    const [from, to] = section.alongM;
    const told = section.cells.map(({ floorM }) =>
      Math.max(...floorM) > to || Math.min(...floorM) < from ? 'beyond the wall' : sectionSpan(floorM),
    );
    const shown = await panel
      .locator('tbody tr')
      .evaluateAll((rows) => rows.map((row) => row.children[2]!.textContent));
    expect(shown).toEqual(told);
    expect(told.filter((text) => text !== 'beyond the wall').length).toBeGreaterThan(3);

    await press(way, button(page, 'Room View'));
    await expect(panel.getByRole('img')).toHaveAttribute('data-bearing', '15');
    await press(way, panel.getByRole('button', { name: 'Close' }));
    await expect(panel).toHaveCount(0);
  });
}
