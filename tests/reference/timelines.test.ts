/**
 * The controller against its acceptance timelines: 52 worked by hand, then random sequences on which two independent
 * models of the same text agree. Source: `timelines.json` beside this file. Remaining error: none is expected; the
 * tolerance of each timeline (0.2 s) is the one written in the file.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { mismatches } from '../../src/cli/timelines/compare.ts';
import { readTimelineFile } from '../../src/cli/timelines/read.ts';
import { runTimeline } from '../../src/cli/timelines/run.ts';

const text = readFileSync(new URL('./timelines.json', import.meta.url), 'utf8');
const file = readTimelineFile(text);
const written = JSON.parse(text) as { timelines: { id: string; tolerance: { t_s: number } }[] };

describe('acceptance timelines', () => {
  const run: string[] = [];

  for (const timeline of file.timelines) {
    it(`agrees with ${timeline.id}`, () => {
      run.push(timeline.id);
      expect(mismatches(timeline, runTimeline(timeline, file.defaults))).toEqual([]);
    });
  }

  it('skips none and widens no tolerance', () => {
    expect(run).toEqual(written.timelines.map((t) => t.id));
    expect(new Set(run).size).toBe(95);
    expect(file.timelines.map((t) => t.toleranceS)).toEqual(written.timelines.map((t) => t.tolerance.t_s));
  });

  it('notices a wrong expectation', () => {
    const timeline = file.timelines[5]!;
    const wrong = structuredClone(timeline);
    wrong.expected.states[1]![0] += 0.3;
    expect(mismatches(wrong, runTimeline(timeline, file.defaults))).toHaveLength(1);
  });
});
