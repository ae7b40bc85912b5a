import { describe, expect, it } from 'vitest';
import { seenStretches } from '../../src/app/panels/recorder/stretches.ts';
import type { TraceEvent } from '../../src/engine/trace.ts';

const pulse = (tick: number, counted = true) => ({ kind: 'pulse', tick, counted }) as TraceEvent;
const act = (tick: number) =>
  ({ kind: 'input', tick, input: { kind: 'setDoor', doorId: 'd', open: true } }) as TraceEvent;

describe('the Seen row as a table', () => {
  it('puts pulses no more than five seconds apart into one stretch, and counts each', () => {
    expect(seenStretches([pulse(10), pulse(60), pulse(111), pulse(111)], 9)).toEqual([
      { fromTick: 10, untilTick: 60, pulses: 2 },
      { fromTick: 111, untilTick: 111, pulses: 2 },
    ]);
  });

  it('begins a new stretch after an act', () => {
    expect(seenStretches([pulse(10), act(12), pulse(14)], 9).map((s) => s.pulses)).toEqual([1, 1]);
  });

  it('leaves out pulses that did not count, and counts what an extension reports', () => {
    const reported = { kind: 'seen', tick: 20, by: 'extension' } as TraceEvent;
    const same = { kind: 'seen', tick: 20, by: 'pulse' } as TraceEvent;
    expect(seenStretches([pulse(10, false), same, reported], 9)).toEqual([{ fromTick: 20, untilTick: 20, pulses: 1 }]);
  });

  it('keeps the last ones when there are too many', () => {
    expect(seenStretches([pulse(0), pulse(100), pulse(200)], 2).map((s) => s.fromTick)).toEqual([100, 200]);
  });
});
