/** The recap of a real run: few instants, each told by the engine's own reason. */
import { describe, expect, it } from 'vitest';
import { storyFrom } from '../../src/cli/stories.ts';
import { advance, createSession } from '../../src/host/session.ts';
import { recapOf } from '../../src/report/recap.ts';
import { eventSentence } from '../../src/report/text/events.ts';

function runOf(story: string, forS: number) {
  const session = createSession(storyFrom(story)!);
  advance(session, forS * 10);
  return session.line;
}

describe('a recap of the morning that goes dark', () => {
  const { events, headTick } = runOf('it-goes-out-on-us', 600);
  const markers = recapOf(events, headTick - 1);
  const off = events.find((e) => e.kind === 'output' && e.output === 'innerRow' && !e.on)!;

  it('has at most six markers, in order of time', () => {
    expect(markers.length).toBeGreaterThan(3);
    expect(markers.length).toBeLessThanOrEqual(6);
    const ticks = markers.map(({ tick }) => tick);
    expect(ticks).toEqual([...ticks].sort((a, b) => a - b));
  });

  it('tells the switching with its reason, and the last pulse that the off-delay counted from', () => {
    expect(markers).toContainEqual({ tick: off.tick, text: `${eventSentence(off)} Window row too.` });
    const seen = events.filter((e) => e.kind === 'seen' && e.tick <= off.tick).at(-1)!;
    expect(markers.find(({ text }) => text.startsWith('The last pulse'))?.tick).toBe(seen.tick);
    expect(off.tick - seen.tick).toBe(3000);
  });

  it('knows nothing of what comes after the instant asked for', () => {
    expect(recapOf(events, off.tick - 1).every(({ tick }) => tick < off.tick)).toBe(true);
    expect(recapOf([], 0)).toEqual([]);
  });
});

it('prefers the first of each kind of switching to the many between', () => {
  const { events, headTick } = runOf('hunting', 3600);
  const switched = events.filter((e) => e.kind === 'output');
  const markers = recapOf(events, headTick);
  expect(switched.length).toBeGreaterThan(6);
  expect(markers).toHaveLength(6);
  expect(markers[0]!.tick).toBe(switched[0]!.tick);
});
