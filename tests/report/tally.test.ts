/** What a run says to a question that a class answered by show of hands. */
import { describe, expect, it } from 'vitest';
import type { Reason, TraceEvent } from '../../src/engine/trace.ts';
import type { OutputId, Tick } from '../../src/engine/types.ts';
import { nearestGuess, truthOf } from '../../src/report/tally.ts';
import type { QuestionKind } from '../../src/report/text/lecture.ts';

const reason: Reason = { code: 'nobodySeen', conditions: [] };
const at = (tick: Tick, output: OutputId, on: boolean): TraceEvent => ({ kind: 'output', tick, output, on, reason });

const MORNING = [
  at(10, 'innerRow', true),
  at(10, 'windowRow', true),
  at(310, 'airContact', true),
  at(9000, 'windowRow', false),
  at(9500, 'innerRow', false),
  at(18_000, 'airContact', false),
];

function ask(kind: QuestionKind, fromTick: Tick, nowTick: Tick, guesses: (Tick | null)[] = []) {
  return truthOf({ kind, fromTick, guesses }, MORNING, nowTick);
}

describe('which switches first', () => {
  it('tells two of the same instant from one alone', () => {
    expect(ask('first', 0, 400).option).toBe(3);
    expect(ask('first', 10, 400).option).toBe(2);
  });

  it('is settled when every output has switched, not before', () => {
    expect(ask('first', 0, 309).settled).toBe(false);
    expect(ask('first', 0, 310).settled).toBe(true);
  });

  it('waits no longer than five minutes for an output that stays as it is', () => {
    expect(ask('first', 400, 9500 + 2499).settled).toBe(false);
    expect(ask('first', 400, 9500 + 2500).settled).toBe(true);
  });
});

it('counts only what comes after the answers were locked, and nothing that lies ahead', () => {
  expect(ask('firstOff', 0, 8999)).toEqual({ option: null, events: [], settled: false });
  expect(ask('firstOff', 0, 9000).option).toBe(1);
  expect(ask('firstOff', 9000, 9500).option).toBe(0);
});

it('knows the last to go off only when nothing is on any more', () => {
  expect(ask('lastOff', 400, 17_999)).toMatchObject({ option: null, settled: false });
  expect(ask('lastOff', 400, 18_000)).toMatchObject({ option: 2, settled: true });
  expect(ask('lastOff', 400, 18_000).events.map(({ output }) => output)).toEqual([
    'windowRow',
    'innerRow',
    'airContact',
  ]);
});

it('goes dark when both rows are off, though the air contact is still on, and gives it to the nearest guess', () => {
  expect(ask('dark', 400, 9000, [9100, 9400, null]).settled).toBe(false);
  expect(ask('dark', 400, 9500, [9100, 9700, null])).toMatchObject({ option: 1, settled: true });
  expect(nearestGuess([null, 90, 110], 100)).toBe(1);
  expect(nearestGuess([null, null], 100)).toBeNull();
});

it('never says which guess was meant by a question of the story', () => {
  expect(ask('own', 0, 20_000)).toMatchObject({ option: null, settled: false });
});
