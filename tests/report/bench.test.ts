/** Two benches on one page: drawings that do not disturb each other, thick enough for a wall, without names. */
import { describe, expect, it } from 'vitest';
import { storyFrom } from '../../src/cli/stories.ts';
import { frameOf } from '../../src/engine/view.ts';
import { advance, createSession } from '../../src/host/session.ts';
import { benchPlan, benchStrip } from '../../src/report/bench.ts';

const session = createSession(storyFrom('it-goes-out-on-us')!);
advance(session, 4200);
const { scenario, state } = session.sim;
const frame = frameOf(session.sim, session.lastStep!);
const sheet = { side: 'a', title: 'Bench A', widthPx: 450 };
const run = {
  scenario,
  events: session.line.events,
  frame,
  actTicks: [40, 45, 3900, 5000],
  fromTick: 0,
  endTick: 6000,
};
const strip = benchStrip(run, sheet);
const plan = benchPlan({ scenario, setup: state.setup, frame }, { ...sheet, heightPx: 300 });

describe('a bench', () => {
  it('keeps the names inside its drawings its own', () => {
    const ids = [...`${strip}${plan}`.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]!);
    expect(ids.length).toBeGreaterThan(0);
    expect(ids.filter((id) => !id.includes('-a'))).toEqual([]);
    const used = [...`${strip}${plan}`.matchAll(/url\(#([^)]+)\)/g)].map((m) => m[1]!);
    expect(used.filter((id) => !ids.includes(id))).toEqual([]);
  });

  it('has no line under 2 px, as it is shown at twice its size', () => {
    const widths = [...`${strip}${plan}`.matchAll(/stroke-width="([\d.]+)"/g)].map((m) => Number(m[1]));
    expect(Math.min(...widths)).toBeGreaterThanOrEqual(2);
  });

  it('numbers acts that stand on each other together, and never one done with one to come', () => {
    expect(strip).toContain('>1–2<');
    expect(strip).toContain('>3<');
    expect(strip).toContain('>4<');
  });

  it('tells nothing of what time alone would do', () => {
    expect(frame.outputs.airContact.untilTick).not.toBeNull();
    expect(strip).not.toContain('▸');
  });
});
