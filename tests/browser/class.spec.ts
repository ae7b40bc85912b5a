import { readFileSync } from 'node:fs';
import { expect } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { benchSeed, classCode } from '../../src/exercise/classCode.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { playFor, solutionEdges } from '../../src/exercise/predict/solution.ts';
import type { Attempt } from '../../src/exercise/types.ts';
import { button, open, press, reach, test, WAYS } from './support/page.ts';

const ID = 'after-the-meeting';
const loaded = exerciseById(diskLibrary(), ID);
if (!loaded.ok || loaded.value.kind !== 'predict') throw new Error(`${ID} is no prediction`);
const exercise = loaded.value;

function attempt(name: string, edges: NonNullable<Attempt['answers']['predict']>['edges']): Attempt {
  return {
    format: 1,
    exercise: ID,
    seed: 2,
    engine: ENGINE_VERSION,
    names: [name],
    aid: 'practice',
    inputs: [],
    headTick: 100,
    digests: [],
    answers: { predict: { edges } },
  };
}

test('the tray marks what can be read, tells what cannot, and shows equal work together', async ({ page }) => {
  await open(page, 'winter-walk-in', 'plan');
  await press('pointer', button(page, 'Run'));
  await button(page, 'Pause').first().click();
  await button(page, 'Class').click();
  const right = solutionEdges(exercise, playFor(exercise, 2));
  const file = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  const whole = attemptText(attempt('First pair', right));
  await page
    .getByLabel('Choose attempts', { exact: true })
    .last()
    .setInputFiles([
      file('one.json', whole),
      file('two.json', attemptText(attempt('Second pair', right))),
      file('none.json', attemptText(attempt('Third pair', {}))),
      file('cut.json', whole.slice(0, 120)),
    ]);
  const table = page.getByRole('table', { name: 'Class Tray' });
  await expect(table.getByRole('row')).toHaveCount(4, { timeout: 60_000 });
  await expect(table.getByRole('row', { name: /^one\.json/ })).toContainText(
    /After the meeting2100.*pass.*same work as two\.json/,
  );
  await expect(table.getByRole('row', { name: /^none\.json/ })).toContainText(/0.*not yet.*same room/);
  await expect(page.getByText(/^cut\.json: expected JSON/)).toBeVisible();
  await expect(page.getByRole('table', { name: 'Skills of this class' })).toContainText('air contact');
});

for (const way of WAYS) {
  test(`a class code opens the room of a bench by ${way}`, async ({ page }) => {
    const plan = { jobs: [6, 9, 17], aid: 'guided', separate: true, series: 5 } as const;
    await open(page, 'winter-walk-in', 'plan');
    // Straight from the first screen: a pair with a code need not run anything.
    await press(way, button(page, 'Class'));
    await reach(page.getByLabel('Class code'));
    await page.keyboard.type('999999');
    await expect(page.getByText(/That is not a class code/)).toBeVisible();
    for (let i = 0; i < 6; i++) await page.keyboard.press('Backspace');
    await page.keyboard.type(classCode({ ...plan, jobs: [...plan.jobs] }).toLowerCase());
    await press(way, button(page, 'Bench: more'));
    await reach(page.getByLabel('Name 1'));
    await page.keyboard.type('Ada');
    await press(way, button(page, 'Open 6 After the meeting'));
    const card = page.getByRole('complementary', { name: 'Prediction Card' });
    await expect(card).toContainText(`room ${benchSeed({ ...plan, jobs: [...plan.jobs] }, 2)}`);
    await expect(card).toContainText('Bench 2');
    await expect(page.getByText('Job 6 of 18 · guided')).toBeVisible();
    await expect(button(page, 'Lock and run')).toBeEnabled({ timeout: 60_000 });
    await expect(page.getByLabel('Name 1')).toHaveValue('Ada');
    // Code and bench are typed once: after a reload they stand there, and the job begun is told from a new one.
    await page.getByLabel('Name 2').fill('Bo');
    const download = page.waitForEvent('download');
    await press(way, button(page, 'Stop for today'));
    const file = await download;
    await expect(page.getByText(`Saved as ${file.suggestedFilename()}.`)).toBeVisible();
    const saved = readAttempt(readFileSync(await file.path(), 'utf8'), 'saved');
    expect(saved).toMatchObject({ ok: true, value: { exercise: ID, aid: 'guided', names: ['Ada', 'Bo'] } });
    await page.reload();
    await expect(card).toContainText('Bench 2', { timeout: 60_000 });
    await press(way, button(page, 'Jobs of the class'));
    await expect(button(page, 'Open 6 After the meeting · begun')).toBeVisible();
    // Another job begins with its own tools, whichever were open on the paper before.
    await press(way, button(page, 'Open 17 Where to mount'));
    await press(way, button(page, 'Kit Bag'));
    await press(way, button(page, 'Jobs of the class'));
    await press(way, button(page, 'Open 9 Set the delay'));
    await expect(page.getByRole('group', { name: 'Inner row off-delay', exact: true })).toBeVisible({
      timeout: 60_000,
    });
  });
}

for (const way of WAYS) {
  test(`the short code of a lecture opens the same room by ${way}, and a slip of the pen is told`, async ({ page }) => {
    await open(page, 'winter-walk-in', 'plan');
    await press(way, button(page, 'Class'));
    const field = page.getByLabel('Short code of a lecture');
    await reach(field);
    await page.keyboard.type('stays-drak 17');
    await press(way, button(page, 'Open'));
    await expect(page.getByRole('status').filter({ hasText: 'No story or job has this short code.' })).toBeVisible();
    await expect(field).toHaveAttribute('aria-invalid', 'true');
    await reach(field);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('stays-dark 17');
    await expect(button(page, /^Open 11 /)).toBeVisible();
    if (way === 'pointer') await press(way, button(page, /^Open 11 /));
    else await page.keyboard.press('Enter');
    await expect(page).toHaveURL(/#job=stays-dark&seed=17/);
    await expect(page.getByRole('dialog', { name: 'Class' })).toBeHidden();
  });
}
