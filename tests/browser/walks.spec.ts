/** Two walks compared, by pointer and by keyboard: chosen, walked, noted, concluded, marked, and looked at again. */
import { expect, type Locator, type Page } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import { TICKS_PER_S } from '../../src/engine/units.ts';
import { readAttempt } from '../../src/exercise/attempt.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import type { WalkedLine } from '../../src/exercise/observe/types.ts';
import { isWalks } from '../../src/exercise/observe/walks.ts';
import { walkSolution } from '../../src/exercise/observe/walkWays.ts';
import { clockToSeconds } from '../../src/report/text/format.ts';
import { walkReason, walksWords } from '../../src/report/text/walks.ts';
import { button, choose, clockS, press, test, WAYS, type Way } from './support/page.ts';

const SEED = 3;
const loaded = exerciseById(diskLibrary(), 'two-walks');
if (!loaded.ok || loaded.value.kind !== 'observe' || !isWalks(loaded.value)) throw new Error('no two walks');
const job = loaded.value;

/** Steps to the instant of a note, tick by tick. */
async function stepTo(page: Page, way: Way, walk: Locator, wayM: number, signalUv: number): Promise<void> {
  const wanted = walksWords.now({ wayM, signalUv });
  const now = walk.locator('output');
  for (let i = 0; i < 80 && (await now.textContent()) !== wanted; i++) {
    const before = await now.textContent();
    await press(way, button(page, 'Forward one tick, 0.1 s'));
    await expect.poll(() => now.textContent()).not.toBe(before);
  }
  await expect(now).toHaveText(wanted);
}

async function walkOne(page: Page, way: Way, place: 0 | 1, { line, paceMps, seen, signal }: WalkedLine): Promise<void> {
  const walk = page.getByRole('group', { name: walksWords.walks[place] });
  await choose(way, walk.getByRole('combobox').nth(0), walksWords.lineName(line));
  await choose(way, walk.getByRole('combobox').nth(1), walksWords.paceText(paceMps));
  await press(way, button(walk, walksWords.walk));
  await expect(button(walk, walksWords.seenHere)).toBeVisible({ timeout: 60_000 });
  const notes = [
    { at: seen!, name: walksWords.seenHere },
    { at: signal!, name: walksWords.signalHere },
  ].sort((a, b) => a.at.tick - b.at.tick);
  for (const { at, name } of notes) {
    // The room answers with a switching; the largest signal has to be looked for.
    if (at === seen) {
      await press(way, button(page, 'On to the next event'));
      await expect(walk.locator('output')).toHaveText(walksWords.now(at));
    } else await stepTo(page, way, walk, at.wayM, at.signalUv);
    await press(way, button(walk, name));
  }
  await expect(walk).toContainText(walksWords.seenAfter(seen!.wayM));
  await expect(walk).toContainText(walksWords.signalOf(signal!.signalUv));
}

for (const way of WAYS) {
  test(`two walks are walked, noted and concluded by ${way}, and the mark is the same elsewhere`, async ({ page }) => {
    const right = walkSolution(job, SEED);
    await page.goto(`./#job=two-walks&seed=${SEED}&view=${way === 'pointer' ? 'plan' : 'words'}`);
    await expect(button(page, 'Hand in')).toBeEnabled({ timeout: 60_000 });
    await walkOne(page, way, 0, right.walks![0]!);
    await walkOne(page, way, 1, right.walks![1]!);
    const conclusion = page.getByRole('group', { name: walksWords.conclusion });
    await press(way, button(conclusion, walksWords.walks[right.earlier!]));
    await choose(way, conclusion.getByRole('combobox'), walkReason[right.why!]);
    await press(way, button(page, 'Hand in'));
    const result = page.getByRole('region', { name: 'Result' });
    await expect(result).toContainText(/100\s*of 100/, { timeout: 60_000 });
    const kept = await page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/two-walks/${SEED}`);
    const attempt = readAttempt(kept!, 'kept');
    expect(attempt.ok && markAttempt(job, attempt.value)).toMatchObject({ total: 100, firstMismatchTick: null });
    // The moment of the first walk stands in the record of the first walk, not in the one shown last.
    await press(way, button(result, 'show'));
    const firstS = Math.floor(right.walks![0]!.seen!.tick / TICKS_PER_S);
    await expect.poll(() => clockS(page), { timeout: 60_000 }).toBe(clockToSeconds('22:00:00') + firstS);
  });
}
