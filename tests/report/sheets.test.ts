import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { draw, stripData } from '../../src/cli/draw.ts';
import { momentOf, runTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import type { Frame } from '../../src/engine/frame.ts';
import type { Scenario } from '../../src/engine/types.ts';
import { advance } from '../../src/host/session.ts';
import type { Moment } from '../../src/report/moment.ts';
import { answerSheet, reportPage } from '../../src/report/page.ts';
import { planSvg } from '../../src/report/plan.ts';
import { sunPatchesM } from '../../src/report/planGeometry.ts';

const walkIn = storyFrom('winter-walk-in')!;

const run = runTo(walkIn, 0);
const start = momentOf(run);
advance(run, 600);
const later = momentOf(run);
const data = stripData(run);

const count = (text: string, part: RegExp): number => [...text.matchAll(part)].length;

describe('a page', () => {
  const page = reportPage(later, data, 0, {});

  it('is the same text when the same run is drawn again', () => {
    const again = runTo(walkIn, 600);
    expect(reportPage(momentOf(again), stripData(again), 0, {})).toBe(page);
  });

  it('holds no number with more than two decimals', () => {
    expect(count(page, /\d\.\d{3,}/g)).toBe(0);
    expect(page).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it('opens and closes its elements in order', () => {
    const open: string[] = [];
    for (const [, slash, name, , single] of page.matchAll(/<(\/?)([a-zA-Z]+)((?:"[^"]*"|[^>"])*?)(\/?)>/g)) {
      if (slash) expect(open.pop()).toBe(name);
      else if (!single) open.push(name!);
    }
    expect(open).toEqual([]);
  });

  it('has a title and a description for those who hear it', () => {
    expect(page).toContain(`<title id="title">${walkIn.title}: ${walkIn.question}</title>`);
    expect(page).toMatch(/<desc id="desc">.*Inner row: ON · .*<\/desc>/);
  });

  it('writes its quantity on each diamond and the lux of every desk on its tag', () => {
    const plan = planSvg(later);
    expect(count(plan, />daylight estimate</g)).toBe(2);
    // Desk tags and diamonds carry the unit.
    expect(count(plan, />lx</g)).toBe(walkIn.room.deskPoints.length + 2);
  });
});

describe('an answer sheet', () => {
  const sheet = answerSheet(start, data, 600, {});

  it('is drawn from what is given alone: the same sheet comes out when all switching is cut from the run', () => {
    const silent = data.events.filter((e) => e.kind === 'pulse' || e.kind === 'seen');
    expect(silent.length).toBeLessThan(data.events.length);
    expect(answerSheet(start, { ...data, events: silent }, 600, {})).toBe(sheet);
  });

  it('changes with the pulses, which are given', () => {
    expect(answerSheet(start, { ...data, events: [] }, 600, {})).not.toBe(sheet);
  });

  it('asks for a name, a date and reasons, and is black, grey and white', () => {
    for (const words of ['Name', 'Date', 'because', walkIn.question]) expect(sheet).toContain(words);
    const colours = new Set([...sheet.matchAll(/#[0-9A-Fa-f]{6}/g)].map(([colour]) => colour));
    expect([...colours].sort()).toEqual(['#111111', '#3D3D3D', '#FFFFFF']);
  });
});

/** Closed form: light through a point z above the floor lands z / tan(altitude) from the wall. */
describe('the sun on the floor', () => {
  const sun: Frame['sun'] = { ...start.frame.sun, altitudeDeg: 45, bearingDeg: 0, directNormalLx: 60_000 };
  const patchesOf = ({ scenario, setup, frame }: Moment) => sunPatchesM(scenario, setup.blinds, frame.sun);
  const at = (scenario: Scenario, closedShare: number, altitudeDeg = 45): Moment => ({
    ...start,
    scenario,
    setup: { ...start.setup, blinds: walkIn.room.windows.map((w) => ({ windowId: w.id, closedShare })) },
    frame: { ...start.frame, sun: { ...sun, altitudeDeg } },
  });

  it('reaches from the height of the sill to the height of the head, and less far under a blind', () => {
    const [window] = walkIn.room.windows;
    const depths = (closed: number) => patchesOf(at(walkIn, closed))[0]!.map(([, y]) => walkIn.room.depthM - y);
    const { sillM, headM } = window!;
    expect(Math.min(...depths(0))).toBeCloseTo(sillM, 9);
    expect(Math.max(...depths(0))).toBeCloseTo(headM, 9);
    expect(Math.max(...depths(0.5))).toBeCloseTo((sillM + headM) / 2, 9);
  });

  it('is gone behind a closed blind and behind what is built opposite', () => {
    expect(patchesOf(at(walkIn, 1))).toEqual([]);
    const built = { ...walkIn, site: { ...walkIn.site, obstructionAltitudeDeg: 30 } };
    expect(patchesOf(at(built, 0, 29))).toEqual([]);
    expect(patchesOf(at(built, 0, 31))).toHaveLength(walkIn.room.windows.length);
  });
});

describe('draw on the command line', () => {
  let err = '';
  const { stderr } = process;
  const write = stderr.write;
  const folder = mkdtempSync(join(tmpdir(), 'sheets-'));

  beforeEach(() => {
    err = '';
    stderr.write = ((chunk: string) => {
      err += chunk;
      return true;
    }) as typeof stderr.write;
  });

  afterEach(() => {
    stderr.write = write;
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('writes the page into the file that is named', () => {
    const file = join(folder, 'page.svg');
    expect(draw(['winter-walk-in', '--at', '06:50:20', '--out', file])).toBe(0);
    expect(readFileSync(file, 'utf8')).toMatch(/^<svg [\s\S]*06:50:20[\s\S]*<\/svg>\n$/);
  });

  it.each([
    [['winter-walk-in', '--at', '6 o’clock'], 'such as 14:20'],
    [['winter-walk-in', '--at', '06:00'], 'before the story starts at 06:50:00'],
    [['winter-walk-in', '--at', '10:00', '--blank'], 'after the story ends at 09:50:00'],
    [['winter-walk-in', '--at', '06:50:10', '--out', join(folder, 'no', 'such', 'folder.svg')], 'folder.svg'],
    [['winter-walk-in', '--colour'], '--colour is not an option here'],
    [['no-such-story'], 'winter-walk-in'],
  ])('answers %j with one helpful sentence and a 1', (args, sentence) => {
    expect(draw(args)).toBe(1);
    expect(err).toContain(sentence);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
