/** A person at the page: by pointer or by keyboard alone. Every test fails on a console warning or a request elsewhere. */
import { test as base, expect, type Locator, type Page } from '@playwright/test';
import type { Recording } from '../../../src/engine/recording.ts';
import type { Scenario } from '../../../src/engine/types.ts';
import { planScale } from '../../../src/report/planGeometry.ts';

/** The one line that the 3D library writes by itself. */
const ALLOWED = 'THREE.Clock: This module has been deprecated';

/** What the page complains of, or asks of others, from now on. */
export function guarded(page: Page, baseURL: string): string[] {
  const complaints: string[] = [];
  page.on('console', (m) => {
    if (['warning', 'error'].includes(m.type()) && !m.text().includes(ALLOWED)) complaints.push(m.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (r) => {
    const url = r.url();
    if (!/^(data|blob|file):/.test(url) && !url.startsWith(baseURL)) complaints.push(`request to ${url}`);
  });
  return complaints;
}

export const test = base.extend<{ guard: undefined }>({
  guard: [
    async ({ page, baseURL }, use) => {
      const complaints = guarded(page, baseURL!);
      await use(undefined);
      expect(complaints).toEqual([]);
    },
    { auto: true },
  ],
});

export type Way = 'pointer' | 'keyboard';
export const WAYS: readonly Way[] = ['pointer', 'keyboard'];

export async function open(page: Page, story: string, view: 'room' | 'plan' | 'words' = 'room'): Promise<void> {
  await page.goto(`./#story=${story}&view=${view}`);
  await expect(page.getByRole('button', { name: 'Run', exact: true }).first()).toBeEnabled({ timeout: 60_000 });
}

/** Does what a click does; by keyboard the element is reached with Tab alone. */
export async function press(way: Way, target: Locator): Promise<void> {
  const one = target.first();
  await expect(one).toBeEnabled();
  if (way === 'pointer') {
    await one.click();
    return;
  }
  await reach(one);
  await one.page().keyboard.press('Enter');
}

/** How many stops of Tab lie between what has focus and `e`, as the page counts them; negative: behind. 0: it has it. */
function stopsTo(e: Element): number {
  if (e === document.activeElement) return 0;
  const all = [
    ...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary, [tabindex]'),
  ];
  const stops = all.filter((one) => one.tabIndex >= 0 && !one.matches(':disabled') && one.checkVisibility());
  const to = stops.indexOf(e as HTMLElement);
  // What has focus may be no stop itself: the last one before it counts.
  const at = document.activeElement ?? document.body;
  const before = stops.filter(
    (one) => one === at || one.compareDocumentPosition(at) & Node.DOCUMENT_POSITION_FOLLOWING,
  );
  const from = at === document.body ? -1 : before.length - 1;
  return to - from;
}

/** Tab until the element has focus. What the page counts only says how often to press before looking again. */
export async function reach(target: Locator): Promise<void> {
  const page = target.page();
  for (let pressed = 0; pressed < 320; ) {
    const stops = await target.evaluate(stopsTo);
    if (stops === 0) return;
    for (let i = 0; i < Math.abs(stops); i++) await page.keyboard.press(stops > 0 ? 'Tab' : 'Shift+Tab');
    pressed += Math.abs(stops);
  }
  throw new Error('not reached by Tab');
}

/** Chooses an option; by keyboard the list is reached with Tab and the option with the arrows. */
export async function choose(way: Way, list: Locator, option: string): Promise<void> {
  if (way === 'pointer') {
    await list.selectOption({ label: option });
    return;
  }
  await reach(list);
  const texts = await list.locator('option').allTextContents();
  const wanted = texts.indexOf(option);
  expect(wanted, `${option} among ${texts.join(', ')}`).toBeGreaterThanOrEqual(0);
  const now = await list.evaluate((e) => (e as HTMLSelectElement).selectedIndex);
  for (let i = now; i < wanted; i++) await page(list).keyboard.press('ArrowDown');
  for (let i = now; i > wanted; i--) await page(list).keyboard.press('ArrowUp');
}

function page(locator: Locator): Page {
  return locator.page();
}

export function button(at: Page | Locator, name: string | RegExp): Locator {
  return at.getByRole('button', { name, exact: typeof name === 'string' });
}

/** What has been saved of the run, as the page saves it at every act. */
export async function recordingOf(at: Page, story: string): Promise<Recording> {
  const text = await at.evaluate((key) => localStorage.getItem(key), `halflit/recording/${story}`);
  return JSON.parse(text ?? 'null') as Recording;
}

/** The run as saved at an act made for it, a press of the air button: an act is saved once the worker has answered. */
export async function savedRun(at: Page, way: Way, story: string): Promise<Recording> {
  const lastAct = async () => (await recordingOf(at, story))?.inputs.at(-1);
  const before = await lastAct();
  await press(way, button(at, 'Press the air button'));
  await expect.poll(lastAct).toMatchObject({ input: { kind: 'press', input: 'air' } });
  await expect.poll(lastAct).not.toEqual(before);
  return recordingOf(at, story);
}

/** A place on the floor of the Plan View, px of the page. */
export async function planPoint(
  at: Page,
  { room }: Scenario,
  xM: number,
  yM: number,
): Promise<{ x: number; y: number }> {
  const box = (await at.getByRole('img', { name: /^Plan View/ }).boundingBox())!;
  const scale = planScale(room, box.width, box.height);
  return { x: box.x + scale.x(xM), y: box.y + scale.y(yM) };
}

/** Clock of the room as the Clock Bar shows it, s after midnight. */
export async function clockS(at: Page): Promise<number> {
  const text = await at.getByRole('region', { name: 'Clock Bar' }).getByRole('paragraph').first().textContent();
  const [h = 0, m = 0, s = 0] = (text ?? '').split(':').map(Number);
  return h * 3600 + m * 60 + s;
}

/** Waits until the clock of the room has come to an instant, s after midnight. */
export async function untilClock(at: Page, s: number, timeout = 60_000): Promise<void> {
  await expect.poll(() => clockS(at), { timeout, intervals: [100] }).toBeGreaterThanOrEqual(s);
}

export interface Stretch {
  from: string;
  until: string;
  pulses: number;
}

/** Stretches of movement as the Recorder's own table tells them, newest first. */
export async function stretchesOf(at: Page): Promise<Stretch[]> {
  const rows = at.getByRole('table', { name: 'Seen row as a table' }).locator('tbody tr');
  const cells = await rows.evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  return cells.map(([from, until, pulses]) => ({ from: from!, until: until!, pulses: Number(pulses) }));
}
