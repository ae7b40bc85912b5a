/** Dragging the sun: from the pointer's event until readings and picture are new. */
import type { Page } from '@playwright/test';
import { onPage } from './browserPage.ts';
import { duration, type Figure } from './measure.ts';

/** Times noted in the page, ms on its own clock. */
interface Watch {
  movedMs: number;
  /** First after the last movement: a desk's number painted; light taken into the picture; that picture drawn to its last pixel. */
  readingMs: number | null;
  fieldMs: number | null;
  pictureMs: number | null;
  /** All paintings of new numbers and all pictures of new light. */
  readings: number[];
  pictures: number[];
}

declare global {
  interface Window {
    watch: Watch;
  }
}

/** Runs in the page, before anything of it. */
function install(): void {
  const noted: Watch = { movedMs: 0, readingMs: null, fieldMs: null, pictureMs: null, readings: [], pictures: [] };
  window.watch = noted;
  // The light field is the only texture of half floats.
  for (const name of ['texImage2D', 'texSubImage2D'] as const) {
    const plain = WebGL2RenderingContext.prototype[name] as (...args: unknown[]) => void;
    WebGL2RenderingContext.prototype[name] = function (this: WebGL2RenderingContext, ...args: unknown[]) {
      if (args.includes(this.HALF_FLOAT)) noted.fieldMs ??= performance.now();
      plain.apply(this, args);
    } as never;
  }
  addEventListener(
    'pointermove',
    (event) => Object.assign(noted, { movedMs: event.timeStamp, readingMs: null, fieldMs: null, pictureMs: null }),
    true,
  );
}

/** Runs in the page, once the room is there. */
function observe(): void {
  const { watch } = window;
  const canvas = document.querySelector<HTMLCanvasElement>('canvas[data-frames]')!;
  const gl = canvas.getContext('webgl2')!;
  new MutationObserver(() => {
    if (watch.fieldMs === null || watch.pictureMs !== null) return;
    // Reading a pixel back waits until the whole picture is drawn.
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    watch.pictureMs = performance.now();
    watch.pictures.push(watch.pictureMs);
  }).observe(canvas, { attributeFilter: ['data-frames'] });
  const after = new MessageChannel();
  after.port1.onmessage = () => {
    if (watch.readingMs === null) watch.readingMs = performance.now();
    watch.readings.push(performance.now());
  };
  for (const tag of document.querySelectorAll('[data-desk]'))
    new MutationObserver(() => requestAnimationFrame(() => after.port2.postMessage(null))).observe(tag, {
      characterData: true,
      subtree: true,
    });
}

const median = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Movements, to and fro about noon; each changes every desk by more than a tag's step. */
const STEPS = 12;
const NOON = 0.5;
const STEP = 0.06;

/** Median time from one movement of a standing sun until numbers and picture are new. */
async function single(page: Page): Promise<{ readingMs: number; pictureMs: number }> {
  const slider = page.getByRole('slider', { name: 'Sun Rail: hour of the sun' });
  await slider.scrollIntoViewIfNeeded();
  const box = (await slider.boundingBox())!;
  const to = (share: number) => page.mouse.move(box.x + box.width * share, box.y + box.height / 2);
  await to(NOON);
  await page.mouse.down();
  const readings: number[] = [];
  const pictures: number[] = [];
  for (let k = 1; k <= STEPS; k++) {
    await page.waitForTimeout(REST_MS);
    await to(NOON + (k % 2 ? STEP : 0) + k / 200);
    await page.waitForFunction(() => window.watch.pictureMs !== null && window.watch.readingMs !== null, undefined, {
      timeout: 5000,
    });
    const { movedMs, readingMs, pictureMs } = await page.evaluate(() => window.watch);
    readings.push(readingMs! - movedMs);
    pictures.push(pictureMs! - movedMs);
  }
  await page.mouse.up();
  return { readingMs: median(readings), pictureMs: median(pictures) };
}

/** Until picture and numbers of the movement before are at rest, ms. */
const REST_MS = 900;

export function sunDragFigures(yardstickMs: number): Promise<Figure[]> {
  return onPage(async (page, url) => {
    await page.addInitScript(install);
    const figures: Figure[] = [];
    for (const floor of ['nothing', 'light']) {
      await page.goto('about:blank');
      await page.goto(`${url}#story=winter-walk-in&at=06:51:00&floor=${floor}`);
      await page.getByRole('button', { name: 'Sky' }).click({ timeout: 60_000 });
      await page.getByRole('button', { name: 'clear' }).click();
      await page.waitForTimeout(3000);
      await page.evaluate(observe);
      const { readingMs, pictureMs } = await single(page);
      const where = floor === 'light' ? ', Light Map' : '';
      figures.push(duration(`from a movement of the sun to new readings${where}`, readingMs, yardstickMs));
      figures.push(duration(`from a movement of the sun to the new picture${where}`, pictureMs, yardstickMs));
    }
    return figures;
  }, []);
}
