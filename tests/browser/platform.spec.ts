/** The package as a learning platform opens it: in a frame, under a page whose API is the library `scorm-again`. */
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, test } from '@playwright/test';
import { unzipSync } from 'fflate';
import { diskLibrary, ROOT } from '../../src/cli/files.ts';
import { scormPackage } from '../../src/cli/scorm.ts';
import { serve } from '../../src/cli/serve.mjs';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { playFor, solutionEdges } from '../../src/exercise/predict/solution.ts';
import { memoryOf } from '../../src/exercise/scorm/memory.ts';
import type { Attempt } from '../../src/exercise/types.ts';
import { jobWords } from '../../src/report/text/jobs.ts';
import { outputName } from '../../src/report/text/names.ts';
import { guarded } from './support/page.ts';

const ID = 'when-does-it-go-dark';
const SEED = 2;
const loaded = exerciseById(diskLibrary(), ID);
if (!loaded.ok || loaded.value.kind !== 'predict') throw new Error(`${ID} is no prediction`);
const exercise = loaded.value;

/** What the platform keeps of a first visit, in which an expert foretold everything and left. */
function firstVisit(): string {
  const edges = solutionEdges(exercise, playFor(exercise, SEED));
  const work: Attempt = {
    format: 1,
    exercise: ID,
    seed: SEED,
    engine: ENGINE_VERSION,
    names: [],
    aid: 'test',
    inputs: [],
    headTick: 0,
    digests: [],
    answers: { predict: { edges } },
  };
  return memoryOf(work, { run: 'expert', step: 1 }).text;
}

/** A platform's page with the package in a frame. */
const PLATFORM = `<!doctype html><title>Platform</title><link rel="icon" href="data:,"><style>iframe{width:1340px;height:740px}</style>
<script src="scorm12.js"></script>
<script>
  window.API = new Scorm12API({ autocommit: false, logLevel: 5 });
  window.ends = 0;
  API.loadFromJSON({ cmi: { suspend_data: ${JSON.stringify(firstVisit())} } }, '');
  API.on('LMSFinish', () => window.ends++);
</script>
<iframe src="package/start.html"></iframe>`;

function unpack(zipped: Uint8Array, into: string): void {
  for (const [name, bytes] of Object.entries(unzipSync(zipped))) {
    const path = join(into, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
}

let folder = '';
test.beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'halflit-platform-'));
  const made = scormPackage({ exercise, ownText: null, bench: SEED, aid: 'test' }, join(ROOT, 'dist'));
  if (!made.ok) throw new Error(made.sentences.join(' '));
  unpack(made.value, join(folder, 'package'));
  copyFileSync(join(ROOT, 'node_modules/scorm-again/dist/scorm12.min.js'), join(folder, 'scorm12.js'));
  writeFileSync(join(folder, 'index.html'), PLATFORM);
});
test.afterAll(() => rmSync(folder, { recursive: true }));

test('a prediction begun in an earlier visit is carried on, and arrives at the platform as passed with its points', async ({
  page,
}) => {
  const server = await serve(folder, 0);
  const complaints = guarded(page, server.url);
  // Without WebGL2 the plan is drawn: the picture of the room would take longer than the work.
  await page.addInitScript(() => {
    const { getContext } = HTMLCanvasElement.prototype;
    const without = function (this: HTMLCanvasElement, kind: string, ...rest: unknown[]): unknown {
      return kind === 'webgl2' ? null : Reflect.apply(getContext, this, [kind, ...rest]);
    };
    HTMLCanvasElement.prototype.getContext = without as typeof getContext;
  });
  const field = (name: string): Promise<string> =>
    page.evaluate((f) => (window as unknown as { API: { LMSGetValue(f: string): string } }).API.LMSGetValue(f), name);
  await page.goto(server.url);
  const frame = page.frameLocator('iframe');
  await expect(frame.getByText('Status, points and work of this job go to the learning platform.')).toBeVisible({
    timeout: 60_000,
  });
  await expect(frame.getByText(jobWords.head(exercise.job, 'test'))).toBeVisible();
  await expect(frame.getByText(/^[1-9]\d* edges? set\.$/)).toBeVisible({ timeout: 60_000 });
  expect(await field('cmi.core.lesson_status')).toBe('incomplete');
  expect(await field('cmi.core.lesson_location')).toBe(ID);

  await frame.getByRole('button', { name: 'Lock and run' }).click();
  await frame.getByRole('button', { name: /^To the end/ }).click();
  for (const output of exercise.predict.outputs)
    await frame.getByRole('button', { name: `${outputName[output]} switched: more` }).click({ timeout: 60_000 });
  await frame.getByRole('button', { name: 'Hand in' }).click();
  await expect(frame.getByRole('region', { name: 'Result' })).toContainText(/100\s*of 100/, { timeout: 60_000 });
  expect(await field('cmi.core.lesson_status')).toBe('passed');
  expect(await Promise.all(['raw', 'min', 'max'].map((part) => field(`cmi.core.score.${part}`)))).toEqual([
    '100',
    '0',
    '100',
  ]);

  // Who leaves ends the visit, once.
  await page.evaluate(() => document.querySelector('iframe')!.remove());
  expect(await page.evaluate(() => (window as unknown as { ends: number }).ends)).toBe(1);
  expect(complaints).toEqual([]);
  server.close();
});

test("a job of one's own is read from the package, and anew when the package is", async ({ page }) => {
  const bundled = JSON.parse(diskLibrary().texts.get(`exercises/${ID}.json`)!) as object;
  const server = await serve(join(folder, 'own'), 0);
  const complaints = guarded(page, server.url);
  for (const title of ['Mine', 'Mine, mended']) {
    const ownText = JSON.stringify({ ...bundled, id: 'own-mine', job: 0, title });
    const made = scormPackage(
      { exercise: { ...exercise, id: 'own-mine' }, ownText, bench: 2, aid: 'test' },
      join(ROOT, 'dist'),
    );
    if (!made.ok) throw new Error(made.sentences.join(' '));
    unpack(made.value, join(folder, 'own'));
    await page.goto(`${server.url}start.html`);
    await expect(page.getByText('Own job · test')).toBeVisible({ timeout: 60_000 });
    await expect(page).toHaveTitle(new RegExp(`^${title} `));
  }
  expect(complaints).toEqual([]);
  server.close();
});
