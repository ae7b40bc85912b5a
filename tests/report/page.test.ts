import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { draw, stripData } from '../../src/cli/draw.ts';
import { momentOf, runTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import type { TraceEvent } from '../../src/engine/trace.ts';
import { advance } from '../../src/host/session.ts';
import { answerSheet, reportPage } from '../../src/report/page.ts';
import { countedTicks } from '../../src/report/stripRows.ts';

const session = runTo(storyFrom('winter-walk-in')!, 0);
const start = momentOf(session);
advance(session, 600);
const data = stripData(session);
const moment = momentOf(session);
const page = reportPage(moment, data, 0, {});
const sheet = answerSheet(start, data, 600, {});

/** Path data that follows a row's label in the drawing. */
function seenStrokes(svg: string): number {
  const row = /M\d+ 44V7\d[^"]*/.exec(svg)?.[0] ?? '';
  return row.split('M').length - 1;
}

describe('the Seen row', () => {
  const pulse = (tick: number, counted: boolean): TraceEvent => ({
    tick,
    kind: 'pulse',
    counted,
    pulse: { subStep: 0, channel: 0, polarity: 1, level: 'hold', signalUv: 1, bearingDeg: null, atM: null },
  });

  it('holds what restarted a delay: counted pulses and movement told by others, each once', () => {
    const events: TraceEvent[] = [
      pulse(10, true),
      { tick: 10, kind: 'seen', by: 'pulse', atM: null },
      pulse(20, false),
      { tick: 30, kind: 'seen', by: 'extension', atM: null },
      { tick: 40, kind: 'press', input: 'inner' },
    ];
    expect(countedTicks(events)).toEqual([10, 30]);
  });
});

describe('the page with plan and strip', () => {
  it('draws a stroke where a pulse was counted, none where nothing was seen', () => {
    const pulses = countedTicks(data.events);
    expect(pulses.length).toBeGreaterThan(10);
    expect(seenStrokes(page)).toBeGreaterThan(10);
    expect(seenStrokes(page)).toBeLessThanOrEqual(pulses.length);
    const quiet = { ...data, events: data.events.filter((e) => e.kind !== 'pulse' && e.kind !== 'seen') };
    expect(seenStrokes(reportPage(moment, quiet, 0, {}))).toBe(0);
  });

  it('writes the clock of every switching over its band, and of the next one beside it', () => {
    expect(page.match(/>on 06:50:02</g)).toHaveLength(2);
    expect(page).toContain('>on 06:50:32<');
    expect(page.match(/>off 07:00:1\d ▸</g)).toHaveLength(2);
  });

  it('names every label of the time axis once', () => {
    const clocks = page.match(/>06:5\d:\d0</g) ?? [];
    expect(clocks.length).toBeGreaterThan(3);
    expect(new Set(clocks).size).toBe(clocks.length);
  });

  it('marks setpoint, release level and now', () => {
    for (const words of ['set 500 lx', 'release 600 lx', 'now', 'threshold']) expect(page).toContain(`>${words}<`);
  });

  it('gives the reason of every output as a sentence with its numbers', () => {
    expect(page).toMatch(/under the setpoint of 500 lx/);
    expect(page).toContain('It goes off when nobody is seen');
  });

  it('prints upright on A4', () => {
    expect(page).toContain('width="210mm" height="297.05mm" viewBox="0 0 1240 1754"');
  });
});

describe('the answer sheet', () => {
  it('gives the question, the pulses, both estimates with their levels, and the delays', () => {
    expect(sheet).toContain(start.scenario.question);
    expect(seenStrokes(sheet)).toBeGreaterThan(10);
    for (const words of ['window row', 'inner row', 'set 500 lx', 'release 600 lx', '10:00', '15:00', '0:30']) {
      expect(sheet).toContain(`>${words}<`);
    }
  });

  it('has a line for name and date and three empty bands', () => {
    expect(sheet).toContain('>Name<');
    expect(sheet).toContain('>Date<');
    expect(sheet.match(/stroke-dasharray="2 4"/g)).toHaveLength(3);
    expect(sheet).not.toContain('hatch');
  });

  it('leaves out the words of the story, which may tell why', () => {
    expect(page).toContain('first person of the day');
    expect(sheet).not.toContain('first person of the day');
  });
});

describe('the part of a run that draw shows', () => {
  let complaints = '';
  beforeEach(() => {
    complaints = '';
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      complaints += String(text);
      return true;
    });
  });
  afterEach(() => vi.restoreAllMocks());

  it.each([
    [['winter-walk-in', '--from', '10:00'], '--from expects a time from 06:50:00 to 09:50:00'],
    [['winter-walk-in', '--from', '07:00', '--at', '07:00:05'], 'at least ten seconds'],
  ])('answers %j with one sentence and a 1', (words, sentence) => {
    expect(draw(words)).toBe(1);
    expect(complaints).toContain(sentence);
    expect(complaints.trim().split('\n')).toHaveLength(1);
  });
});
