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
}

declare global {
  interface Window {
    watch: Watch;
  }
}

/** Runs in the page, before anything of it. */
function install(): void {
  const noted: Watch = { movedMs: 0, readingMs: null, fieldMs: null, pictureMs: null };
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
  }).observe(canvas, { attributeFilter: ['data-frames'] });
  const after = new MessageChannel();
  after.port1.onmessage = () => {
    watch.readingMs ??= performance.now();
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
/** Long drags, to and fro. */
const LONG_DRAGS = 11;
/** Movements of one long drag, and the share of the slider for each: more than its step of five minutes. */
const LONG_STEPS = 60;
const LONG_STEP = 0.004;

interface Waits {
  readingMs: number;
  pictureMs: number;
}

/** Time from the last movement until numbers and picture are new. */
async function waited(page: Page): Promise<Waits> {
  await page.waitForFunction(() => window.watch.pictureMs !== null && window.watch.readingMs !== null, undefined, {
    timeout: 5000,
  });
  const { movedMs, readingMs, pictureMs } = await page.evaluate(() => window.watch);
  return { readingMs: readingMs! - movedMs, pictureMs: pictureMs! - movedMs };
}

/** Medians for single movements of a sun at rest, and for the last movement of a long drag. */
async function drag(page: Page): Promise<{ single: Waits; last: Waits }> {
  const slider = page.getByRole('slider', { name: 'Sun Rail: hour of the sun' });
  await slider.scrollIntoViewIfNeeded();
  const box = (await slider.boundingBox())!;
  const to = (share: number) => page.mouse.move(box.x + box.width * share, box.y + box.height / 2);
  await to(NOON);
  await page.mouse.down();
  const singles: Waits[] = [];
  for (let k = 1; k <= STEPS; k++) {
    await page.waitForTimeout(REST_MS);
    await to(NOON + (k % 2 ? STEP : 0) + k / 200);
    singles.push(await waited(page));
  }
  const lasts: Waits[] = [];
  for (let way = 1, k = 0; k < LONG_DRAGS; k++, way = -way) {
    for (let k = 0; k < LONG_STEPS; k++) await to(NOON + way * (k - LONG_STEPS / 2) * LONG_STEP);
    lasts.push(await waited(page));
  }
  await page.mouse.up();
  const middle = (all: Waits[]): Waits => ({
    readingMs: median(all.map((w) => w.readingMs)),
    pictureMs: median(all.map((w) => w.pictureMs)),
  });
  return { single: middle(singles), last: middle(lasts) };
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
      const waits = await drag(page);
      const where = floor === 'light' ? ', Light Map' : '';
      for (const [from, { readingMs, pictureMs }] of [
        ['a movement of the sun', waits.single],
        ['the last movement of a long drag', waits.last],
      ] as const) {
        figures.push(duration(`from ${from} to new readings${where}`, readingMs, yardstickMs));
        figures.push(duration(`from ${from} to the new picture${where}`, pictureMs, yardstickMs));
      }
    }
    return figures;
  }, []);
}
