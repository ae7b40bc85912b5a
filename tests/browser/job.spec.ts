import { expect, type Page } from '@playwright/test';
import { jobStripView } from '../../src/app/panels/job/view.ts';
import { diskLibrary } from '../../src/cli/files.ts';
import type { OutputId } from '../../src/engine/types.ts';
import { readAttempt } from '../../src/exercise/attempt.ts';
import { benchScenario } from '../../src/exercise/edits.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { playFor, solutionEdges } from '../../src/exercise/predict/solution.ts';
import { clockAt, clockToSeconds } from '../../src/report/text/format.ts';
import { outputName } from '../../src/report/text/names.ts';
import { button, press, test, WAYS, type Way } from './support/page.ts';

const ID = 'after-the-meeting';
const SEED = 2;
const loaded = exerciseById(diskLibrary(), ID);
if (!loaded.ok || loaded.value.kind !== 'predict') throw new Error(`${ID} is no prediction`);
const exercise = loaded.value;
const scenario = benchScenario(exercise, SEED);
const { start } = scenario;
const solution = solutionEdges(exercise, playFor(exercise, SEED));

/** Puts an edge a little before an instant: tapped into its band, or stepped there minute by minute. */
async function addEdgeBefore(page: Page, way: Way, output: OutputId, atS: number): Promise<void> {
  if (way === 'keyboard') {
    await press(way, button(page, 'Add an edge'));
    return;
  }
  const strip = page.getByRole('img', { name: /^Strip of what is given/ });
  const box = (await strip.boundingBox())!;
  const view = jobStripView(exercise, scenario, box.width, box.height);
  const band = view.bands.find((one) => one.output === output)!;
  await page.mouse.click(box.x + view.xOf(atS - 15), box.y + band.topPx + band.heightPx / 2);
}

/** Sets the first edge of an output to an instant: near it first, then pulse by pulse. */
async function foretell(page: Page, way: Way, output: OutputId, atS: number): Promise<void> {
  const editor = page.getByRole('region', { name: 'Edges' });
  const wanted = clockToSeconds(clockAt(atS * 10, start));
  const shown = async (): Promise<number> =>
    clockToSeconds((await editor.locator('output').textContent())!.match(/\d\d:\d\d:\d\d/)![0]);
  await press(way, editor.getByRole('button', { name: outputName[output], exact: true }));
  await addEdgeBefore(page, way, output, atS);
  while ((await shown()) < wanted - 60) await press(way, editor.getByRole('button', { name: '+1 min' }));
  for (let i = 0; i < 60 && (await shown()) < wanted; i++) await press(way, button(page, 'Count from the pulse after'));
  expect(await shown()).toBe(wanted);
}

for (const way of WAYS) {
  test(`a prediction is set, run, seen and marked by ${way}, and its mark is the same when replayed elsewhere`, async ({
    page,
  }) => {
    await page.goto(`./#job=${ID}&seed=${SEED}&view=${way === 'pointer' ? 'room' : 'words'}`);
    await expect(button(page, 'Lock and run')).toBeEnabled({ timeout: 60_000 });
    // What is given are pulses and estimates; what the room will do is nowhere on the page.
    for (const [, edges] of Object.entries(solution)) {
      await expect(page.locator('body')).not.toContainText(clockAt(edges[0]!.atS * 10, start));
    }
    if (way === 'keyboard') {
      // The first stops of Tab on the page lead to the work, past all that lies round the stage.
      const first = await page.locator('button, select, input').first().textContent();
      expect(first).toBe('To the job');
      await button(page, 'To the edges').focus();
      await page.keyboard.press('Enter');
      for (let i = 0; i < 4; i++) await page.keyboard.press('Tab');
      await expect(button(page, 'Add an edge')).toBeFocused();
    }
    const outputs: OutputId[] = ['innerRow', 'windowRow', 'airContact'];
    for (const output of outputs) await foretell(page, way, output, solution[output]![0]!.atS);
    await expect(page.getByText('3 edges set.')).toBeVisible();

    await press(way, button(page, 'Lock and run'));
    await press(way, button(page, /^To the end/));
    await expect(page.getByText('What did you see?')).toBeVisible({ timeout: 60_000 });
    await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText('17:50:00');
    await expect(page.locator('[data-foretold] [data-edge]')).toHaveCount(3);
    for (const output of outputs) await press(way, button(page, `${outputName[output]} switched: more`));
    await press(way, button(page, 'Hand in'));

    const result = page.getByRole('region', { name: 'Result' });
    await expect(result).toContainText(/100\s*of 100/, { timeout: 60_000 });
    await expect(result).toContainText('What you saw is what the Recorder holds.');
    const text = await page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/${ID}/${SEED}`);
    const attempt = readAttempt(text!, 'kept');
    expect(attempt.ok).toBe(true);
    if (!attempt.ok) return;
    expect(attempt.value.digests.length).toBeGreaterThan(20);
    expect(markAttempt(exercise, attempt.value)).toMatchObject({ total: 100, pass: true, firstMismatchTick: null });
    if (way === 'pointer') return;
    // What was passed stands in the case notebook.
    await press(way, button(page, 'Case notebook'));
    const card = page.getByRole('article', { name: exercise.title });
    await expect(card).toContainText(`${clockAt(solution.airContact![0]!.atS * 10, start)}: Air contact off`);
  });
}

test('a wrong edge is told with its moment, its cause and the belief behind it, and nothing can be changed meanwhile', async ({
  page,
}) => {
  await page.goto(`./#job=${ID}&seed=${SEED}&view=plan`);
  await expect(button(page, 'Lock and run')).toBeEnabled({ timeout: 60_000 });
  await foretell(page, 'pointer', 'innerRow', solution.innerRow![0]!.atS);
  await button(page, 'Air contact').click();
  await button(page, 'Add an edge').click();
  await press('pointer', button(page, 'Lock and run'));
  await press('pointer', button(page, /^To the end/));
  await expect(page.getByText('What did you see?')).toBeVisible({ timeout: 60_000 });
  for (const output of ['innerRow', 'windowRow', 'airContact'] as const) {
    await button(page, `${outputName[output]} switched: more`).click();
  }
  await page.reload();
  // Nothing is lost on reload: the end is shown and the counts are there.
  await expect(page.getByText('What did you see?')).toBeVisible({ timeout: 60_000 });
  await button(page, 'Hand in').click();
  const result = page.getByRole('region', { name: 'Result' });
  await expect(result).toContainText('A pass needs 70.', { timeout: 60_000 });
  await expect(result).toContainText(/Window row off at .*: not foretold/);
  const why = result.getByRole('combobox').first();
  await why.selectOption({ label: 'its button was pressed' });
  await expect(result).toContainText(/The controller gives another reason: its off-delay ran out/);
  await result.getByRole('button', { name: 'show' }).first().click();
  await expect(page.getByRole('region', { name: 'Clock Bar' })).toContainText(
    clockAt(solution.innerRow![0]!.atS * 10, start),
  );
});
