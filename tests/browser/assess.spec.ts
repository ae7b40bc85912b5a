import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { expect } from '@playwright/test';
import { diskLibrary } from '../../src/cli/files.ts';
import type { Recording } from '../../src/engine/recording.ts';
import { NO_ASSESSMENT, wholeTotal, withNote } from '../../src/exercise/assessment/assessment.ts';
import { assessmentText, readAssessment } from '../../src/exercise/assessment/file.ts';
import { attemptText, sealOf } from '../../src/exercise/attempt.ts';
import { attemptOf, createWorker } from '../../src/exercise/diagnose/expert.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import type { Attempt } from '../../src/exercise/types.ts';
import { button, choose, open, press, test } from './support/page.ts';

const loaded = exerciseById(diskLibrary(), 'the-fan-stays-off');
if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error('no such diagnosis');
const exercise = loaded.value;

/** Nothing was done but to write a sentence: quick to mark, and the advice is the lecturer's. */
function written(name: string): Attempt {
  const attempt = attemptOf(createWorker(exercise, 1), [name]);
  attempt.answers.diagnose!.record.advice = 'The fan waits for four minutes.';
  return attempt;
}

/** A run of the same bench with an act that the attempt does not have. */
function othersRun({ seed, engine, headTick }: Attempt): Recording {
  const inputs = [{ tick: 10, serial: 1, input: { kind: 'setSky', sky: 'overcast' } as const }];
  return { format: 1, engine, scenarioId: `${exercise.id}-${seed}`, seed, inputs, headTick, digests: [] };
}

test('an attempt is assessed: no override without its reason, saved, kept, the sheet of another refused', async ({
  page,
}) => {
  const [mo, kim] = [written('Mo'), written('Kim')];
  const given = { verdict: 'met', points: 1, reason: '' } as const;
  const kims = withNote(NO_ASSESSMENT, { criterion: 'advice', code: '', comment: '', ruling: given });
  const mark = markAttempt(exercise, kim);
  const computed = wholeTotal(mark.total);
  const file = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  const kimsSheet = file('kims-sheet.json', assessmentText(kim, mark, kims));
  const attempts = [file('mo.json', attemptText(mo)), file('kim.json', attemptText(kim))];
  await open(page, 'winter-walk-in', 'plan');
  await press('pointer', button(page, 'Run'));
  await press('pointer', button(page, 'Class'));
  const tray = page.getByLabel('Choose attempts', { exact: true }).last();
  await tray.setInputFiles([kimsSheet, ...attempts]);
  const row = page.getByRole('table', { name: 'Class Tray' }).getByRole('row', { name: /^kim\.json/ });
  await expect(row).toContainText(`${computed + 1}, not yet`, { timeout: 60_000 });

  await press('pointer', button(page, 'Assess mo.json'));
  const sheet = page.getByRole('dialog', { name: "Assessor's sheet" });
  await expect(sheet.getByRole('row', { name: /Advice to the client/ })).toContainText('waits for four minutes');
  const first = sheet.getByRole('row', { name: /^Safe working/ });
  await choose('keyboard', first.getByLabel('What counts'), 'half');
  await press('pointer', button(sheet, 'Save as a file'));
  await expect(sheet.getByRole('status').first()).toContainText(
    'Not saved. Safe working: an override needs its reason',
  );
  await expect(first.getByLabel('Reason')).toBeFocused();
  await page.keyboard.type('Stood on a chair.');
  await expect(sheet.locator('dl')).toContainText(`${computed - 12} of 100`);
  expect((await new AxeBuilder({ page }).include('dialog:last-of-type').analyze()).violations).toEqual([]);
  const saved = page.waitForEvent('download');
  await press('pointer', button(sheet, 'Save as a file'));
  const text = readFileSync(await (await saved).path(), 'utf8');
  expect(readAssessment(text, 'sheet.json')).toMatchObject({ ok: true, value: { attempt: sealOf(mo) } });
  await sheet.getByLabel('Open a sheet').last().setInputFiles([kimsSheet]);
  await expect(sheet.getByRole('status').first()).toContainText('kims-sheet.json belongs to another attempt');
  await expect(sheet.locator('dl')).toContainText(`${computed - 12} of 100`);
  await page.keyboard.press('Escape');
  await expect(button(page, 'Assess mo.json')).toBeFocused();

  await press('pointer', button(page, 'Criteria'));
  const matrix = page.getByRole('region', { name: /criteria of the class/ });
  await expect(matrix.getByRole('row', { name: /^Assess Mo/ })).toContainText('halfgiven');
  await expect(matrix.getByRole('row', { name: /^Assess Kim/ })).toContainText('metgiven');
  expect((await new AxeBuilder({ page }).include('dialog').analyze()).violations).toEqual([]);

  // Somebody has worked on this bench in this browser: Mo's attempt is looked at as Mo left it all the same.
  await page.evaluate(
    ([id, recording, position]) => {
      localStorage.setItem(`halflit/recording/${id}`, recording!);
      localStorage.setItem(`halflit/position/${id}`, position!);
    },
    [
      `${exercise.id}-1`,
      JSON.stringify(othersRun(mo)),
      JSON.stringify({ tick: 20, seed: 1, selection: { kind: 'none' } }),
    ],
  );
  await press('pointer', button(page, 'Attempts'));
  await press('pointer', button(page, 'look at it'));
  await press('pointer', button(page, /^Take a reading/));
  await expect(page.getByText('The client tells it as it stands above.')).toBeVisible();
  const kept = await page.evaluate((key) => localStorage.getItem(key), `halflit/attempt/${exercise.id}/1`);
  const { names, inputs } = JSON.parse(kept!) as Attempt;
  expect([names[0], inputs]).toEqual(['Mo', mo.inputs]);
});
