/** A worked example played by keyboard through a stop; the learner's own prediction is there again as it was left. */
import { expect, type Page } from '@playwright/test';
import { exampleWords as words } from '../../src/report/text/example.ts';
import { clockToSeconds } from '../../src/report/text/format.ts';
import { jobWords } from '../../src/report/text/jobs.ts';
import { button, clockS, press, test, untilClock } from './support/page.ts';

const ID = 'when-does-it-go-dark';
const SEED = 2;

const kept = (page: Page): Promise<string | null> =>
  page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/${ID}/${SEED}`);

const ofExample = (page: Page): Promise<string[]> =>
  page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('example')));

test('an example is played by keyboard through a stop, and nothing of it stays in the attempt', async ({ page }) => {
  await page.goto(`./#job=${ID}&seed=${SEED}&view=words`);
  const open = button(page, words.open);
  await expect(open).toBeEnabled({ timeout: 60_000 });
  await press('keyboard', button(page, jobWords.addEdge));
  const attempt = await kept(page);
  expect(attempt).toContain('"edges"');

  await press('keyboard', open);
  const example = page.getByRole('complementary', { name: words.region });
  await expect(example).toContainText(words.step(1, 8), { timeout: 60_000 });
  await expect.poll(() => clockS(page), { timeout: 60_000 }).toBe(clockToSeconds('07:56:30'));
  await press('keyboard', button(example, words.play));
  // It comes to its first stop, and stands there until it is answered.
  const stop = example.getByRole('region', { name: words.stop });
  await expect(stop).toContainText(words.waits);
  await expect(button(example, words.nextStep)).toBeDisabled();
  await untilClock(page, clockToSeconds('07:56:33'));
  const choice = stop.getByRole('button').last();
  await press('keyboard', choice);
  await expect(choice).toHaveAttribute('aria-pressed', 'true');
  await expect(stop.getByRole('status')).toContainText(/You.*The room.*07:59:33.*Because.*Try next/);
  await press('keyboard', button(example, words.nextStep));
  await expect(example.getByRole('status').first()).toContainText('07:59:33: the row goes off');
  await untilClock(page, clockToSeconds('07:59:33'));
  await press('keyboard', button(example, words.backStep));
  await expect.poll(() => clockS(page)).toBe(clockToSeconds('07:56:33'));

  await press('keyboard', button(example, words.leave));
  await expect(open).toBeFocused();
  await expect(page.getByText(jobWords.edgesSet(1).replace('.', ''))).toBeVisible();
  expect(await kept(page)).toBe(attempt);
  expect(await ofExample(page)).toEqual([]);
  // What is done from here on is the learner's again.
  await press('keyboard', button(page, jobWords.steps.on));
  await expect.poll(() => kept(page)).not.toBe(attempt);
  const now = JSON.parse((await kept(page))!);
  expect({ ...now, answers: null, seal: null }).toEqual({ ...JSON.parse(attempt!), answers: null, seal: null });
});

test('in a test no example is offered', async ({ page }) => {
  await page.goto(`./#job=${ID}&seed=${SEED}&aid=test&view=words`);
  await expect(button(page, jobWords.lockAndRun)).toBeEnabled({ timeout: 60_000 });
  await expect(button(page, words.open)).toHaveCount(0);
});
